"""`lodestep sheet`."""
from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from notation.cli.completing import layout_words
from notation.cli.language import language_option
from notation.cli.report import UNUSABLE, Report, exit_status, printable, report_text
from notation.cli.sources import STANDARD_INPUT
from notation.cli.spreading import spread

FORMS = ("pdf", "png", "svg", "html", "txt")
WORTH_SPREADING = 24
"""Files from which starting more processes pays: each takes as long to start as some twenty sheets."""


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...", type=click.Path(allow_dash=True))
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The file to write; its ending gives the form.")
@click.option("--into", type=click.Path(path_type=Path), help="The folder to write to, each named as its dance.")
@click.option("--as", "form", type=click.Choice(FORMS), help="The form where no output is named (pdf).")
@click.option("--paper", "paper_name", help="A3 to A7, Letter or Legal; otherwise the layout's.")
@click.option("--landscape/--portrait", default=None, help="How the paper is held; otherwise the layout's.")
@click.option("--layout", default="script", shell_complete=layout_words,
              help="A layout by name ('lodestep layouts') or a layout file.")
@language_option
@click.option("--draft", is_flag=True, help="Write the sheet even where something cannot be danced.")
def sheet(
    files: tuple[str, ...],
    output: Path | None,
    into: Path | None,
    form: str | None,
    paper_name: str | None,
    landscape: bool | None,
    layout: str,
    language: str | None,
    draft: bool,
) -> None:
    """Typeset the script sheet of a dance as PDF, picture or text.

    FILE is a dance file, or - for standard input. A dance with findings of error gets no sheet unless --draft is
    given. An existing sheet is replaced only by a whole new one. Exit status as for 'check'.

    \b
    lodestep sheet harbour-bell-waltz.yaml
    lodestep sheet saunter.yaml -o saunter.pdf --paper A5
    lodestep sheet dances/*.yaml --into sheets --layout large-print
    """
    from notation.cli.ordering import make_order

    order = make_order(layout, paper_name, landscape, _form(output, form), draft, language)
    if isinstance(order, Report):
        say(order)
        sys.exit(UNUSABLE)
    targets = _targets(files, output, into, order.form)
    reports = []
    for report in _set_all(files, targets, order):
        say(report)
        reports.append(report)
    sys.exit(exit_status(reports))


def say(report: Report) -> None:
    """Findings, and what was written or why nothing was."""
    if report.findings:
        click.echo(report_text(report), err=True)
    if report.has_errors and report.usable and not report.written:
        click.echo(f"{printable(report.file)}: no sheet is written; mend the errors, or add --draft", err=True)
    for path in report.written:
        click.echo(f"{printable(path)}: written")


def _form(output: Path | None, form: str | None) -> str:
    ending = output.suffix.lower().lstrip(".") if output else ""
    if output and ending not in FORMS and form is None:
        raise click.UsageError(f"'{output}' must end in {', '.join('.' + f for f in FORMS)}, or name a form with --as")
    return form or ending or "pdf"


def _targets(files: Sequence[str], output: Path | None, into: Path | None, form: str) -> list[Path]:
    """Where each sheet goes. Raises UsageError where two would go to one place."""
    if output and into:
        raise click.UsageError("use -o for one file or --into for a folder, not both")
    if output and len(files) > 1:
        raise click.UsageError("-o names one sheet, but there are several dances; use --into with a folder")
    if STANDARD_INPUT in files and not (output or into):
        raise click.UsageError("a dance from standard input needs -o to name its sheet")
    if into is not None and not into.is_dir():
        raise click.UsageError(f"the folder '{into}' does not exist; make it first")
    targets = [output or _beside(name, into, form) for name in files]
    for path in targets:
        if targets.count(path) > 1:
            raise click.UsageError(f"two dances would both be written to '{path}'; set them apart")
    return targets


def _beside(name: str, into: Path | None, form: str) -> Path:
    path = Path("dance" if name == STANDARD_INPUT else name).with_suffix(f".{form}")
    return into / path.name if into is not None else path


def _set_all(files: Sequence[str], targets: Sequence[Path], order: object) -> Iterator[Report]:
    """The reports, one after the other as sheets are set."""
    from notation.cli.setting import Order, set_job

    assert isinstance(order, Order)
    jobs = [(name, path, order) for name, path in zip(files, targets, strict=True)]
    return spread(set_job, jobs, "Setting sheets", WORTH_SPREADING)
