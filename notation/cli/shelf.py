"""Set dances and entries of catalogues kept from one run to the next, by what they were made from. It may be deleted at
any time.

A key is the digest of everything a set dance depends on: the program with its data and fonts, the libraries, layout,
paper, the dance's bytes and the writer's own figures. What is kept bears its own digest, is no code, and is passed over
where anything about it is wrong.
"""
from __future__ import annotations

import contextlib
import json
import os
import stat
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from notation.dance.finding import Finding, Severity
from notation.dance.mark import Mark
from notation.installed import PACKAGE, data_folder
from notation.layout import Layout
from notation.page.content import Paper

MOST_BYTES = 500_000_000
"""Kept in all; 20,000 dances take about half of it."""
LEFT = 0.8
"""Share of it that is left after clearing out; what was used last stays."""
LIBRARIES = ("pyphen", "PyYAML", "jinja2", "uharfbuzz")
CODE = ("dance", "reading", "page", "sheet", "cli")
DIGEST = 64  # letters
ENDING = ".dance"


def shelf_folder() -> Path:
    """LODESTEP_CACHE where it is set, else the user's own folder for such things."""
    import platformdirs

    return Path(os.environ.get("LODESTEP_CACHE") or platformdirs.user_cache_dir("lodestep", False)) / "dances"


@cache
def program_digest() -> str:
    """Of the program as it is installed: code, words, figures, layouts, fonts, and the libraries it sets with."""
    made = sha256(sys.version.encode())
    for name in LIBRARIES:
        with contextlib.suppress(PackageNotFoundError):
            made.update(f"{name} {version(name)}\n".encode())
    fonts = sorted(data_folder("fonts").iterdir())
    code = (path for folder in CODE for path in (PACKAGE / folder).glob("**/*.py"))
    data = (path for folder in ("words", "figures") for path in (PACKAGE / folder).glob("*.yaml"))
    for path in (*sorted(code), *sorted(data), *fonts):
        made.update(path.name.encode() + b"\0" + (path.read_bytes() if path.is_file() else b""))
    return made.hexdigest()


def key_of(data: bytes, folder: Path, layout: Layout, paper: Paper) -> str:
    """The key of a dance with those bytes, set so, whose own figures stand in that folder's `figures`."""
    return _key(data, folder, f"{layout!r}\n{paper!r}")


def entry_key(data: bytes, folder: Path) -> str:
    """The key of its entry in a catalogue."""
    return _key(data, folder, "entry")


def _key(data: bytes, folder: Path, made_as: str) -> str:
    made = sha256(f"{program_digest()}\n{made_as}\n{_figures(_own_figures(folder))}\n".encode())
    made.update(data)
    return made.hexdigest()


def _own_figures(folder: Path) -> tuple[tuple[Path, int, int], ...]:
    """The writer's own figures with time and size: plain files there, as the reader of figures takes them."""
    root, place = folder.resolve(), folder / "figures"
    with contextlib.suppress(OSError):
        if place.is_dir():
            files = sorted(p for p in place.glob("*.yaml") if p.is_file() and p.resolve().is_relative_to(root))
            return tuple((p, p.stat().st_mtime_ns, p.stat().st_size) for p in files)
    return ()


@lru_cache(maxsize=256)
def _figures(files: tuple[tuple[Path, int, int], ...]) -> str:
    made = sha256()
    for path, _, _ in files:
        with contextlib.suppress(OSError):
            made.update(path.name.encode() + b"\0" + path.read_bytes())
    return made.hexdigest()


@dataclass(frozen=True, slots=True)
class Shelf:
    """A folder of set dances; None where there is no folder that is the user's alone."""

    folder: Path | None

    def find(self, key: str, file: str) -> tuple[bytes, tuple[Finding, ...]] | None:
        """The packed dance and what was found in it, named as in that file; None where it is not kept or damaged."""
        if self.folder is None:
            return None
        path = self.folder / (key + ENDING)
        try:
            whole = path.read_bytes()
            digest, kept = whole[:DIGEST], whole[DIGEST:]
            if sha256(kept).hexdigest().encode() != digest:
                return None
            os.utime(path)
            head, packed = kept.split(b"\n", 1)
            return packed, tuple(_finding(row, file) for row in json.loads(head))
        except (OSError, ValueError, KeyError, TypeError, AssertionError, RecursionError):
            return None

    def keep(self, key: str, packed: bytes, findings: tuple[Finding, ...]) -> None:
        """Keep it for another run; that it cannot be kept does no harm."""
        if self.folder is None:
            return
        kept = json.dumps([_row(finding) for finding in findings], ensure_ascii=False).encode() + b"\n" + packed
        with contextlib.suppress(OSError):
            handle, name = tempfile.mkstemp(dir=self.folder)
            with os.fdopen(handle, "wb") as file:
                file.write(sha256(kept).hexdigest().encode() + kept)
            os.replace(name, self.folder / (key + ENDING))

    def clear_out(self, most: int = MOST_BYTES) -> None:
        """Delete what was not used for longest where more is kept than that many bytes."""
        files = sorted(self._files(), key=lambda file: file[1].st_mtime, reverse=True)
        room = most if sum(file[1].st_size for file in files) <= most else LEFT * most
        for path, about in files:
            room -= about.st_size
            if room < 0:
                with contextlib.suppress(OSError):
                    path.unlink()

    def _files(self) -> Iterator[tuple[Path, os.stat_result]]:
        if self.folder is not None:
            with contextlib.suppress(OSError), os.scandir(self.folder) as entries:
                yield from ((Path(entry.path), entry.stat()) for entry in entries if entry.is_file())


def open_shelf(folder: Path | None = None) -> Shelf:
    """The shelf in that folder, else in the user's; an empty one where the folder is not the user's alone."""
    place = folder or shelf_folder()
    try:
        place.mkdir(mode=0o700, parents=True, exist_ok=True)
        return Shelf(place if _own(place) else None)
    except OSError:
        return Shelf(None)


def _own(folder: Path) -> bool:
    """Whether nobody else can write there, so that nobody else can put a dance of his in a book."""
    if os.name != "posix":
        return True
    about = folder.stat()
    return about.st_uid == os.getuid() and not about.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _row(finding: Finding) -> list[object]:
    mark = finding.mark
    return [finding.rule, finding.severity.value, [mark.line, mark.column, mark.end_line, mark.end_column],
            finding.message, finding.suggestion, finding.bar, finding.count, finding.part]


def _finding(row: list[object], file: str) -> Finding:
    rule, severity, place, message, suggestion, bar, count, part = row
    assert isinstance(place, list)
    line, column, end_line, end_column = map(int, place)
    mark = Mark(file, line, column, end_line, end_column)
    said = [None if text is None else str(text) for text in (suggestion, count, part)]
    number = None if bar is None else int(str(bar))
    return Finding(str(rule), Severity(severity), mark, str(message), said[0], number, said[1], said[2])
