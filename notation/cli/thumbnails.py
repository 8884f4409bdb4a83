"""Small pictures of the layouts, all of one dance."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from notation.cli.output import refuse, write_whole
from notation.cli.setting import faces
from notation.dance.script import Worked
from notation.installed import data_folder
from notation.page.pdf import paint_pdf
from notation.page.png import paint_png
from notation.page.units import paper
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import layout_names, load_layout
from notation.sheet import diagrams_of, set_sheet

THUMBNAIL_DPI = 45.0


def draw_thumbnails(worked: Worked, folder: Path) -> Iterator[Path]:
    """Write the first page of a dance in every layout, as `NAME.png`. Raises OutputFault."""
    for name in layout_names():
        path = folder / f"{name}.png"
        refuse(path, ())
        knowledge, layout = load_knowledge(), load_layout(name)
        drawn = diagrams_of(worked, knowledge, layout)
        document = set_sheet(worked, knowledge, layout, paper(layout.paper), faces(), None, drawn)
        write_whole(path, paint_png(paint_pdf(document, data_folder("fonts")), 0, THUMBNAIL_DPI))
        yield path
