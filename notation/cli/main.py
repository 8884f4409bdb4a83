"""The command `lodestep`. Each command lives in its own file and is imported only when it is called."""
from __future__ import annotations

import importlib
import io
import os
import sys
from typing import NoReturn

import click

from notation import __version__
from notation.cli.report import printable
from notation.dance.suggest import did_you_mean

COMMANDS = {
    "sheet": "Typeset the script sheet of a dance as PDF, picture or text.",
    "check": "Say what in a dance cannot be danced, and how long it runs.",
    "desk": "Write dances in the browser and see the sheet while you type.",
    "watch": "Set the sheet again on each save.",
    "new": "Write a starter file for a new dance.",
    "floor": "Draw where the feet go on the floor.",
    "figures": "List and show the figures of the library.",
    "card": "Typeset teaching cards of figures.",
    "booklet": "Set a book of dances: cover, contents, dances, indexes.",
    "impose": "Put the pages of a PDF on sheets that are folded to a booklet.",
    "entry": "Enter a dance for a competition, or check and number entries.",
    "compare": "Say what changed between two versions of a dance, and print an errata slip.",
    "programme": "Say when each dance of an evening begins, and print its programme.",
    "index": "List the dances of a folder, and search them.",
    "layouts": "List the layouts of a sheet.",
    "schema": "Give the JSON Schema of a kind of file, for editors that complete and check.",
    "completion": "Have a shell complete commands, layouts, figures and file names.",
    "recover": "Give the dance file back that a sheet was set from.",
    "rules": "List the rules of the checks, with examples.",
    "terms": "List the words that are read and printed, and the rhythms.",
}
UNEXPECTED = 2
STOPPED = 130
"""As a shell reports a program that was stopped by Ctrl-C."""


class LazyCommands(click.Group):
    """A group that knows its commands by name and imports one when it is needed."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return [name for name in COMMANDS if _exists(name)]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS or not _exists(cmd_name):
            return None
        command = getattr(importlib.import_module(f"notation.cli.{cmd_name}"), cmd_name)
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and not args[0].startswith("-") and self.get_command(ctx, args[0]) is None:
            hint = did_you_mean(args[0], self.list_commands(ctx))[0] or "; 'lodestep --help' lists them"
            raise click.UsageError(f"there is no command '{args[0]}'{hint}", ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, COMMANDS[name]) for name in self.list_commands(ctx)])


def _exists(name: str) -> bool:
    return os.path.exists(os.path.join(os.path.dirname(__file__), f"{name}.py"))


@click.command(cls=LazyCommands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="lodestep")
def lodestep() -> None:
    """Work out couple sequence dances written in shorthand, and typeset their script sheets.

    \b
    lodestep new "Harbour Lights" --rhythm waltz
    lodestep check harbour-lights.yaml
    lodestep sheet harbour-lights.yaml -o harbour-lights.pdf
    """


def main() -> None:
    """Run the command. Whatever goes wrong unforeseen ends in one line and exit status 2, never in a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    try:
        sys.exit(lodestep.main(standalone_mode=False))
    except click.ClickException as fault:
        _show(fault)
        sys.exit(fault.exit_code)
    except click.Abort:
        print("lodestep: stopped; files that stood there are whole, the old or the new", file=sys.stderr)
        sys.exit(STOPPED)
    except Exception as fault:
        if os.environ.get("LODESTEP_TRACEBACK"):
            raise
        _unforeseen(fault)


def _show(fault: click.ClickException) -> None:
    shown = io.StringIO()
    fault.show(file=shown)
    print("\n".join(printable(line) for line in shown.getvalue().splitlines()), file=sys.stderr)


def _unforeseen(fault: Exception) -> NoReturn:
    what = printable(f"{type(fault).__name__}: {fault}".splitlines()[0][:300])
    print(f"lodestep: error: something unforeseen went wrong ({what}); files that stood there are as they were."
          " Please report it with the dance file.  [unforeseen]", file=sys.stderr)
    sys.exit(UNEXPECTED)


if __name__ == "__main__":
    main()
