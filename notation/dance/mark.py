"""Where a value was written, so that any later finding can point at it."""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Mark:
    """A stretch of a file. Lines and columns count from 1; end_column is the column after the last character."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int


NOWHERE = Mark("", 0, 0, 0, 0)
"""The mark of what the tool made itself."""


@dataclass(frozen=True, slots=True)
class Said:
    """Words as the writer put them. free: in quotation marks, so they are printed and not looked up."""

    text: str
    mark: Mark = NOWHERE
    free: bool = False
