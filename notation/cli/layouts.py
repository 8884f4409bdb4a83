"""`lodestep layouts`."""
from __future__ import annotations

import sys
from pathlib import Path

import click

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
        from notation.cli.setting import draw_thumbnails

        sys.exit(draw_thumbnails(example, thumbnails))
