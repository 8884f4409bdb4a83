"""Writing files so that nothing is lost: beside their place, flushed, then renamed. The old or the new, never a mix."""
from __future__ import annotations

import os
import stat
import tempfile
from pathlib import Path

NEW_FILE_MODE = 0o666


class OutputFault(Exception):
    """A file cannot be written there; the words say why and what to do."""


def refuse(path: Path, inputs: tuple[Path, ...], kind: str = "dance file") -> None:
    """Raises OutputFault where that path cannot be an output, before any work is done. kind: what the inputs are."""
    if path.is_dir():
        raise OutputFault(f"'{path}' is a folder; name a file, or use --into for a folder")
    if not path.parent.is_dir():
        raise OutputFault(f"the folder '{path.parent}' does not exist; make it first")
    if any(path.exists() and source.exists() and path.samefile(source) for source in inputs):
        raise OutputFault(f"'{path}' is the {kind} itself; name another output")
    if not os.access(path.parent, os.W_OK):
        raise OutputFault(f"the folder '{path.parent}' cannot be written to; choose another with -o or --into")


def write_whole(path: Path, data: bytes) -> None:
    """Write the file, or leave what stands there as it is. Raises OutputFault."""
    target = Path(os.path.realpath(path))
    try:
        if target.exists() and not stat.S_ISREG(target.stat().st_mode):
            target.write_bytes(data)
        else:
            _replace(target, data)
    except OSError as fault:
        raise OutputFault(f"'{path}' cannot be written: {fault.strerror or fault}; the file is as it was") from fault


def _replace(target: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=f".{target.name[:40]}.", suffix=".part", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, _mode(target))
        os.replace(name, target)
    except BaseException:
        os.unlink(name)
        raise
    _flush_folder(target.parent)


def _mode(target: Path) -> int:
    """The mode of the file that is replaced, else what a new file gets."""
    if target.exists():
        return stat.S_IMODE(target.stat().st_mode)
    mask = os.umask(0)
    os.umask(mask)
    return NEW_FILE_MODE & ~mask


def _flush_folder(folder: Path) -> None:
    """Make the renaming itself lasting, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
