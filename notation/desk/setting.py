"""From the text in the editor to findings and pages, in parts, each sent as soon as it is there."""
from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache, partial
from hashlib import blake2s
from itertools import zip_longest
from pathlib import Path
from typing import Any

from notation.dance.checks import check
from notation.dance.finding import Finding, Severity, in_file_order
from notation.dance.knowledge import Knowledge
from notation.dance.script import PARTS, Worked
from notation.dance.work import work_out
from notation.layout import Layout
from notation.page.content import Paper
from notation.page.fault import LayoutError
from notation.page.fonts import Faces
from notation.page.frame import Attachment, Document, Frame
from notation.page.textsvg import paint_text_svg
from notation.page.units import paper
from notation.reading.dance import read_dance
from notation.reading.knowledge import knowledge_beside, load_knowledge
from notation.reading.layout import layout_names, load_layout, read_layout
from notation.sheet import Fit, Sheet, diagrams_of, fit_sheet, sheet_at
from notation.sheet.templates import TemplateFault


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the page asks for. has: keys of the pages that it shows already."""

    name: str
    text: str
    layout: str = "script"
    paper: str = ""
    landscape: bool | None = None
    has: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Known:
    """The dance of a text as far as it goes."""

    worked: Worked | None
    findings: tuple[Finding, ...]
    knowledge: Knowledge


@dataclass(frozen=True, slots=True)
class Painted:
    """A page and its picture. key: by which the browser knows it."""

    frame: Frame
    svg: str
    key: str


class Stale(Exception):
    """A newer text waits, so that this one need not be set to its end."""


@dataclass(slots=True)
class Setter:
    """Sets one text after the other; one at a time. root: the folder. read: the bytes of a file in it."""

    root: Path
    read: Callable[[str], bytes]
    faces: Faces = field(default_factory=Faces)
    fits: dict[tuple[str, str, Paper], Fit] = field(default_factory=dict)
    painted: list[Painted] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def known(self, name: str, text: str) -> Known:
        return _known(self, name, text)

    def layout(self, wanted: Wanted) -> tuple[Layout, Paper]:
        """Raises LayoutError."""
        if wanted.layout in layout_names():
            layout = load_layout(wanted.layout)
        else:
            reading = read_layout(self.read(wanted.layout), wanted.layout)
            if reading.layout is None or reading.findings:
                raise LayoutError(f"the layout {wanted.layout} has a mistake: {reading.findings[0].message}")
            layout = reading.layout
        lying = layout.landscape if wanted.landscape is None else wanted.landscape
        return layout, paper(wanted.paper or layout.paper, lying)

    def parts(self, wanted: Wanted, stale: Callable[[], bool]) -> Iterator[dict[str, Any]]:
        """Pages at the size that fitted last, findings, and the pages as `lodestep sheet` sets them where they differ.

        stale: whether a newer text waits; then nothing more is made. A part 'rest' says that what follows can wait.
        """
        known = self.known(wanted.name, wanted.text)
        if known.worked is None:
            yield findings_part(known, known.findings)
            return
        shown: Document | None = None
        try:
            sheet = self._sheet(known, wanted)
            shown = self._quick(sheet, wanted)
            if shown is not None:
                yield self._pages(shown, wanted, False)
            yield findings_part(known, self.found(known))
            if shown is not None:
                yield {"kind": "rest"}
            document = self._fitted(sheet, wanted, before_each=partial(_go_on, stale))
            if shown is None or document.pages != shown.pages:
                yield self._pages(document, wanted, True)
        except Stale:
            return
        except (LayoutError, TemplateFault) as fault:
            yield {"kind": "unset", "why": str(fault)}
            yield findings_part(known, self.found(known))

    def found(self, known: Known) -> tuple[Finding, ...]:
        assert known.worked is not None
        return tuple(in_file_order([*known.findings, *check(known.worked, known.knowledge)]))

    def document(self, known: Known, wanted: Wanted, source: Attachment | None = None) -> Document:
        """The sheet. Raises LayoutError, TemplateFault."""
        return self._fitted(self._sheet(known, wanted), wanted, source)

    def _fitted(self, sheet: Sheet, wanted: Wanted, source: Attachment | None = None,
                before_each: Callable[[], object] = bool) -> Document:
        """The sheet as `lodestep sheet` sets it. The size that fitted is noted for the next text."""
        document, fit = fit_sheet(sheet, source, before_each)
        self.fits[wanted.name, wanted.layout, sheet.paper] = fit
        return document

    def _sheet(self, known: Known, wanted: Wanted) -> Sheet:
        """What is to be set. Raises LayoutError."""
        layout, on = self.layout(wanted)
        assert known.worked is not None
        drawn = diagrams_of(known.worked, known.knowledge, layout)
        return Sheet(known.worked, known.knowledge, layout, on, self.faces, drawn)

    def _quick(self, sheet: Sheet, wanted: Wanted) -> Document | None:
        """One setting at the size and space that were right last time."""
        fit = self.fits.get((wanted.name, wanted.layout, sheet.paper))
        return sheet_at(fit, sheet) if fit is not None else None

    def _pages(self, document: Document, wanted: Wanted, exact: bool) -> dict[str, Any]:
        """The pages, each with its picture where the browser has it not yet. A page like the one that stood in its
        place last time is not painted again."""
        stood = zip_longest(self.painted[: len(document.pages)], document.pages)
        self.painted = [old if old and old.frame == frame else _paint(frame, self.faces) for old, frame in stood]
        pages = [
            {"key": one.key, "svg": None if one.key in wanted.has else one.svg,
             "width": round(one.frame.width), "height": round(one.frame.height)}
            for one in self.painted
        ]
        return {"kind": "pages", "exact": exact, "pages": pages, "title": document.metadata.title}


def _go_on(stale: Callable[[], bool]) -> None:
    """Raises Stale."""
    if stale():
        raise Stale


def _paint(frame: Frame, faces: Faces) -> Painted:
    svg = paint_text_svg(frame, faces)
    return Painted(frame, svg, blake2s(svg.encode(), digest_size=12).hexdigest())


@lru_cache(maxsize=4)
def _read(root: Path, name: str, text: str, own: tuple[tuple[str, int], ...]) -> Known:
    folder = (root / name).parent
    knowledge = knowledge_beside(folder) if own else load_knowledge()
    reading = read_dance(text.encode(), name, knowledge)
    if reading.dance is None:
        return Known(None, reading.findings, knowledge)
    return Known(work_out(reading.dance, knowledge), reading.findings, knowledge)


def _known(setter: Setter, name: str, text: str) -> Known:
    return _read(setter.root, name, text, own_figures(setter.root, name))


def own_figures(root: Path, name: str) -> tuple[tuple[str, int], ...]:
    """Her own figures beside the dance, with the time of their last change; none where one leads out of the folder."""
    folder, inside = (root / name).parent / "figures", root.resolve()
    files = [folder, *sorted(folder.glob("*.yaml"))] if folder.is_dir() else []
    if not all(path.resolve().is_relative_to(inside) for path in files):
        return ()
    return tuple((path.name, path.stat().st_mtime_ns) for path in files)


def findings_part(known: Known, found: tuple[Finding, ...]) -> dict[str, Any]:
    """The findings, and which bar each line of the file is in."""
    rows = [
        {"line": f.mark.line, "column": f.mark.column, "end_line": f.mark.end_line, "end_column": f.mark.end_column,
         "severity": f.severity.value, "rule": f.rule, "message": f.message, "suggestion": f.suggestion}
        for f in found
    ]
    errors = sum(f.severity is Severity.ERROR for f in found)
    bars = sorted(bar_lines(known.worked).items()) if known.worked else None
    return {"kind": "findings", "found": rows, "errors": errors, "bars": bars,
            "length": known.worked.dance.length if known.worked else 0}


def bar_lines(worked: Worked) -> dict[int, int]:
    """The bar that begins to be written on a line, by line."""
    lines: dict[int, int] = {}
    for passage in worked.passages:
        written = passage.written
        lines.setdefault(written.mark.line, passage.first)
        if passage.repeated is not None:
            continue
        for part in PARTS:
            for danced in passage.part(part):
                mark = danced.step.mark
                if mark.file == written.mark.file and mark.line > written.mark.line:
                    lines.setdefault(mark.line, danced.bar)
    return lines
