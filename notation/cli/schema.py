"""`lodestep schema`."""
from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from notation.cli.report import UNUSABLE, printable

KINDS = ("dance", "book", "layout", "rules", "figure", "programme")


@click.command()
@click.argument("kind", type=click.Choice(KINDS))
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The file to write; otherwise it is shown.")
def schema(kind: str, output: Path | None) -> None:
    """Give the JSON Schema of a KIND of file, for an editor that completes and checks.

    Write it to a file, and begin each dance with a line that names it.

    \b
    lodestep schema dance -o dance.schema.json
    # yaml-language-server: $schema=dance.schema.json
    """
    from notation.cli.output import OutputFault, refuse, write_whole
    from notation.reading.schema import schema as schema_of

    words = json.dumps(schema_of(kind), indent=1, ensure_ascii=False) + "\n"
    if output is None:
        click.echo(words, nl=False)
        return
    try:
        refuse(output, ())
        write_whole(output, words.encode())
    except OutputFault as fault:
        click.echo(printable(str(fault)), err=True)
        sys.exit(UNUSABLE)
    click.echo(f"{printable(str(output))}: written")
