"""`lodestep layouts`."""
from __future__ import annotations

import sys
from pathlib import Path

import click

from notation.cli.output import OutputFault
from notation.cli.report import UNUSABLE, file_report, printable, report_text
from notation.cli.sources import load
from notation.reading.layout import layout_names, load_layout


@click.command()
@click.option("--thumbnails", type=click.Path(path_type=Path, file_okay=False), help="Draw each as a small PNG there.")
@click.option("--of", "example", help="The dance to draw; needed with --thumbnails.")
def layouts(thumbnails: Path | None, example: str | None) -> None:
    """List the layouts of a sheet.

    \b
    lodestep layouts
    lodestep layouts --thumbnails pictures --of harbour-bell-waltz.yaml
    """
    for name in layout_names():
        click.echo(f"  {name:<16} {load_layout(name).summary}")
    if thumbnails is not None:
        if example is None:
            raise click.UsageError("name a dance for the thumbnails with --of")
        sys.exit(_draw(example, thumbnails))


def _draw(example: str, folder: Path) -> int:
    """Draw the thumbnails of a dance; the exit status."""
    from notation.cli.thumbnails import draw_thumbnails

    source = load(example)
    if source.worked is None:
        click.echo(report_text(source.report), err=True)
        return UNUSABLE
    try:
        for path in draw_thumbnails(source.worked, folder):
            click.echo(f"{printable(str(path))}: written")
    except OutputFault as fault:
        click.echo(report_text(file_report(str(folder), "output", str(fault))), err=True)
        return UNUSABLE
    return 0
