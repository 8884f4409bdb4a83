"""The one folder that the desk reads and writes: names that lead out of it are refused, drafts are kept in it."""
from __future__ import annotations

import hashlib
import json
import os
import re
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from notation.bounds import DESK_DEPTH, DESK_FILES, DESK_NAME, FILE_BYTES, Bound

ENDINGS = (".yaml", ".yml")
KEPT = ".lodestep-desk"
"""The folder, within hers, of drafts and of versions set aside."""
TITLE = re.compile(rb"^title: *(.*?) *(?:#.*)?$", re.MULTILINE)
SEQUENCE = re.compile(rb"^sequence:", re.MULTILINE)

Writer = Callable[[Path, bytes], None]
"""Writes a file whole or leaves what stands there. Raises OSError."""


class Refused(Exception):
    """What is asked for is not given; the text says why. status: of the answer by HTTP."""

    def __init__(self, words: str, status: int = 403) -> None:
        super().__init__(words)
        self.status = status


class Changed(Exception):
    """The file on disk is not the one that was opened."""

    def __init__(self, data: bytes) -> None:
        super().__init__()
        self.data = data


def digest(data: bytes) -> str:
    """Names the bytes of a file; '' stands for a file that does not exist."""
    return hashlib.sha256(data).hexdigest()


@dataclass(slots=True)
class Folder:
    """A folder of dances. write: how files are written. met: bounds that kept files from the last list."""

    root: Path
    write: Writer
    lock: threading.Lock = field(default_factory=threading.Lock)
    met: set[Bound] = field(default_factory=set)

    def path(self, name: str) -> Path:
        """The file of that name, which need not exist. Raises Refused where it is none of hers."""
        if len(name) > DESK_NAME.most:
            raise Refused(DESK_NAME.words)
        parts = name.split("/")
        odd = not name.isprintable() or any(c in name for c in '\\:*?"<>|')
        if odd or not name.endswith(ENDINGS) or any(not part or part.startswith(".") for part in parts):
            raise Refused(f"'{name[:60]}' is no dance of this folder")
        return self._inside(self.root.joinpath(*parts))

    def _inside(self, path: Path) -> Path:
        """The path with links followed. Raises Refused where they lead out of the folder."""
        root, real = self.root.resolve(), path.resolve()
        if not real.is_relative_to(root) or real.exists() and not (real.is_file() or real.is_dir()):
            raise Refused(f"'{path.name}' leads out of the folder of the desk")
        return real

    def read(self, name: str) -> bytes:
        """The file's bytes. Raises Refused."""
        path = self.path(name)
        if not path.is_file():
            raise Refused(f"there is no file '{name}' any more", 404)
        with path.open("rb") as file:
            data = file.read(FILE_BYTES.most + 1)
        if len(data) > FILE_BYTES.most:
            raise Refused(FILE_BYTES.words, 413)
        return data

    def current(self, name: str) -> bytes:
        """The file's bytes, none where there is no file."""
        return self.read(name) if self.path(name).exists() else b""

    def dances(self) -> list[dict[str, str]]:
        """Name and title of each dance file, by name."""
        found: list[dict[str, str]] = []
        self.met.clear()
        for path in self._files(self.root, DESK_DEPTH.most):
            name = path.relative_to(self.root).as_posix()
            try:
                data = self.read(name)
            except (Refused, OSError):
                continue
            title = TITLE.search(data)
            if title and SEQUENCE.search(data):
                found.append({"name": name, "title": title[1].decode("utf-8", "replace").strip("\"'") or name})
            if len(found) >= DESK_FILES.most:
                self.met.add(DESK_FILES)
                break
        return found

    def layouts(self) -> list[str]:
        """Names of her own layout files."""
        files = (path.relative_to(self.root).as_posix() for path in self._files(self.root, DESK_DEPTH.most))
        return [name for name in files if re.search(rb"^layout:", self.current(name), re.MULTILINE)]

    def _files(self, folder: Path, deep: int) -> Iterator[Path]:
        for entry in sorted(os.scandir(folder), key=lambda e: e.name):
            if entry.name.startswith("."):
                continue
            if entry.is_dir(follow_symlinks=False) and entry.name not in ("figures", "node_modules"):
                if deep:
                    yield from self._files(Path(entry.path), deep - 1)
                else:
                    self.met.add(DESK_DEPTH)
            elif entry.name.endswith(ENDINGS) and entry.is_file():
                yield Path(entry.path)

    def save(self, name: str, data: bytes, base: str, over: bool = False) -> str:
        """Write the file and give its new digest. base: digest of what was opened, '' for a new file.

        over: write over a file that was changed meanwhile; that version is set aside first. Raises Changed, Refused.
        """
        with self.lock:
            path, old = self.path(name), self.current(name)
            if old and digest(old) not in (base, digest(data)):
                if not over:
                    raise Changed(old)
                self._keep(f"{path.stem}-{digest(old)[:8]}{path.suffix}", old)
            path.parent.mkdir(parents=True, exist_ok=True)
            self.write(path, data)
            self._drop(name)
        return digest(data)

    def set_aside(self, name: str, data: bytes) -> None:
        """Keep a version that gives way to another one. Raises Refused."""
        path = self.path(name)
        with self.lock:
            self._keep(f"{path.stem}-{digest(data)[:8]}{path.suffix}", data)

    def _kept(self, file: str) -> Path:
        return self._inside(self.root / KEPT / file)

    def _keep(self, file: str, data: bytes) -> None:
        path = self._kept(file)
        path.parent.mkdir(exist_ok=True)
        self.write(path, data)

    def _draft_file(self, name: str) -> str:
        return f"{digest(name.encode())[:24]}.draft.json"

    def draft(self, name: str) -> dict[str, Any] | None:
        """What was typed and not saved: its text, the digest it began from, when."""
        path = self._kept(self._draft_file(name))
        try:
            said = json.loads(path.read_bytes()) if path.is_file() else None
        except (ValueError, OSError):
            return None
        return said if isinstance(said, dict) and isinstance(said.get("text"), str) else None

    def keep_draft(self, name: str, text: str, base: str, when: float) -> None:
        """Keep what is typed until it is saved. when: milliseconds since 1970, by the writer's clock."""
        self.path(name)
        said = {"name": name, "text": text, "base": base, "when": when}
        with self.lock:
            self._keep(self._draft_file(name), json.dumps(said, ensure_ascii=False).encode())

    def drop_draft(self, name: str) -> None:
        with self.lock:
            self._drop(name)

    def _drop(self, name: str) -> None:
        self._kept(self._draft_file(name)).unlink(missing_ok=True)
