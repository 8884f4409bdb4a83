"""How long setting a sheet takes, by itself and with painting. Run by hand: python tests/bench/bench_layout.py

A sheet of 48 rows in 16 bars with two small drawings a row, fifty different ones in one process; medians in
milliseconds. Then how setting grows with the length of the story, and the awkward cases.
"""
from __future__ import annotations

import random
import statistics
import time
from collections.abc import Callable

from notation.page.content import (
    Align,
    Block,
    Cell,
    Column,
    Drawing,
    Margins,
    Paragraph,
    Row,
    Run,
    Running,
    Section,
    Story,
    Style,
    Table,
)
from notation.page.fonts import Faces
from notation.page.frame import Artifact, Metadata, PlacedShape
from notation.page.paginate import set_story
from notation.page.path import Close, Curve, Move, Path
from notation.page.pdf import paint_pdf
from notation.page.units import paper
from notation.plane import Point

PLAIN, BOLD = Style("SourceSans3-Regular", 9.5), Style("SourceSans3-Bold", 9.5)
SOLE = Drawing(8, 8.5, 1.2, (PlacedShape(Path((
    Move(Point(4, 1)), Curve(Point(1, 0), Point(1, -6), Point(3, -8)), Curve(Point(6, -9), Point(7, -5), Point(5, -3)),
    Curve(Point(5, -1), Point(5, 1), Point(4, 1)), Close())), Artifact.LAYOUT, fill=0.0),))
PLACES = ("forward", "back", "side", "side and slightly forward", "closes", "crosses behind in 5th position")
ENDS = ("facing wall", "facing LOD", "backing DW", "1/4 turn\u00a0R", "3/8 turn\u00a0L between 1 and\u00a02", "small")
FEET = ("heel", "toe", "toe, heel", "whole foot", "ball, flat", "no weight")


def words(text: str, style: Style = PLAIN, align: Align = Align.LEFT) -> Paragraph:
    return Paragraph((Run(text, style),), align)


def step(chance: random.Random, foot: str) -> Paragraph:
    said = f" {chance.choice(PLACES)}, {chance.choice(ENDS)}; {chance.choice(FEET)}"
    return Paragraph((Run(foot, BOLD), Run(said, PLAIN)))


def row(chance: random.Random, bar: int, count: int) -> Row:
    cells = [Cell("count", words(str(count), align=Align.CENTRE)), Cell("gent", step(chance, "LF"), SOLE),
             Cell("lady", step(chance, "RF"), SOLE)]
    if count == 1:
        cells = [Cell("bar", words(str(bar), BOLD), header=True), *cells, Cell("hold", words("closed"))]
    return Row(tuple(cells), 0.5 if count == 1 else 0.0)


def sheet(seed: int, bars: int = 16, size: str = "A4") -> Story:
    chance = random.Random(seed)
    columns = (Column("bar", words("Bar", BOLD), gap=0), Column("count", words("Count", BOLD)),
               Column("gent", words("Gent", BOLD), alike="part", slot=12),
               Column("lady", words("Lady", BOLD), alike="part", slot=12), Column("hold", words("Hold", BOLD)))
    blocks = [Block(tuple(row(chance, bar, count) for count in (1, 2, 3))) for bar in range(1, bars + 1)]
    sections = [
        Section(Paragraph((Run(f"Figure {k // 4 + 1}", BOLD),), kind="H2"), tuple(blocks[k : k + 4]))
        for k in range(0, bars, 4)
    ]
    title = Paragraph((Run(f"Sheet {seed}", Style("SourceSans3-Bold", 20)),), kind="H1", line_steps=2, space_after=1)
    foot = Running(f"Sheet {seed}", "", "page {page} of {pages}")
    return Story(paper(size), Margins(40, 45, 40, 40), 12.5, (title, Table(columns, tuple(sections))), foot)


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def steady(size: str) -> None:
    faces, stories = Faces(), [sheet(seed, size=size) for seed in range(50)]
    first = milliseconds(lambda: set_story(stories[0], Metadata("t"), faces))
    layout = [milliseconds(lambda s=s: set_story(s, Metadata("t"), faces)) for s in stories[1:]]
    documents = [set_story(story, Metadata("t"), faces) for story in stories]
    paint = [milliseconds(lambda d=d: paint_pdf(d, faces.folder)) for d in documents]
    print(f"{size}: first {first:.1f}, then layout {statistics.median(layout):.1f}, "
          f"painting {statistics.median(paint):.1f}; {len(documents[0].pages)} pages")


def main() -> None:
    for size in ("A4", "A5", "A6"):
        steady(size)
    for bars in (16, 160, 1600):
        story = sheet(1, bars)
        print(f"{bars} bars: {milliseconds(lambda s=story: set_story(s, Metadata('t'), Faces())):.0f}")
    for name, text in (("a word of 4000 letters", "x" * 4000), ("4000 words", "word " * 4000)):
        story = Story(paper("A4"), Margins(40, 40, 40, 40), 12.5, (words(text),))
        print(f"{name}: {milliseconds(lambda s=story: set_story(s, Metadata('t'), Faces())):.0f}")


if __name__ == "__main__":
    main()
