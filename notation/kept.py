"""Results of pure functions kept for the next time: what is worked out once and looked at by many, and what stays as
it was while a writer changes a word elsewhere. A result follows from its arguments alone: it is the same whether it was
kept or not."""
from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Generic, TypeVar

Value = TypeVar("Value")

SHORT = 64
"""Lines, steps or rows of what is worth keeping: so what strange files leave behind stays small."""


class Same(Generic[Value]):
    """A key for a cache: equal only where it holds the very same object, which it keeps alive. A whole dance is long to
    compare."""

    __slots__ = ("value",)

    def __init__(self, value: Value) -> None:
        self.value = value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.value is self.value

    def __hash__(self) -> int:
        return id(self.value)


class Kept(Generic[Value]):
    """The results used last, so many at most."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.known: OrderedDict[Hashable, Value] = OrderedDict()
        self.lock = Lock()

    def get(self, key: Hashable, make: Callable[[], Value]) -> Value:
        """What is made, or was made before. key: all that the result follows from."""
        with self.lock:
            if key in self.known:
                self.known.move_to_end(key)
                return self.known[key]
        made = make()
        with self.lock:
            self.known[key] = made
            while len(self.known) > self.most:
                self.known.popitem(last=False)
        return made
