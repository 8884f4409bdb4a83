"""The vocabulary: each word of the trade with its printed forms and the spellings that are read.

The words themselves are data (words/*.yaml); another language is another file, with which a sheet is printed.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Word:
    """A term. name: what the model calls it ('diagonally-forward'). kind: 'foot', 'action', 'gesture', 'footless',
    'direction', 'place', 'mode', 'room', 'turn', 'footwork', 'rise', 'body', 'size', 'head', 'weight', 'joined',
    'count', 'derivation', 'call'.

    words, short: the printed form in words and in shorthand. accepts: spellings read besides these two.
    """

    name: str
    kind: str
    words: str
    short: str
    accepts: tuple[str, ...] = ()
    meaning: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Vocabulary:
    """All the words of one language; told apart by identity, since it is long to hash.

    language: as it is asked for ('en'); tag: of what is printed, by BCP 47 ('en-GB'). phrases: what a sheet says
    besides, by name. names: printed names of positions, holds, rhythms and the like by kind and plain name, where they
    are not printed as they were written. pages: what other pages say, by kind of page and name.
    """

    language: str
    words: tuple[Word, ...]
    tag: str = ""
    phrases: tuple[tuple[str, str], ...] = ()
    names: tuple[tuple[tuple[str, str], str], ...] = ()
    pages: Mapping[tuple[str, str], str] = field(default_factory=dict)

    def named(self, name: str, kind: str) -> Word:
        """The word of that name and kind. Raises KeyError where the file has none."""
        for word in self.words:
            if word.name == name and word.kind == kind:
                return word
        raise KeyError(f"{kind} {name}")

    def printed(self, name: str, kind: str, shorthand: bool) -> str:
        word = self.named(name, kind)
        return word.short if shorthand else word.words
