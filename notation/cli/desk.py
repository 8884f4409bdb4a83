"""`lodestep desk`."""
from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("folder", default=".", metavar="[FOLDER]",
                type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.option("--port", type=click.IntRange(1, 65535), help="Where to listen; otherwise 8437 or the next that is free.")
@click.option("--open/--no-open", "show", default=True, help="Whether the browser is opened.")
def desk(folder: Path, port: int | None, show: bool) -> None:
    """Write dances in the browser and see the sheet while you type.

    The page is served to this machine alone, at an address that is new each time; it reads and writes the dances of
    FOLDER (this one where none is named), and asks nothing of the internet. Ctrl-C ends it.

    \b
    lodestep desk
    lodestep desk ~/dances --no-open
    """
    from notation.desk.server import serve

    def ready(address: str) -> None:
        click.echo(f"The desk is at {address}\nCtrl-C ends it.")
        if show:
            click.launch(address)

    try:
        serve(folder.resolve(), _write, _starter, port, ready)
    except KeyboardInterrupt:
        pass
    except OSError as fault:
        raise click.ClickException(str(fault)) from fault
    click.echo("The desk is closed; what was not saved is kept as a draft.")


def _write(path: Path, data: bytes) -> None:
    from notation.cli.output import OutputFault, write_whole

    try:
        write_whole(path, data)
    except OutputFault as fault:
        raise OSError(str(fault)) from fault


def _starter(title: str, rhythm: str) -> tuple[str, str]:
    from notation.bounds import TITLE
    from notation.cli.new import file_name, starter
    from notation.reading.knowledge import load_knowledge
    from notation.reading.rhythms import find_rhythm

    row, title = find_rhythm(rhythm, load_knowledge().rhythms), " ".join(title.split())
    if row is None:
        raise ValueError(f"there is no rhythm '{rhythm[:40]}'; choose one of the list")
    if not title or len(title) > TITLE.most:
        raise ValueError(TITLE.words if title else "write a title first")
    return f"{file_name(title)}.yaml", starter(title, row)
