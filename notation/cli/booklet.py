"""`lodestep booklet`."""
from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from notation.cli.completing import layout_words
from notation.cli.imposing import imposing_options
from notation.cli.language import language_option
from notation.cli.report import FAULTY, UNUSABLE, Report, file_report, printable, report_text
from notation.dance.book import Book
from notation.dance.finding import Finding, Severity
from notation.dance.mark import Said
from notation.page.forme import Plan

if TYPE_CHECKING:
    from notation.cli.bookfiles import BookFile
    from notation.cli.bookwork import Done
    from notation.cli.setting import Order

LAYOUT = "script"


@dataclass(frozen=True, slots=True)
class Wish:
    """What the command line asks for. imposed: the file of the sheets that are folded, None for none."""

    output: Path
    layout: str | None
    paper: str | None
    language: str | None
    skip_faulty: bool
    imposed: Path | None
    plan: Plan


@dataclass(frozen=True, slots=True)
class Opened:
    """A book file read, its dances found. data: its bytes."""

    path: Path
    data: bytes
    book: Book
    files: tuple[BookFile, ...]
    picture: bytes | None
    report: Report


@click.command()
@click.argument("file", metavar="BOOK.yaml", type=click.Path(path_type=Path))
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The PDF to write; else beside the book.")
@click.option("--layout", shell_complete=layout_words, help="A layout by name or file, instead of the book's.")
@click.option("--paper", "paper_name", help="A3 to A7, Letter or Legal, instead of the book's.")
@language_option
@click.option("--skip-faulty", is_flag=True, help="Leave dances with errors out; otherwise no book is written.")
@click.option("--imposed", type=click.Path(path_type=Path), metavar="SHEETS.pdf",
              help="Also write the sheets to print and fold; the options below say how.")
@imposing_options("--sheet-paper")
def booklet(
    file: Path, output: Path | None, layout: str | None, paper_name: str | None, language: str | None,
    skip_faulty: bool, imposed: Path | None, plan: Plan,
) -> None:  # fmt: skip
    """Set a book of dances: cover, contents, dances, indexes.

    BOOK.yaml names the dances and what stands round them; docs/booklets.md tells its form. Nothing outside its folder
    is read. A book that exists is replaced only by a whole new one. Exit status: 0 where the book was written, 1 where
    a dance has errors (with --skip-faulty it is left out and the book written), 2 where no book could be made.

    \b
    lodestep booklet season/book.yaml -o season.pdf
    lodestep booklet season/book.yaml --paper A4 --layout large-print
    lodestep booklet season/book.yaml -o season.pdf --imposed to-print.pdf --fold-marks
    """
    wish = Wish(output or file.with_suffix(".pdf"), layout, paper_name, language, skip_faulty, imposed, plan)
    opened = open_book(file)
    if isinstance(opened, Report):
        _fail(opened)
    if opened.report.has_errors:
        _fail(opened.report)
    fault = _refused(wish, opened)
    if fault is not None:
        _fail(fault)
    sys.exit(_make(opened, wish))


def _fail(report: Report) -> NoReturn:
    click.echo(report_text(report), err=True)
    click.echo(f"{printable(report.file)}: no book is written", err=True)
    sys.exit(UNUSABLE)


def open_book(file: Path) -> Opened | Report:
    """The book file and the files it names; a report where it cannot be used at all."""
    from notation.cli.bookfiles import dance_files, picture_of
    from notation.cli.sources import read_source
    from notation.reading.book import read_book

    data = read_source(str(file))
    if isinstance(data, Report):
        return data
    reading = read_book(data, str(file))
    if reading.book is None:
        return Report(str(file), reading.findings, reading.lines, usable=False)
    files, faults = dance_files(reading.book.dances, file)
    picture, more = picture_of(reading.book.picture, file) if reading.book.picture else (None, ())
    findings = (*reading.findings, *faults, *more)
    return Opened(file, data, reading.book, files, picture, Report(str(file), findings, reading.lines))


def _refused(wish: Wish, opened: Opened) -> Report | None:
    """Why the outputs cannot be written there, before any work is done."""
    from notation.cli.output import OutputFault, refuse

    sources = (opened.path, *(file.path for file in opened.files))
    for output in filter(None, (wish.output, wish.imposed)):
        try:
            refuse(output, sources, "book file or a dance of it")
        except OutputFault as fault:
            return file_report(str(output), "output", str(fault))
    if wish.imposed is not None and wish.imposed.absolute() == wish.output.absolute():
        return file_report(str(wish.output), "output", "the book and its sheets would be one file; name two")
    return None


