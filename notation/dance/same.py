"""Results kept for what is worked out once and looked at by many: found again by which object it is, not by what is in
it, since a whole dance is long to compare."""
from __future__ import annotations

from typing import Generic, TypeVar

Value = TypeVar("Value")


class Same(Generic[Value]):
    """A key for a cache: equal only where it holds the very same object, which it keeps alive."""

    __slots__ = ("value",)

    def __init__(self, value: Value) -> None:
        self.value = value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.value is self.value

    def __hash__(self) -> int:
        return id(self.value)
