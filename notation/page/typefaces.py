"""Faces in a PDF: characters to codes, and the parts of each font that are used embedded in the file."""
from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

from reportlab.pdfbase.ttfonts import TTFont

from notation.page.compact import PdfFile

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _-]*")
MOST_KNOWN = 20_000
"""Encoded texts that are remembered; a book has many more, few of them alike."""
_SPACES = frozenset(" \u00a0")


class FaceError(ValueError):
    """There is no such face, its file is no static TrueType font, or it lacks a character that is to be set."""


def face_path(folder: Path, face: str) -> Path:
    """The file of a face in the fonts folder. FaceError: the name is none, or there is no such file."""
    path = folder / f"{face}.ttf"
    if not _NAME.fullmatch(face) or not path.is_file():
        raise FaceError(f"there is no face '{face}' among the fonts")
    return path


@lru_cache(maxsize=32)
def _font(path: Path) -> TTFont:
    try:
        return TTFont(path.stem, str(path), asciiReadable=False)
    except Exception as fault:
        raise FaceError(f"'{path.name}' is no static TrueType font") from fault


class Typefaces:
    """The faces of one document as its pages are written."""

    def __init__(self, document: PdfFile, folder: Path) -> None:
        self.document = document
        self.folder = folder
        self.fonts: dict[str, TTFont] = {}
        self.known: dict[str, set[str]] = {}
        self.encoded: dict[tuple[str, str], tuple[tuple[str, str], ...]] = {}

    def encode(self, face: str, text: str) -> tuple[tuple[str, str], ...]:
        """Runs of (font resource, codes). FaceError: no such face, or it lacks one of the characters."""
        found = self.encoded.get((face, text))
        if found is None:
            if len(self.encoded) > MOST_KNOWN:
                self.encoded.clear()
            found = self.encoded[face, text] = self._encode(face, text)
        return found

    def _encode(self, face: str, text: str) -> tuple[tuple[str, str], ...]:
        if face not in self.fonts:
            self.fonts[face] = _font(face_path(self.folder, face))
            self.known[face] = set(_SPACES)
        font = self.fonts[face]
        self._demand(font, face, text)
        runs = font.splitString(text, self.document)
        name = font.getSubsetInternalName
        return tuple((name(subset, self.document), codes.decode("latin-1")) for subset, codes in runs)

    def _demand(self, font: TTFont, face: str, text: str) -> None:
        """Reportlab would set the box of a missing glyph without a word."""
        for character in set(text) - self.known[face]:
            if not font.face.charToGlyph.get(ord(character)):
                raise FaceError(f"the face {face} has no U+{ord(character):04X} '{character}', wanted in '{text}'")
            self.known[face].add(character)

    def embed(self) -> None:
        """Put the used parts of all faces into the document; nothing can be encoded after that."""
        for font in self.document.delayedFonts:
            subsets = font.state[self.document].subsets
            font.addObjects(self.document)
            self._map_to_unicode(font, subsets)
        self.document.delayedFonts.clear()

    def _map_to_unicode(self, font: TTFont, subsets: Sequence[Sequence[int]]) -> None:
        """Reportlab's own table breaks at characters beyond U+FFFF and gives a meaning to code 0."""
        objects = self.document.idToObject
        for number, subset in enumerate(subsets):
            resource = f"{self.document.fontMapping[font.fontName][1:]}+{number}"
            font_name = str(objects["BasicFonts"].dict[resource].BaseFont)
            objects[f"toUnicodeCMap:{font_name}"].content = to_unicode(font_name, subset)


def to_unicode(name: str, subset: Sequence[int]) -> bytes:
    """The CMap from codes to characters (ISO 32000-1, 9.10.3), a hundred to a block."""
    codes = ((code, chr(value).encode("utf-16-be").hex().upper()) for code, value in enumerate(subset) if value)
    pairs = [f"<{code:02X}> <{character}>" for code, character in codes]
    blocks = [pairs[start : start + 100] for start in range(0, len(pairs), 100)]
    lines = [
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap",
        "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def",
        f"/CMapName /{name} def /CMapType 2 def",
        "1 begincodespacerange <00> <FF> endcodespacerange",
        *(line for block in blocks for line in (f"{len(block)} beginbfchar", *block, "endbfchar")),
        "endcmap CMapName currentdict /CMap defineresource pop end end",
    ]
    return "\n".join(lines).encode("ascii")