def _make(opened: Opened, wish: Wish) -> int:
    """Set and write the book; the exit status."""
    from notation.cli.bookwork import set_dances
    from notation.sheet.booked import book_layout

    order = _order(opened, wish)
    if isinstance(order, Report):
        _fail(order)
    layout = book_layout(order.layout, with_key=not opened.book.abbreviations)
    order = replace(order, layout=layout)
    done = set_dances(opened.files, layout, order.paper)
    faulty = [made.report for _, made in done if made.packed is None]
    _tell(opened, [made for _, made in done], faulty)
    if faulty and not wish.skip_faulty:
        click.echo(f"{printable(opened.report.file)}: no book is written; mend {_number(len(faulty), 'dance')}, "
                   "or leave them out with --skip-faulty", err=True)
        return FAULTY
    if len(faulty) == len(done):
        _fail(file_report(str(opened.path), "book-empty", "no dance is left for the book"))
    return _write(opened, done, order, wish) or (FAULTY if faulty else 0)


def _order(opened: Opened, wish: Wish) -> Order | Report:
    """Layout and paper: of the command line, else of the book."""
    from notation.cli.bookfiles import OutsideFault, error, inside, refuse_outside
    from notation.cli.ordering import make_order
    from notation.reading.layout import layout_names, unknown_layout

    book, said = opened.book, opened.book.layout
    name = wish.layout or LAYOUT
    if said is not None and wish.layout is None:
        name = said.text
        if name not in layout_names():
            try:
                if not name.endswith((".yaml", ".yml")):
                    return _with(opened.report, error(said, "layout-unknown", unknown_layout(name)))
                refuse_outside(name)
                inside(opened.path.parent / name, opened.path.parent, name)
            except OutsideFault as fault:
                return _with(opened.report, error(said, "file-outside", str(fault)))
            name = str(opened.path.parent / name)
    paper = wish.paper or (book.paper.text if book.paper else None)
    return make_order(name, paper, book.landscape, "pdf", False, wish.language)


def _with(report: Report, finding: Finding) -> Report:
    return replace(report, findings=(*report.findings, finding))


def _number(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _tell(opened: Opened, done: Sequence[Done], faulty: Sequence[Report]) -> None:
    """What was found: errors in full, warnings by their number."""
    if opened.report.findings:
        click.echo(report_text(opened.report), err=True)
    for report in faulty:
        errors = tuple(f for f in report.findings if f.severity is Severity.ERROR)
        click.echo(report_text(replace(report, findings=errors)), err=True)
    warned = sum(any(f.severity is Severity.WARNING for f in one.report.findings) for one in done if one.packed)
    if warned:
        click.echo(f"{_number(warned, 'dance')} with warnings; 'lodestep check' shows them", err=True)


def _write(opened: Opened, done: Sequence[tuple[bytes, Done]], order: Order, wish: Wish) -> int:
    """Paint and write the book of the dances that could be set; exit status 2 where it cannot be written."""
    from notation.cli.bookpaint import painted
    from notation.cli.imposing import imposed, imposed_words
    from notation.cli.output import OutputFault, write_whole
    from notation.page.fault import LayoutError

    try:
        pdf, words = painted(opened.book, _sources(opened, done, order), opened.picture, order)
        write_whole(wish.output, pdf)
        click.echo(f"{printable(str(wish.output))}: written, {words}")
        if wish.imposed is not None:
            made = imposed(pdf, wish.plan, order.layout.language)
            write_whole(wish.imposed, made.data)
            click.echo(f"{printable(str(wish.imposed))}: written, {imposed_words(made)}")
    except (OutputFault, LayoutError, ValueError) as fault:
        click.echo(report_text(file_report(str(wish.output), "output", str(fault))), err=True)
        return UNUSABLE
    return 0


def _sources(opened: Opened, done: Sequence[tuple[bytes, Done]], order: Order) -> list[tuple[str, bytes, bytes]]:
    """Name, source and packed pages of each dance that was set; first the book's own file, without pages."""
    from notation.cli.bookfiles import BookFile
    from notation.cli.bookwork import attachment_names

    own = BookFile(opened.path, opened.path.name, Said(opened.path.name))
    names = attachment_names((own, *opened.files))
    made = [(name, data, one.packed) for name, (data, one) in zip(names[1:], done, strict=True) if one.packed]
    return [(names[0], opened.data, b""), *made]
