"""The dances of a book set one by one: by other processes where they are many, and not again where nothing changed."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from pathlib import Path

from notation.cli.bookfiles import BookFile
from notation.cli.report import Report, file_report
from notation.cli.setting import faces, letters_missing
from notation.cli.shelf import Shelf, key_of, open_shelf
from notation.cli.sources import read_source, worked_source
from notation.cli.spreading import spread
from notation.layout import Layout
from notation.page.content import Paper
from notation.page.fault import LayoutError
from notation.page.packed import PackError
from notation.reading.knowledge import load_knowledge
from notation.sheet import diagrams_of
from notation.sheet.booked import book_dance, from_bytes, to_bytes
from notation.sheet.templates import TemplateFault

WORTH_SPREADING = 24
"""Dances from which starting more processes pays."""


@dataclass(frozen=True, slots=True)
class Job:
    """One dance to set. name: of its file, from where the command runs."""

    name: str
    data: bytes
    layout: Layout
    paper: Paper


@dataclass(frozen=True, slots=True)
class Done:
    """A dance set: packed, None where it could not be; and what was found."""

    packed: bytes | None
    report: Report


def set_job(job: Job) -> Done:
    """Work out, check and set one dance. What goes wrong is in the report."""
    source = worked_source(job.name, job.data)
    if source.worked is None or source.report.has_errors:
        return Done(None, source.report)
    knowledge = load_knowledge()
    diagrams = diagrams_of(source.worked, knowledge, job.layout)
    try:
        dance = book_dance(source.worked, knowledge, job.layout, job.paper, faces(), diagrams)
    except LayoutError as fault:
        return Done(None, file_report(job.name, "page-too-small", str(fault)))
    except TemplateFault as fault:
        return Done(None, file_report(job.name, "layout-template", str(fault)))
    findings = (*source.report.findings, *letters_missing(source))
    return Done(to_bytes(dance), Report(job.name, findings, source.report.lines))


def set_dances(
    files: Sequence[BookFile], layout: Layout, paper: Paper, pool: Executor | None = None, shelf: Shelf | None = None
) -> list[tuple[bytes, Done]]:
    """The bytes of each file and its dance set, in their order.

    pool: where to work, else processes of this machine. shelf: where set dances are kept, else the user's.
    """
    shelf = shelf or open_shelf()
    sources = [read_source(str(file.path)) for file in files]
    known: dict[int, Done] = {}
    jobs: dict[int, tuple[str, Job]] = {}
    for number, (file, data) in enumerate(zip(files, sources, strict=True)):
        if isinstance(data, Report):
            known[number] = Done(None, data)
            continue
        key = key_of(data, file.path.parent, layout, paper)
        found = _kept(shelf, key, str(file.path))
        if found is not None:
            known[number] = found
        else:
            jobs[number] = (key, Job(str(file.path), data, layout, paper))
    known |= _made(jobs, pool, shelf)
    shelf.clear_out()
    return [(data if isinstance(data, bytes) else b"", known[number]) for number, data in enumerate(sources)]


def _kept(shelf: Shelf, key: str, name: str) -> Done | None:
    found = shelf.find(key, name)
    if found is None:
        return None
    try:
        from_bytes(found[0])
    except PackError:
        return None
    return Done(found[0], Report(name, found[1], ()))


def _made(jobs: Mapping[int, tuple[str, Job]], pool: Executor | None, shelf: Shelf) -> dict[int, Done]:
    """The dances that are not kept, set; and kept for another time, but for those with errors."""
    work = [job for _, job in jobs.values()]
    made: dict[int, Done] = {}
    done = spread(set_job, work, "Setting dances", WORTH_SPREADING, pool)
    for (number, (key, _)), one in zip(jobs.items(), done, strict=True):
        if one.packed is not None:
            shelf.keep(key, one.packed, one.report.findings)
            one = Done(one.packed, replace(one.report, lines=()))
        made[number] = one
    return made


def attachment_names(files: Sequence[BookFile]) -> list[str]:
    """A name for each file inside the PDF: its own, or with its folders where two would be alike."""
    names: list[str] = []
    taken: set[str] = set()
    for file in files:
        name = Path(file.name).name
        for tried in (name, file.name.replace("/", "-"), *(f"{n}-{name}" for n in range(2, len(files) + 2))):
            if tried.casefold() not in taken:
                break
        taken.add(tried.casefold())
        names.append(tried)
    return names
