"""From worked-out dances to files: the forms a sheet can be written in, and the setting of one or of many."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import Report, file_report
from notation.cli.sources import STANDARD_INPUT, Source, load
from notation.dance.finding import Finding
from notation.dance.script import Worked
from notation.installed import data_folder
from notation.layout import Layout
from notation.page.content import Paper, Story
from notation.page.fault import LayoutError
from notation.page.fonts import Faces
from notation.page.frame import Attachment, Document
from notation.reading.knowledge import load_knowledge
from notation.sheet import diagrams_of, set_sheet, sheet_metadata
from notation.sheet.missing import missing_letters
from notation.sheet.script import words_story
from notation.sheet.templates import TemplateFault


@dataclass(frozen=True, slots=True)
class Order:
    """What is wanted of a sheet. draft: write it in spite of findings of error."""

    layout: Layout
    paper: Paper
    form: str
    draft: bool


@cache
def faces() -> Faces:
    """The faces of the fonts folder, loaded once in a process."""
    return Faces(data_folder("fonts"))


def pdf_files(document: Document, path: Path, worked: Source) -> dict[Path, bytes]:
    from notation.page.pdf import paint_pdf

    return {path: paint_pdf(document, data_folder("fonts"))}


def svg_files(document: Document, path: Path, worked: Source) -> dict[Path, bytes]:
    from notation.page.svg import paint_svg

    title, names = document.metadata.title, _page_names(path, len(document.pages))
    pages = zip(names, document.pages, strict=True)
    return {name: paint_svg(page, data_folder("fonts"), title).encode() for name, page in pages}


def png_files(document: Document, path: Path, worked: Source) -> dict[Path, bytes]:
    from notation.page.pdf import paint_pdf
    from notation.page.png import paint_png

    pdf = paint_pdf(document, data_folder("fonts"))
    return {name: paint_png(pdf, page) for page, name in enumerate(_page_names(path, len(document.pages)))}


FORMS: dict[str, Callable[[Document, Path, Source], dict[Path, bytes]]] = {
    "pdf": pdf_files,
    "svg": svg_files,
    "png": png_files,
}
"""Forms of the set pages by the ending of the file."""


def _page_names(path: Path, pages: int) -> list[Path]:
    if pages == 1:
        return [path]
    return [path.with_name(f"{path.stem}-{page}{path.suffix}") for page in range(1, pages + 1)]


@dataclass(frozen=True, slots=True)
class Made:
    """A sheet that waits to be written. report: of its dance; files: their bytes by place, none where it could not be
    made; inputs: the files that it is made from, which are never written over; after: what the writing adds."""

    report: Report
    files: dict[Path, bytes]
    inputs: tuple[Path, ...] = ()
    after: tuple[Finding, ...] = ()


def set_file(name: str, path: Path, order: Order) -> Report:
    """Set one dance file and write its sheet. What goes wrong is in the report, and nothing is written then."""
    return write_made(make_file(name, path, order), path)


def make_file(name: str, path: Path, order: Order) -> Made:
    """The same with nothing written yet."""
    source = load(name)
    if source.worked is None or (source.report.has_errors and not order.draft):
        return Made(source.report, {})
    inputs = (Path(name),) if name != STANDARD_INPUT else ()
    try:
        refuse(path, inputs)
        files, missing = _files(source, path, order)
    except OutputFault as fault:
        return Made(_with(source.report, file_report(str(path), "output", str(fault))), {})
    except LayoutError as fault:
        return Made(_with(source.report, file_report(source.name, "page-too-small", str(fault))), {})
    except TemplateFault as fault:
        return Made(_with(source.report, file_report(source.name, "layout-template", str(fault))), {})
    return Made(source.report, files, inputs, missing)


def write_made(made: Made, path: Path) -> Report:
    """Write a sheet and report. path: what was asked for, by which a fault of writing is told."""
    if not made.files:
        return made.report
    try:
        for target, data in made.files.items():
            refuse(target, made.inputs)
            write_whole(target, data)
    except OutputFault as fault:
        return _with(made.report, file_report(str(path), "output", str(fault)))
    written = tuple(map(str, made.files))
    return _with(made.report, Report(made.report.file, made.after, made.report.lines, written=written))


def set_job(job: tuple[str, Path, Order]) -> Report:
    """The same for a file, its sheet's place and the order as one job."""
    return set_file(*job)


def _with(first: Report, second: Report) -> Report:
    findings = (*first.findings, *second.findings)
    return Report(first.file, findings, first.lines, first.usable and second.usable, second.written)


def _files(source: Source, path: Path, order: Order) -> tuple[dict[Path, bytes], tuple[Finding, ...]]:
    assert source.worked is not None
    attached = Attachment(Path(source.name).name if source.data else "dance.yaml", source.data)
    if source.name.startswith("<"):
        attached = Attachment("dance.yaml", source.data)
    if order.form in WORDS:
        return {path: WORDS[order.form](source.worked, order).encode()}, ()
    knowledge = load_knowledge()
    diagrams = diagrams_of(source.worked, knowledge, order.layout)
    document = set_sheet(source.worked, knowledge, order.layout, order.paper, faces(), attached, diagrams)
    return FORMS[order.form](document, path, source), letters_missing(source)


def _story(worked: Worked, order: Order) -> Story:
    return words_story(worked, load_knowledge(), order.layout, order.paper)


def _text(worked: Worked, order: Order) -> str:
    from notation.sheet.text import story_text

    return story_text(_story(worked, order))


def _html(worked: Worked, order: Order) -> str:
    from notation.sheet.html import story_html

    return story_html(_story(worked, order), sheet_metadata(worked, load_knowledge(), order.layout))


WORDS: dict[str, Callable[[Worked, Order], str]] = {"txt": _text, "html": _html}
"""Forms without pages."""


def letters_missing(source: Source) -> tuple[Finding, ...]:
    """The letters of this dance that no font has: the faces remember them over all dances of a process."""
    written = set("".join(source.report.lines))
    return missing_letters(faces().missing & written, source.report.lines, source.name)
