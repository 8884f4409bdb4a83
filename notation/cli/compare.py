"""`lodestep compare`."""
from __future__ import annotations

import json
import sys
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from notation.cli.language import language_option, page_vocabulary
from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import UNUSABLE, exit_status, file_report, printable, report_text
from notation.cli.sources import Source, load
from notation.reading.knowledge import load_knowledge

if TYPE_CHECKING:
    from notation.dance.compare import Comparison
    from notation.dance.words import Vocabulary
    from notation.sheet.changes import Told


@click.command()
@click.argument("old", metavar="OLD")
@click.argument("new", metavar="NEW")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="How changes are shown.")
@click.option("-o", "--output", type=click.Path(path_type=Path), help="An errata slip as a .pdf file.")
@click.option("--whole", is_flag=True, help="Print every bar on it, not only those that changed.")
@click.option("--paper", "paper_name", help="A3 to A7, Letter or Legal; A5 for a slip, A4 for the whole otherwise.")
@language_option
def compare(
    old: str, new: str, form: str, output: Path | None, whole: bool, paper_name: str | None, language: str | None
) -> None:
    """Say what changed between two versions of a dance, as it is danced.

    OLD and NEW are dance files. Steps that a repeat or a figure gives count as if they were written out, and a change
    in repeated bars is told once. Exit status 0, changed or not; 2 where a file could not be used.

    \b
    lodestep compare saunter-2025.yaml saunter.yaml
    lodestep compare saunter-2025.yaml saunter.yaml -o errata.pdf
    """
    from notation.dance.compare import compare as compared
    from notation.sheet.changes import told
    from notation.sheet.errata import errata_speaker

    if output is not None and output.suffix.lower() != ".pdf":
        raise click.UsageError(f"'{output}' must end in .pdf")
    one, two = load(old, checked=False), load(new, checked=False)
    if one.worked is None or two.worked is None:
        for source in (one, two):
            if source.worked is None:
                click.echo(report_text(source.report), err=True)
        sys.exit(exit_status([one.report, two.report]))
    knowledge = load_knowledge()
    found = compared(one.worked, two.worked, knowledge)
    changes = tuple(told(found, errata_speaker(knowledge.vocabulary), knowledge.vocabulary))
    _show(two, changes, form)
    if output is not None:
        slip = Slip(output, whole, paper_name or ("A4" if whole else "A5"), page_vocabulary(knowledge, language))
        _write(found, two, slip, old)


@dataclass(frozen=True, slots=True)
class Slip:
    """The errata slip that is asked for. whole: with the bars that did not change; words: it is printed with."""

    output: Path
    whole: bool
    paper: str
    words: Vocabulary


def _show(new: Source, changes: tuple[Told, ...], form: str) -> None:
    if form == "json":
        click.echo(json.dumps([asdict(change) for change in changes], indent=2))
        return
    assert new.worked is not None
    number = f"{len(changes)} change{'s' if len(changes) != 1 else ''}" if changes else "nothing changed"
    click.echo(printable(f"{new.worked.dance.title}: {number}"))
    for change in changes:
        line = f" (line {change.mark.line})" if change.mark.line else ""
        click.echo(printable(f"  {change.message}{line}"))


def _write(found: Comparison, new: Source, slip: Slip, old: str) -> None:
    """old: name of the old version's file, which is not to be overwritten."""
    from notation.cli.setting import faces
    from notation.installed import data_folder
    from notation.page.fault import LayoutError
    from notation.page.pdf import paint_pdf
    from notation.page.units import paper
    from notation.sheet.errata import errata

    assert new.worked is not None
    try:
        refuse(slip.output, (Path(new.name), Path(old)))
        document = errata(found, new.worked, slip.words, paper(slip.paper), slip.whole, faces())
        write_whole(slip.output, paint_pdf(document, data_folder("fonts")))
        click.echo(f"{printable(str(slip.output))}: written", err=False)
    except (OutputFault, LayoutError) as fault:
        click.echo(report_text(file_report(str(slip.output), "output", str(fault))), err=True)
        sys.exit(UNUSABLE)
