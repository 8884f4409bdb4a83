"""`lodestep index`."""
from __future__ import annotations

import csv
import io
import json
import shutil
import sys
import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict
from pathlib import Path

import click

from notation.cli.completing import rhythm_words
from notation.cli.folder import catalogue
from notation.cli.language import language_option, page_vocabulary
from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import UNUSABLE, printable
from notation.dance.catalogue import Entry, Sought, in_title_order, matching
from notation.reading.knowledge import load_knowledge

FORMS = ("table", "csv", "json")
ENDINGS = {".csv": "csv", ".json": "json", ".txt": "table"}
CSV_HEADS = ("file", "title", "arrangers", "rhythm", "metre", "bars", "tempo", "figures", "errors", "warnings", "notes",
             "fault")
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""With these a cell would begin a formula of a spreadsheet."""


@click.command()
@click.argument("folder", type=click.Path(path_type=Path), metavar="DIR")
@click.argument("words", nargs=-1, metavar="[WORDS]...")
@click.option("--figure", default="", help="Only dances with a figure of that name, or part of it.")
@click.option("--rhythm", default="", shell_complete=rhythm_words, help="Only dances of that rhythm.")
@click.option("--format", "form", type=click.Choice(FORMS), default="table", help="How the list is shown.")
@click.option("-o", "--output", type=click.Path(path_type=Path), help="A .pdf, .csv, .json or .txt file to write.")
@click.option("--paper", "paper_name", default="A4", help="Of the printed list: A3 to A7, Letter or Legal.")
@language_option
def index(
    folder: Path, words: tuple[str, ...], figure: str, rhythm: str, form: str, output: Path | None, paper_name: str,
    language: str | None,
) -> None:
    """List the dances of a folder and those in it, and search them.

    WORDS may stand anywhere in title, arrangers, rhythm or figures; all must be there. A file that gives no dance is
    listed with what is wrong.

    \b
    lodestep index dances
    lodestep index dances --figure "natural turn" --rhythm waltz
    lodestep index dances ferrier --format csv
    lodestep index dances -o dances.pdf
    """
    if output is not None and output.suffix.lower() not in (".pdf", *ENDINGS):
        raise click.UsageError(f"'{output}' must end in .pdf, {', '.join(ENDINGS)}")
    try:
        if output is not None:
            refuse(output, ())
        sought = Sought(words, figure, rhythm)
        entries = in_title_order(matching(catalogue(folder), sought, load_knowledge().rhythms))
        _give(entries, folder, form, output, paper_name, language)
    except (OutputFault, ValueError) as fault:
        click.echo(f"{printable(str(folder))}: error: {printable(str(fault))}  [index]", err=True)
        sys.exit(UNUSABLE)


def _give(
    entries: Sequence[Entry], folder: Path, form: str, output: Path | None, paper_name: str, language: str | None
) -> None:
    """Show the list, or write it. Raises OutputFault, LayoutError."""
    if output is None:
        click.echo(TEXTS[form](entries), nl=False)
        return
    if output.suffix.lower() == ".pdf":
        write_whole(output, _pdf(entries, folder, paper_name, language))
    else:
        write_whole(output, TEXTS[ENDINGS[output.suffix.lower()]](entries).encode())
    click.echo(f"{printable(str(output))}: written, {_number(entries)}")


def _number(entries: Sequence[Entry]) -> str:
    faulty = sum(entry.errors > 0 for entry in entries)
    words = f"{len(entries)} dance{'' if len(entries) == 1 else 's'}"
    return f"{words}, {faulty} with errors" if faulty else words


def table_text(entries: Sequence[Entry]) -> str:
    """A line a dance with its figures under it, for a terminal or a text file."""
    heads = ("title", "rhythm", "bars", "tempo", "found", "file")
    rows = [heads, *map(_row, entries)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(heads))]
    wide = max(60, shutil.get_terminal_size().columns)
    lines = [_line(heads, widths)] if entries else []
    for entry, row in zip(entries, rows[1:], strict=True):
        lines.append(_line(row, widths))
        below = entry.fault or ", ".join(entry.figures)
        lines += textwrap.wrap(printable(below), wide, initial_indent="    ", subsequent_indent="    ")
    return "\n".join([*lines, _number(entries), ""])


def _row(entry: Entry) -> tuple[str, ...]:
    bars = "" if entry.bars is None else str(entry.bars)
    cells = (entry.title or "(no title)", entry.rhythm, bars, entry.tempo, entry.found, entry.file)
    return tuple(printable(cell) for cell in cells)


def _line(row: Sequence[str], widths: Sequence[int]) -> str:
    return "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()


def csv_text(entries: Sequence[Entry]) -> str:
    """Comma-separated values by RFC 4180, lists parted by semicolons; no cell begins a formula of a spreadsheet."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(CSV_HEADS)
    writer.writerows(tuple(_cells(entry)) for entry in entries)
    return out.getvalue()


def _cells(entry: Entry) -> Iterator[str]:
    for value in (getattr(entry, head) for head in CSV_HEADS):
        text = "" if value is None else "; ".join(value) if isinstance(value, tuple) else str(value)
        yield f"'{text}" if text.startswith(FORMULA) else text


def json_text(entries: Sequence[Entry]) -> str:
    """An array of objects with the fields of an Entry."""
    return json.dumps([asdict(entry) for entry in entries], indent=2) + "\n"


TEXTS: dict[str, Callable[[Sequence[Entry]], str]] = {"table": table_text, "csv": csv_text, "json": json_text}


def _pdf(entries: Sequence[Entry], folder: Path, paper_name: str, language: str | None) -> bytes:
    from notation.cli.setting import faces
    from notation.installed import data_folder
    from notation.page.pdf import paint_pdf
    from notation.page.units import paper
    from notation.sheet.catalogue import set_catalogue

    words = page_vocabulary(load_knowledge(), language)
    document = set_catalogue(entries, folder.resolve().name, paper(paper_name), faces(), words)
    return paint_pdf(document, data_folder("fonts"))
