"""What is found out and told, as plain values; pages put it in the words of a language."""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Term:
    """A name of a table ('rhythm', 'hold', ...), or the writer's own where the table has none such."""

    kind: str
    name: str


@dataclass(frozen=True, slots=True)
class Fact:
    """Something that is told; a page puts it in words.

    name: which words. of: what is put into them, by place: numbers, days, tempi, terms, other facts, and tuples of
    these.
    """

    name: str
    of: tuple[tuple[str, object], ...] = ()


def fact(name: str, /, **of: object) -> Fact:
    return Fact(name, tuple(of.items()))


def counted(what: str, number: int, /, **more: object) -> Fact:
    """Words for one, and for several, of something: 'bar' and 'bars'."""
    return fact(what if number == 1 else f"{what}s", number=number, **more)
