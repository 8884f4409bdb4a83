"""Writing a whole new folder or nothing, with times that tell nothing."""
from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from notation.cli.output import OutputFault, write_whole

NEUTRAL = 946_684_800
"""Seconds of every file's time: 1 January 2000. When a file was written would tell in which order entries came."""


def refuse_folder(folder: Path) -> None:
    """Raises OutputFault where that folder cannot be made anew."""
    if folder.is_dir() and any(folder.iterdir()):
        raise OutputFault(f"the folder '{folder}' has files already; name a new one")
    if folder.exists() and not folder.is_dir():
        raise OutputFault(f"'{folder}' is a file; name a folder")
    if not folder.resolve().parent.is_dir():
        raise OutputFault(f"the folder '{folder.parent}' does not exist; make it first")


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write all files, or leave what stands there. files: by path within the folder. Raises OutputFault."""
    refuse_folder(folder)
    target = folder.resolve()
    try:
        beside = Path(tempfile.mkdtemp(prefix=f".{target.name[:40]}.", suffix=".part", dir=target.parent))
    except OSError as fault:
        raise OutputFault(f"'{folder}' cannot be written: {fault.strerror}") from fault
    try:
        for name in sorted(files):
            path = beside / name
            path.parent.mkdir(parents=True, exist_ok=True)
            write_whole(path, files[name])
            os.utime(path, (NEUTRAL, NEUTRAL))
        beside.chmod(0o755)
        if target.is_dir():
            target.rmdir()
        beside.rename(target)
    except BaseException as fault:
        shutil.rmtree(beside, ignore_errors=True)
        if isinstance(fault, OSError):
            raise OutputFault(f"'{folder}' cannot be written: {fault.strerror}") from fault
        raise
