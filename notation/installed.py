"""Where the data folders are: inside the installed package, or beside it in a checkout."""
from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


def data_folder(name: str) -> Path:
    """The folder of that name ('fonts', 'layouts'). FileNotFoundError where neither place has it."""
    for folder in (PACKAGE / name, PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"the folder '{name}' that belongs to this program is missing; install it again")
