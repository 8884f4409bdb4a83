"""`lodestep watch`."""
from __future__ import annotations

import gc
import signal
import threading
import time
from collections.abc import Callable, Generator, Iterator
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from notation.cli.completing import layout_words
from notation.cli.language import language_option
from notation.cli.report import Report

if TYPE_CHECKING:
    from notation.cli.setting import Made, Order

STEP = 10
"""Milliseconds between two looks for a change."""
PAUSE, PATIENCE = 0.04, 1.6
"""Seconds without a further change before a sheet is written, since an editor writes in several steps; and after which
it is written although changes go on."""


@click.command()
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The PDF to write; otherwise beside the dance.")
@click.option("--layout", default="script", shell_complete=layout_words, help="A layout by name or a layout file.")
@click.option("--paper", "paper_name", help="A3 to A7, Letter or Legal; otherwise the layout's.")
@click.option("--landscape/--portrait", default=None, help="How the paper is held; otherwise the layout's.")
@language_option
@click.option("--draft", is_flag=True, help="Write the sheet even where something cannot be danced.")
def watch(
    file: Path, output: Path | None, layout: str, paper_name: str | None, landscape: bool | None,
    language: str | None, draft: bool,
) -> None:
    """Set the sheet again on each save, and say what is found. Ctrl-C ends it.

    The last good PDF stays where something cannot be danced. Your own figures beside the dance and your own layout
    file are watched too.

    \b
    lodestep watch harbour-bell-waltz.yaml
    """
    from notation.cli.ordering import make_order

    target = output or file.with_suffix(".pdf")
    if target.suffix.lower() != ".pdf":
        raise click.UsageError(f"'{target}' must end in .pdf")
    if not file.parent.is_dir():
        raise click.UsageError(f"the folder '{file.parent}' does not exist")
    click.echo(f"Watching {file}; Ctrl-C ends it.")
    ended, wanted = _ended_by_ctrl_c(), _Wanted(file, layout)
    with suppress(KeyboardInterrupt):
        for still in _changes(wanted, ended):
            begun = time.perf_counter()
            made = _made(file, target, make_order(layout, paper_name, landscape, "pdf", draft, language))
            spent = time.perf_counter() - begun
            ended.wait(PAUSE - spent)
            if still():
                _tell(made, target, spent)
    click.echo("Watching ended.")


def _tell(made: Made, target: Path, spent: float) -> None:
    from notation.cli.setting import write_made
    from notation.cli.sheet import say

    say(write_made(made, target))
    click.echo(f"{time.strftime('%H:%M:%S')} {1000 * spent:.0f} ms")


def _ended_by_ctrl_c() -> threading.Event:
    """Set by Ctrl-C, which also breaks off what is being done.

    An interruption alone can be lost where it falls into code that is not to be broken off, and a shell may have told
    programs in the background not to heed it.
    """
    ended = threading.Event()

    def end(*_: object) -> None:
        ended.set()
        raise KeyboardInterrupt

    signal.signal(signal.SIGINT, end)
    return ended


def _made(file: Path, target: Path, order: Order | Report) -> Made:
    from notation.cli.report import file_report
    from notation.cli.setting import Made, make_file

    if not file.exists():
        gone = "the file is gone; the sheet stays as it is until it is back"
        return Made(file_report(str(file), "file-unreadable", gone), {})
    return Made(order, {}) if isinstance(order, Report) else make_file(str(file), target, order)


def _changes(wanted: _Wanted, ended: threading.Event) -> Iterator[Callable[[], bool]]:
    """Once at the beginning, then after each change of what the sheet is made from, with a question: whether all is
    still as it was. Where it is not, a save came in several steps, and the next change follows at once.

    The folder is watched and not the file, since many editors save by renaming another file to its name.
    """
    from watchfiles import watch as changes

    last = yield from _until_still(wanted, None)
    gc.collect()
    gc.freeze()  # what is loaded stays, so it need not be looked at between a save and its sheet
    for _ in changes(*wanted.folders(), debounce=1600, step=STEP, rust_timeout=1000, recursive=False,
                     watch_filter=None, yield_on_timeout=True, stop_event=ended, ignore_permission_denied=True):
        last = yield from _until_still(wanted, last)


def _until_still(wanted: _Wanted, last: object) -> Generator[Callable[[], bool], None, object]:
    """As long as there are changes. last: the stamp of what was set last. Gives the new one."""
    begun = time.monotonic()
    while (stamp := wanted.stamp()) != last:
        yield partial(_is_still, wanted, stamp, begun + PATIENCE)
        last = stamp
    return last


def _is_still(wanted: _Wanted, stamp: object, end: float) -> bool:
    return time.monotonic() > end or wanted.stamp() == stamp


class _Wanted:
    """What the sheet is made from."""

    def __init__(self, file: Path, layout: str) -> None:
        self.file = file
        self.figures = file.parent / "figures"
        self.layout = Path(layout) if layout.endswith((".yaml", ".yml")) else None

    def folders(self) -> set[Path]:
        made = {self.file.parent.resolve()} | ({self.figures.resolve()} if self.figures.is_dir() else set())
        return made | ({self.layout.parent.resolve()} if self.layout else set())

    def stamp(self) -> tuple[object, ...]:
        """Changes when one of the files does."""
        files = [self.file, *([self.layout] if self.layout else []), *sorted(self.figures.glob("*.yaml"))]
        return tuple(_stamp(path) for path in files)


def _stamp(path: Path) -> tuple[str, int, int, int] | None:
    try:
        said = path.stat()
    except OSError:
        return None
    return path.name, said.st_mtime_ns, said.st_size, said.st_ino
