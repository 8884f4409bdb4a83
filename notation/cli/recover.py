"""`lodestep recover`."""
from __future__ import annotations

import sys
from pathlib import Path

import click

from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import UNUSABLE, printable


@click.command()
@click.argument("pdf", type=click.Path(path_type=Path), metavar="SHEET.pdf")
@click.option("--into", type=click.Path(path_type=Path), default=Path("."), help="The folder to write to.")
@click.option("--list", "only_list", is_flag=True, help="Only say which files the sheet carries.")
def recover(pdf: Path, into: Path, only_list: bool) -> None:
    """Give the dance file back that a sheet was set from, byte for byte.

    A file that is there already and differs is left as it is.

    \b
    lodestep recover harbour-bell-waltz.pdf --into found
    """
    from notation.page.recover import RecoverError, recover_sources

    try:
        found = recover_sources(pdf.read_bytes())
        for name, data in found:
            click.echo(f"{printable(name)}: {len(data)} bytes" if only_list else _write(into / Path(name).name, data))
    except (RecoverError, OutputFault) as fault:
        _fail(pdf, str(fault))
    except OSError as fault:
        _fail(pdf, f"cannot be read: {fault.strerror or fault}")


def _write(path: Path, data: bytes) -> str:
    refuse(path, ())
    if path.exists() and path.read_bytes() != data:
        raise OutputFault(f"'{path}' exists and differs; it is left as it is: choose another folder with --into")
    write_whole(path, data)
    return f"{printable(str(path))}: written"


def _fail(pdf: Path, message: str) -> None:
    click.echo(f"{printable(str(pdf))}:1:1: error: {printable(message)}  [recover]", err=True)
    sys.exit(UNUSABLE)
