"""Dances for the tests of sheets: read, worked out and set, with nothing left out on the way."""
from __future__ import annotations

import html
import re
import subprocess
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked
from notation.dance.step import Step
from notation.dance.work import work_out
from notation.installed import data_folder
from notation.layout import Layout
from notation.page.fonts import Faces
from notation.page.frame import Document
from notation.page.pdf import paint_pdf
from notation.page.units import paper
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.sheet import set_sheet

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("lantern-quay-waltz", "ferry-lane-saunter", "tinsmiths-two-step", "harbour-bell-waltz")

HEAD = """format: 1
title: {title}
arranged by: Maud Ferrier
rhythm: {rhythm}
tempo: 42
introduction: 4
length: {length}
start: {{position: closed, hold: closed, gent: "LF, facing LOD", lady: "RF, backing LOD"}}
sequence:
"""


@cache
def knowledge() -> Knowledge:
    return load_knowledge()


def worked(source: str) -> Worked:
    """A dance from its YAML text."""
    reading = read_dance(source.encode(), "test.yaml", knowledge())
    assert reading.dance is not None, reading.findings
    return work_out(reading.dance, knowledge())


@cache
def example(name: str) -> Worked:
    return worked((EXAMPLES / f"{name}.yaml").read_text())


def passage(gent: str, lady: str = "opposite", bars: str = "1", figure: str = "Walk") -> str:
    """A passage in YAML; lines are separated by ';'."""
    def block(lines: str) -> str:
        return "|\n" + "\n".join(f"      {line.strip()}" for line in lines.split(";"))

    return f"  - bars: {bars}\n    figure: {figure}\n    gent: {block(gent)}\n    lady: {block(lady)}\n"


def dance(*passages: str, length: int = 1, title: str = "Capstan Waltz", rhythm: str = "waltz") -> Worked:
    return worked(HEAD.format(title=title, length=length, rhythm=rhythm) + "".join(passages))


def step(line: str) -> Step:
    """A step line as the reader gives it."""
    return dance(passage(f"1 {line}")).passages[0].gent[0].step


def document(of: Worked, layout: Layout | None = None, on: str = "A4", landscape: bool = False) -> Document:
    return set_sheet(of, knowledge(), layout or Layout(), paper(on, landscape), Faces())


@dataclass(frozen=True, slots=True)
class Word:
    """A word that poppler found on a page; points from the upper left corner."""

    page: int
    text: str
    x0: float
    y0: float
    x1: float
    y1: float


WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>')


def printed_words(of: Document) -> list[Word]:
    """All words of a document with their boxes, as poppler's `pdftotext -bbox` reads them back from the PDF."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "sheet.pdf"
        file.write_bytes(paint_pdf(of, data_folder("fonts")))
        made = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True)
    pages = made.stdout.split("<page ")[1:]
    return [
        Word(number, html.unescape(text), *map(float, box))
        for number, page in enumerate(pages, 1)
        for *box, text in WORD.findall(page)
    ]


def document_words(of: Document) -> list[str]:
    """Words of the document's own items in the order in which they are read."""
    return " ".join(i.text for page in of.pages for i in page.items if hasattr(i, "text")).split()
