"""The dances of a folder, catalogued: read, worked out and checked, spread over the cores."""
from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from notation.bounds import FOLDER_FILES
from notation.cli.output import OutputFault
from notation.cli.report import Report
from notation.cli.shelf import Shelf, entry_key, open_shelf
from notation.cli.sources import read_source, worked_source
from notation.cli.spreading import spread
from notation.dance.catalogue import Entry, entry_of

WORTH_SPREADING = 60
"""Files from which starting more processes pays: each takes as long to start as some thirty files to read and check."""
PASSED_OVER = ("figures", "layouts")
"""Folders that hold no dances."""
KEY = re.compile(rb"^[A-Za-z][A-Za-z _-]*:", re.MULTILINE)
OF_A_DANCE = re.compile(rb"^(sequence|rhythm|metre|start|arranged[ _-]by)\s*:", re.MULTILINE)


def dance_files(folder: Path) -> tuple[str, ...]:
    """The YAML files of a folder and those in it, without hidden ones. Raises OutputFault, with words for the user."""
    if not folder.is_dir():
        raise OutputFault(f"there is no folder '{folder}'; name one that holds dances")
    found = sorted(_yaml_files(folder))
    if len(found) > FOLDER_FILES.most:
        raise OutputFault(FOLDER_FILES.words)
    return tuple(found)


def _yaml_files(folder: Path) -> Iterator[str]:
    for place, inner, names in os.walk(folder):
        inner[:] = [name for name in inner if name not in PASSED_OVER and not name.startswith(".")]
        yield from (os.path.join(place, n) for n in names if n.endswith((".yaml", ".yml")) and not n.startswith("."))


def catalogue(folder: Path, shelf: Shelf | None = None) -> list[Entry]:
    """The entries of a folder's dances; books, programmes and other files of ours are passed over.

    shelf: where the entries of dances that did not change are kept, else the user's.
    """
    shelf = shelf or open_shelf()
    names = dance_files(folder)
    found = {name: entry for name in names if (entry := _kept(shelf, name)) is not None}
    rest = [name for name in names if name not in found]
    made = spread(file_entry, rest, "Reading dances", WORTH_SPREADING)
    for name, one in zip(rest, made, strict=True):
        if one is not None:
            found[name] = one.entry
            if one.key:
                shelf.keep(one.key, json.dumps(asdict(one.entry), ensure_ascii=False).encode(), ())
    shelf.clear_out()
    return [found[name] for name in names if name in found]


@dataclass(frozen=True, slots=True)
class Made:
    """An entry and the key of what it was made from; empty for a file that could not be read."""

    entry: Entry
    key: str


def file_entry(name: str) -> Made | None:
    """The entry of one file; None where its keys are not those of a dance."""
    data = read_source(name)
    if isinstance(data, Report):
        return Made(entry_of(name, None, data.findings), "")
    if KEY.search(data) and not OF_A_DANCE.search(data):
        return None
    source = worked_source(name, data)
    return Made(entry_of(name, source.worked, source.report.findings), entry_key(data, Path(name).parent))


def _kept(shelf: Shelf, name: str) -> Entry | None:
    """The entry of a file that did not change since it was made; None where it did, or what is kept is no entry."""
    data = read_source(name)
    kept = shelf.find(entry_key(data, Path(name).parent), name) if isinstance(data, bytes) else None
    if kept is None:
        return None
    try:
        return _entry(name, json.loads(kept[0]))
    except (ValueError, KeyError, TypeError, RecursionError):
        return None


def _entry(name: str, said: dict[str, Any]) -> Entry:
    arrangers, figures = (tuple(map(str, said[key])) for key in ("arrangers", "figures"))
    errors, warnings, notes = (int(said[key]) for key in ("errors", "warnings", "notes"))
    title, rhythm, metre, tempo, fault = (str(said[key]) for key in ("title", "rhythm", "metre", "tempo", "fault"))
    bars = None if said["bars"] is None else int(said["bars"])
    return Entry(name, title, arrangers, rhythm, metre, bars, tempo, figures, errors, warnings, notes, fault)
