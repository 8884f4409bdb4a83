"""Many jobs of one kind: one after the other, or spread over the cores where that pays; with a progress bar."""
from __future__ import annotations

import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from typing import TypeVar

import click

Job = TypeVar("Job")
Made = TypeVar("Made")
AT_ONCE = 4


def spread(work: Callable[[Job], Made], jobs: Sequence[Job], label: str, worth: int) -> Iterator[Made]:
    """What the work makes of each job, in their order. worth: jobs from which starting more processes pays.

    A bar with that label is shown where a person watches several jobs.
    """
    if len(jobs) < worth:
        yield from _watched(map(work, jobs), len(jobs), label)
        return
    pool = ProcessPoolExecutor(initializer=_leave_stopping_to_parent)
    try:
        yield from _watched(pool.map(work, jobs, chunksize=AT_ONCE), len(jobs), label)
    finally:
        pool.shutdown(cancel_futures=True)


def _leave_stopping_to_parent() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _watched(made: Iterator[Made], number: int, label: str) -> Iterator[Made]:
    if number < 2 or not sys.stderr.isatty():
        yield from made
        return
    with click.progressbar(made, length=number, label=label, file=sys.stderr) as bar:
        done = list(bar)
    yield from done
