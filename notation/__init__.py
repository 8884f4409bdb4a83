"""Lodestep: works out couple sequence dances written in shorthand and typesets their script sheets.

The road of a dance, each step a function from plain data to plain data:

    knowledge = load_knowledge()
    reading = read_dance(source, "dance.yaml", knowledge)     # bytes -> the dance as written, with findings
    worked = work_out(reading.dance, knowledge)                # both parts bar by bar
    findings = check(worked, knowledge)
    document = set_sheet(worked, knowledge, load_layout("script"), paper("A4"), Faces(fonts))
    pdf = paint_pdf(document, fonts)                           # bytes

with `fonts = data_folder("fonts")`. Each name is loaded when it is first asked for, so that reading and checking a
dance never load the PDF library.
"""
from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from notation.dance.checks import check
    from notation.dance.work import work_out
    from notation.installed import data_folder
    from notation.page.fonts import Faces
    from notation.page.pdf import paint_pdf
    from notation.page.units import paper
    from notation.reading.dance import read_dance
    from notation.reading.knowledge import load_knowledge
    from notation.reading.layout import load_layout
    from notation.sheet import set_sheet

__version__ = "0.1.0"
__all__ = [
    "Faces", "check", "data_folder", "load_knowledge", "load_layout", "paint_pdf", "paper", "read_dance", "set_sheet",
    "work_out",
]

HOMES = {
    "Faces": "page.fonts",
    "check": "dance.checks",
    "data_folder": "installed",
    "load_knowledge": "reading.knowledge",
    "load_layout": "reading.layout",
    "paint_pdf": "page.pdf",
    "paper": "page.units",
    "read_dance": "reading.dance",
    "set_sheet": "sheet",
    "work_out": "dance.work",
}


def __getattr__(name: str) -> object:
    if name not in HOMES:
        raise AttributeError(f"module 'notation' has no attribute '{name}'")
    return getattr(importlib.import_module(f"notation.{HOMES[name]}"), name)
