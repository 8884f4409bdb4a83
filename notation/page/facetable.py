"""Measures of a face, taken from its file by uharfbuzz and stored beside it as JSON.

`python -m notation.page.facetable [FOLDER]` writes the tables anew. Pairs of the characters in KERNED are stored by
classes: characters with the same kerning on their right share a left class, and the reverse.
"""
from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from notation.page.fonts import Face

LATIN = (*range(0x21, 0x7F), *range(0xA1, 0xAD), *range(0xAE, 0x180))
KERNED = "".join(map(chr, (*LATIN, *range(0x2010, 0x2027)))) + "⅓⅔⅛⅜⅝⅞"
NO_FEATURE = dict.fromkeys(("liga", "clig", "calt", "ccmp", "locl", "rlig", "rclt", "dlig"), False)


def table_path(face: Path) -> Path:
    return face.with_suffix(".metrics.json")


def read_face(path: Path) -> Face:
    """The face's measures from the table beside it, or from the file itself where there is no table of its size."""
    stored = table_path(path)
    if stored.is_file():
        table = json.loads(stored.read_text(encoding="utf-8"))
        if table["bytes"] == path.stat().st_size:
            return _from_table(path.stem, table)
    return measured_face(path)


def _from_table(name: str, table: dict[str, Any]) -> Face:
    left, right, kerns = table["left"], table["right"], table["kerns"]

    def kern(one: str, two: str) -> float:
        row, column = left.get(one), right.get(two)
        return 0.0 if row is None or column is None else kerns[row][column]

    advances = dict(zip(table["characters"], table["advances"], strict=True))
    return Face(name, table["ascent"], table["descent"], table["cap_height"], advances, kern,
                tuple(table["underline"]), tuple(table["strikeout"]))


def _kerner(font: Any, scale: float) -> Callable[[str, str], float]:
    import uharfbuzz as hb

    @cache
    def kern(one: str, two: str) -> float:
        glyphs = [font.get_nominal_glyph(ord(c)) for c in (one, two)]
        buffer = hb.Buffer()
        buffer.add_str(one + two)
        buffer.guess_segment_properties()
        hb.shape(font, buffer, NO_FEATURE)
        if [info.codepoint for info in buffer.glyph_infos] != glyphs:
            return 0.0
        return float(buffer.glyph_positions[0].x_advance - font.get_glyph_h_advance(glyphs[0])) * scale

    return kern


def measured_face(path: Path) -> Face:
    """The face's measures taken from its file."""
    import uharfbuzz as hb

    face = hb.Face(hb.Blob.from_file_path(str(path)))
    font, scale = hb.Font(face), 1000 / face.upem
    extents = font.get_font_extents("ltr")
    cap = font.get_metric_position_with_fallback(hb.OTMetricsTag.CAP_HEIGHT)
    advances = {
        chr(code): font.get_glyph_h_advance(font.get_nominal_glyph(code)) * scale
        for code in sorted(face.unicodes)
        if font.get_nominal_glyph(code) is not None
    }
    return Face(path.stem, extents.ascender * scale, -extents.descender * scale, cap * scale, advances,
                _kerner(font, scale), *_rules(font, scale))


def _rules(font: Any, scale: float) -> Iterator[tuple[float, float]]:
    """Height and thickness of the underline and of the strike-out (OpenType tables post and OS/2)."""
    import uharfbuzz as hb

    tag = hb.OTMetricsTag
    for height, thickness in ((tag.UNDERLINE_OFFSET, tag.UNDERLINE_SIZE), (tag.STRIKEOUT_OFFSET, tag.STRIKEOUT_SIZE)):
        measures = [font.get_metric_position_with_fallback(one) * scale for one in (height, thickness)]
        yield _short(measures[0]), _short(measures[1])


def _short(number: float) -> float:
    """Rounded to a thousandth, whole where it is whole: takes less room in the file."""
    return int(number) if number == int(number) else round(number, 3)


def _classes(rows: Sequence[tuple[float, ...]], characters: str) -> tuple[list[tuple[float, ...]], dict[str, int]]:
    distinct = [row for row in dict.fromkeys(rows) if any(row)]
    number = {row: index for index, row in enumerate(distinct)}
    return distinct, {c: number[row] for c, row in zip(characters, rows, strict=True) if row in number}


def face_table(path: Path) -> dict[str, Any]:
    """What is stored for a face."""
    face = measured_face(path)
    kerned = "".join(c for c in KERNED if c in face)
    rows = [tuple(_short(face.kern(one, two)) for two in kerned) for one in kerned]
    lefts, left = _classes(rows, kerned)
    columns, right = _classes(list(zip(*lefts, strict=True)) if lefts else [() for _ in kerned], kerned)
    return {
        "bytes": path.stat().st_size, "ascent": face.ascent, "descent": face.descent, "cap_height": face.cap_height,
        "underline": list(face.underline), "strikeout": list(face.strikeout),
        "characters": "".join(face.advances), "advances": [_short(a) for a in face.advances.values()],
        "left": left, "right": right, "kerns": [list(row) for row in zip(*columns, strict=True)],
    }


def write_tables(folder: Path) -> None:
    """Measure each face of the folder and store its table beside it."""
    for path in sorted(folder.glob("*.ttf")):
        text = json.dumps(face_table(path), ensure_ascii=False, separators=(",", ":"))
        table_path(path).write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    write_tables(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parents[2] / "fonts")
