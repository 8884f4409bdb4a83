"""Many jobs of one kind: one after the other, or spread over the cores where that pays; with a progress bar."""
from __future__ import annotations

import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from typing import TypeVar

import click

Job = TypeVar("Job")
Made = TypeVar("Made")
AT_ONCE = 4


def spread(
    work: Callable[[Job], Made], jobs: Sequence[Job], label: str, worth: int, pool: Executor | None = None
) -> Iterator[Made]:
    """What the work makes of each job, in their order. worth: jobs from which starting more processes pays. pool: where
    to work instead, of this machine or of a cluster; it stays open.

    A bar with that label is shown where a person watches several jobs.
    """
    if pool is not None:
        yield from _watched(pool.map(work, jobs), len(jobs), label)
        return
    if len(jobs) < worth:
        yield from _watched(map(work, jobs), len(jobs), label)
        return
    own = ProcessPoolExecutor(initializer=_leave_stopping_to_parent)
    try:
        yield from _watched(own.map(work, jobs, chunksize=AT_ONCE), len(jobs), label)
    finally:
        own.shutdown(cancel_futures=True)


def _leave_stopping_to_parent() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _watched(made: Iterator[Made], number: int, label: str) -> Iterator[Made]:
    if number < 2 or not sys.stderr.isatty():
        yield from made
        return
    with click.progressbar(made, length=number, label=label, file=sys.stderr) as bar:
        done = list(bar)
    yield from done
