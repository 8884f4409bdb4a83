"""`lodestep programme`."""
from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import click

from notation.cli.language import language_option, page_vocabulary
from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import Report, exit_status, file_report, printable, report_text
from notation.cli.sources import STANDARD_INPUT, load, read_source
from notation.dance.finding import Finding, Severity, in_file_order
from notation.dance.mark import Said
from notation.dance.programme import Timed, Timetable, clock_words, span_words, timetable
from notation.dance.script import Dance
from notation.reading.programme import read_programme

HEADS = ("begins", "ends", "lasts", "times", "")


@dataclass(frozen=True, slots=True)
class Evening:
    """A programme file worked out; table: None where it cannot be used."""

    table: Timetable | None
    data: bytes
    report: Report


@click.command()
@click.argument("file", metavar="PROGRAMME", type=click.Path(allow_dash=True))
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The PDF of the programme to write.")
@click.option("--paper", "paper_name", default="A4", help="A3 to A7, Letter or Legal.")
@language_option
def programme(file: str, output: Path | None, paper_name: str, language: str | None) -> None:
    """Say when each dance of an evening begins, and print its programme on one page.

    PROGRAMME is a file that lists dances with how many times through each is danced; docs/booklets.md tells its form.
    Times are reckoned from bars, introduction and tempo. Exit status as for 'check'.

    \b
    lodestep programme evening.yml
    lodestep programme evening.yml -o evening.pdf
    """
    evening = load_evening(file)
    report = evening.report
    if report.findings:
        click.echo(report_text(report), err=True)
    if evening.table is not None:
        click.echo("\n".join(table_lines(evening.table)))
    if output is not None and evening.table is not None and not report.has_errors:
        report = _write(evening, Path(file).name, output, paper_name, language)
    elif output is not None:
        click.echo(f"{printable(file)}: no programme is written; mend the errors first", err=True)
    sys.exit(exit_status([report]))


def load_evening(name: str) -> Evening:
    """Read a programme file and the dances it names, which stand in its folder or below."""
    data = read_source(name)
    if isinstance(data, Report):
        return Evening(None, b"", data)
    shown = "<standard input>" if name == STANDARD_INPUT else name
    reading = read_programme(data, shown)
    if reading.programme is None:
        return Evening(None, data, Report(shown, reading.findings, reading.lines, usable=False))
    folder = Path() if name == STANDARD_INPUT else Path(name).parent
    dances: dict[str, Dance] = {}
    found: list[Finding] = []
    for said in dict.fromkeys(item.file for item in reading.programme.items if item.file):
        dance = dances.get(said.text) or _dance(said, folder, found)
        dances |= {said.text: dance} if dance else {}
    table = timetable(reading.programme, dances)
    findings = tuple(in_file_order([*reading.findings, *found, *table.findings]))
    return Evening(table, data, Report(shown, findings, reading.lines))


def _dance(said: Said, folder: Path, found: list[Finding]) -> Dance | None:
    """The dance of that file; what is wrong with it is added to what was found."""
    path = folder / said.text
    if not path.resolve().is_relative_to(folder.resolve()):
        message = f"'{said.text}' lies outside the folder of the programme; put the dance beside it or below"
        found.append(Finding("dance-outside", Severity.ERROR, said.mark, message))
        return None
    source = load(str(path))
    if source.worked is None:
        why = source.report.findings[0].message if source.report.findings else "it cannot be read"
        found.append(Finding("dance-unusable", Severity.ERROR, said.mark, f"'{said.text}' gives no dance: {why}"))
        return None
    if source.report.has_errors:
        message = f"'{said.text}' has errors, its time may be wrong; 'lodestep check' shows them"
        found.append(Finding("dance-faulty", Severity.WARNING, said.mark, message))
    return source.worked.dance


def table_lines(table: Timetable) -> Iterator[str]:
    """The timetable for a terminal."""
    rows = [HEADS, *(_row(timed) for timed in table.items)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(HEADS) - 1)]
    for row in rows:
        yield "  ".join([*(cell.rjust(width) for cell, width in zip(row, widths, strict=False)), row[-1]]).rstrip()
    dancing, ends = span_words(table.dancing), clock_words(table.ends)
    yield f"{dancing} of dancing in {span_words(table.total)}; ends about {ends}"


def _row(timed: Timed) -> tuple[str, ...]:
    words = ", ".join(filter(None, (printable(timed.title), printable(timed.rhythm))))
    times = str(timed.item.times) if timed.dance else ""
    return clock_words(timed.begins), clock_words(timed.ends), span_words(timed.lasts), times, words


def _write(evening: Evening, name: str, output: Path, paper_name: str, language: str | None) -> Report:
    """The report of what was written, or of what went wrong."""
    from notation.cli.setting import faces
    from notation.installed import data_folder
    from notation.page.fault import LayoutError
    from notation.page.frame import Attachment
    from notation.page.pdf import paint_pdf
    from notation.page.units import paper
    from notation.reading.knowledge import load_knowledge
    from notation.sheet.programme import set_programme

    assert evening.table is not None
    source = Attachment("programme.yaml" if name == STANDARD_INPUT else name, evening.data)
    try:
        refuse(output, (Path(evening.report.file),), "programme file")
        words = page_vocabulary(load_knowledge(), language)
        document = set_programme(evening.table, paper(paper_name), faces(), source, words)
        write_whole(output, paint_pdf(document, data_folder("fonts")))
    except (OutputFault, LayoutError) as fault:
        report = file_report(str(output), "output", str(fault))
        click.echo(report_text(report), err=True)
        return report
    pages = len(document.pages)
    more = "" if pages == 1 else f", {pages} pages; larger paper or fewer dances would fit one"
    click.echo(f"{printable(str(output))}: written{more}")
    return evening.report
