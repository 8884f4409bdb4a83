"""Faces and their measures: widths of characters, kerning, and which face has a character.

A face is a TrueType file in the folder of fonts, named by its file name. Its measures are stored beside it
(see facetable.py), so that setting a page needs no shaping library; a face without stored measures is measured
when it is first used. Widths are thousandths of the size.
"""
from __future__ import annotations

import unicodedata
from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Any

from notation.installed import data_folder
from notation.page.fault import LayoutError

FALLBACKS = ("SourceSans3-Regular", "DejaVuSans")
SUBSTITUTES = "\u25a1?"
CACHE_BOUND = 30_000


@dataclass(frozen=True, slots=True)
class Face:
    """Measures of one face in thousandths of the size. kern: what is added between two characters.

    underline, strikeout: how high the upper edge of that rule stands above the baseline, and its thickness.
    """

    name: str
    ascent: float
    descent: float
    cap_height: float
    advances: Mapping[str, float]
    kern: Callable[[str, str], float]
    underline: tuple[float, float] = (-75.0, 50.0)
    strikeout: tuple[float, float] = (280.0, 50.0)

    def __contains__(self, character: str) -> bool:
        return character in self.advances


@dataclass(frozen=True, slots=True)
class Shaped:
    """Characters in one face. adjust: kerning after each character, empty where there is none. width: with kerning.

    Lengths are thousandths of the size.
    """

    face: str
    text: str
    width: float
    adjust: tuple[float, ...] = ()


def shape(face: Face, text: str) -> Shaped:
    """The text in that face, which must have all its characters."""
    pairs = [face.kern(one, two) for one, two in zip(text, text[1:], strict=False)]
    width = sum(map(face.advances.__getitem__, text)) + sum(pairs)
    return Shaped(face.name, text, width, (*pairs, 0.0) if any(pairs) else ())


@dataclass(slots=True)
class Faces:
    """The faces of a folder, read when first asked for; words are measured once.

    missing: the characters no face had so far, replaced on the page by an empty box. number: tells these faces from
    any others, for what is kept of them.
    """

    folder: Path = field(default_factory=lambda: data_folder("fonts"))
    fallbacks: tuple[str, ...] = FALLBACKS
    missing: set[str] = field(default_factory=set)
    memory: dict[Hashable, Any] = field(default_factory=dict)
    number: int = field(default_factory=count(1).__next__, compare=False)
    _faces: dict[str, Face] = field(default_factory=dict)
    _words: dict[tuple[str, str], tuple[Shaped, ...]] = field(default_factory=dict)

    def names(self) -> list[str]:
        """The faces the folder has."""
        return sorted(path.stem for path in self.folder.glob("*.ttf"))

    def path(self, name: str) -> Path:
        """The file of a face. LayoutError where there is none of that name."""
        path = self.folder / f"{name}.ttf"
        if "/" in name or "\\" in name or not path.is_file():
            raise LayoutError(f"there is no face '{name}'; the folder of fonts has {', '.join(self.names())}")
        return path

    def face(self, name: str) -> Face:
        """The measures of a face. LayoutError where there is none of that name."""
        if name not in self._faces:
            from notation.page.facetable import read_face

            self._faces[name] = read_face(self.path(name))
        return self._faces[name]

    def shaped(self, name: str, word: str) -> tuple[Shaped, ...]:
        """The word in the named face, in several stretches where characters come from a fallback face."""
        key = (name, word)
        if key not in self._words:
            if len(self._words) > CACHE_BOUND:
                self._words.clear()
            self._words[key] = self._shape(name, word)
        return self._words[key]

    def remember(self, key: Hashable, value: Any) -> Any:
        """Keep a measured thing under a key; the store is emptied when it has grown large."""
        if len(self.memory) > CACHE_BOUND:
            self.memory.clear()
        self.memory[key] = value
        return value

    def _shape(self, name: str, word: str) -> tuple[Shaped, ...]:
        face = self.face(name)
        if all(character in face.advances for character in word):
            return (shape(face, word),)
        stretches: list[tuple[str, str]] = []
        for character in unicodedata.normalize("NFC", word):
            owner, drawn = self._owner(name, character)
            if stretches and stretches[-1][0] == owner:
                stretches[-1] = (owner, stretches[-1][1] + drawn)
            elif drawn:
                stretches.append((owner, drawn))
        return tuple(shape(self.face(owner), text) for owner, text in stretches)

    def _owner(self, name: str, character: str) -> tuple[str, str]:
        """The face that has the character, and what is drawn: itself, nothing for a mere control, or a substitute."""
        for candidate in (name, *self._present()):
            if character in self.face(candidate):
                return candidate, character
        if unicodedata.category(character) in ("Cc", "Cf", "Mn"):
            return name, ""
        self.missing.add(character)
        return self._substitute(name)

    def _substitute(self, name: str) -> tuple[str, str]:
        for substitute in SUBSTITUTES:
            for candidate in (name, *self._present()):
                if substitute in self.face(candidate):
                    return candidate, substitute
        raise LayoutError(f"the face '{name}' has neither an empty box nor a question mark")

    def _present(self) -> list[str]:
        return [name for name in self.fallbacks if (self.folder / f"{name}.ttf").is_file()]
