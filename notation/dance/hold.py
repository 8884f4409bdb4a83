"""Positions (how two bodies stand to each other) and holds (where the hands are): two tables, kept apart.

The tables themselves are data (words/positions.yaml, words/holds.yaml) with their sources.
"""
from __future__ import annotations

import enum
from dataclasses import dataclass

from notation.plane import Vector


class FeetRelation(enum.Enum):
    """Which foot the lady dances on against the gent's, and how her part follows from his."""

    OPPOSITE = "opposite"
    MIRROR = "mirror"
    SAME = "same"


@dataclass(frozen=True, slots=True)
class Position:
    """How the lady's body stands to the gent's.

    lady_at: from the gent's centre to the lady's in millimetres, x ahead of him, y to his left. turn: eighths from
    his facing to
    hers, positive to the left. feet: how her feet relate to his.
    """

    name: str
    lady_at: Vector
    turn: int
    feet: FeetRelation
    also: tuple[str, ...] = ()
    source: str = ""


@dataclass(frozen=True, slots=True)
class Hold:
    """Where the hands are. hands: pairs (gent's, lady's), each 'L' or 'R', gent's first as the trade says it.

    least, reach: least and greatest distance of the two bodies' centres in millimetres; None where the hold sets none.
    """

    name: str
    hands: tuple[tuple[str, str], ...]
    least: float | None
    reach: float | None
    also: tuple[str, ...] = ()
    source: str = ""
