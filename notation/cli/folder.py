"""The dances of a folder, catalogued: read, worked out and checked, spread over the cores."""
from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

from notation.bounds import FOLDER_FILES
from notation.cli.output import OutputFault
from notation.cli.report import Report
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


def catalogue(folder: Path) -> list[Entry]:
    """The entries of a folder's dances; books, programmes and other files of ours are passed over."""
    made = spread(file_entry, dance_files(folder), "Reading dances", WORTH_SPREADING)
    return [entry for entry in made if entry is not None]


def file_entry(name: str) -> Entry | None:
    """The entry of one file; None where its keys are not those of a dance."""
    data = read_source(name)
    if isinstance(data, Report):
        return entry_of(name, None, data.findings)
    if KEY.search(data) and not OF_A_DANCE.search(data):
        return None
    source = worked_source(name, data)
    return entry_of(name, source.worked, source.report.findings)
