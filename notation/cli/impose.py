"""`lodestep impose`."""
from __future__ import annotations

import sys
from pathlib import Path

import click

from notation.bounds import PDF_BYTES
from notation.cli.imposing import imposed, imposed_words, imposing_options
from notation.cli.language import language_option
from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import UNUSABLE, printable
from notation.page.forme import Plan


@click.command()
@click.argument("pdf", type=click.Path(path_type=Path), metavar="PDF")
@click.option("-o", "--output", type=click.Path(path_type=Path), required=True, help="The imposed PDF to write.")
@language_option
@imposing_options("--paper", "--sheet-paper")
def impose(pdf: Path, output: Path, language: str | None, plan: Plan) -> None:
    """Put the pages of a finished PDF on sheets that are folded to a booklet or a card.

    The PDF itself, the version to read, stays as it is. Pages too large for the paper are made smaller.

    \b
    lodestep impose season.pdf -o season-print.pdf --paper A4
    lodestep impose season.pdf -o proof.pdf --up 4 --fold-marks --proof
    lodestep impose season.pdf -o printer.pdf --signature 4 --creep 1.5 --bleed 3 --crop-marks
    lodestep impose pocket.pdf -o card.pdf --card 4 --paper A4
    """
    try:
        refuse(output, (pdf,), "PDF")
        made = imposed(_bytes(pdf), plan, language)
        write_whole(output, made.data)
    except (OutputFault, ValueError) as fault:
        click.echo(f"{printable(str(pdf))}: error: {printable(str(fault))}  [imposition]", err=True)
        sys.exit(UNUSABLE)
    click.echo(f"{printable(str(output))}: written; {imposed_words(made)}")


def _bytes(path: Path) -> bytes:
    """Raises OutputFault where the file cannot be read."""
    try:
        with path.open("rb") as file:
            return file.read(PDF_BYTES.most + 1)
    except OSError as fault:
        raise OutputFault(f"'{path}' cannot be read: {fault.strerror or fault}") from fault
