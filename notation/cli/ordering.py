"""What is wanted of a sheet, from the words of the command line: layout, paper, form."""
from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from notation.cli.report import Report, file_report
from notation.cli.setting import Order
from notation.layout import Layout
from notation.page.fault import LayoutError
from notation.page.units import paper
from notation.reading.layout import layout_names, load_layout, read_layout, unknown_layout


def make_order(
    layout: str, paper_name: str | None, landscape: bool | None, form: str, draft: bool, language: str | None = None
) -> Order | Report:
    """The order, or the report of what is wrong with it. language: one that there is, instead of the layout's."""
    found = _layout(layout)
    if isinstance(found, Report):
        return found
    if language is not None:
        found = replace(found, language=language)
    lying = found.landscape if landscape is None else landscape
    try:
        return Order(found, paper(paper_name or found.paper, lying), form, draft)
    except LayoutError as fault:
        return file_report("--paper", "paper-unknown", str(fault))


def _layout(name: str) -> Layout | Report:
    """A shipped layout by its name, or a writer's own by its file."""
    if name in layout_names():
        return load_layout(name)
    if not name.endswith((".yaml", ".yml")):
        return file_report("--layout", "layout-unknown", unknown_layout(name))
    try:
        source = Path(name).read_bytes()
    except OSError as fault:
        return file_report(name, "file-unreadable", f"the layout cannot be read: {fault.strerror or fault}")
    reading = read_layout(source, name)
    if reading.layout is None or reading.findings:
        return Report(name, reading.findings, reading.lines, usable=False)
    return reading.layout
