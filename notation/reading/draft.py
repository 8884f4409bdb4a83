"""A step while its words are taken one by one: each field may be said once, and the words meet by what stood before."""
from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from notation.dance.feet import Aerial, End, Foot, Fourth, Place
from notation.dance.mark import Mark
from notation.dance.room import Alignment, Mode, Room, Side, Turn
from notation.dance.step import TAKES_WEIGHT, Action, Body, Direction, Footwork, Rise, Size
from notation.reading.fields import Findings


@dataclass(slots=True)
class Draft:
    """What has been said so far of one step."""

    findings: Findings
    values: dict[str, Any] = field(default_factory=dict)
    marks: dict[str, Mark] = field(default_factory=dict)
    place: dict[str, Any] = field(default_factory=dict)
    rise: list[Rise] = field(default_factory=list)
    body: list[Body] = field(default_factory=list)

    def say(self, name: str, value: object, mark: Mark) -> None:
        """Set a field; saying it twice is a finding."""
        if name in self.values and self.values[name] != value:
            words = name.replace("_", " ")
            self.findings.error("said-twice", mark, f"this step has a second {words}; keep one")
            return
        self.values[name] = value
        self.marks.setdefault(name, mark)

    def say_place(self, name: str, mark: Mark) -> None:
        """Set a part of the place by the name of its word."""
        key, value = PLACES[name]
        if key in self.place and self.place[key] != value:
            self.findings.error("said-twice", mark, "this step has a second place of the foot; keep one")
            return
        self.place[key] = value
        self.marks.setdefault("place", mark)

    @property
    def acts(self) -> bool:
        return "action" in self.values

    @property
    def bears_weight(self) -> bool:
        """As said, else by the action's default."""
        return bool(self.values.get("weight", self.values.get("action") in TAKES_WEIGHT))

    def place_said(self) -> Place | None:
        return Place(self.place.get("position"), *(self.place.get(k) for k in ("end", "fourth", "aerial"))) if (
            self.place
        ) else None


PLACES: dict[str, tuple[str, object]] = {
    **{str(n): ("position", n) for n in range(1, 6)},
    **{e.value: ("end", e) for e in End},
    **{f.value: ("fourth", f) for f in Fourth},
    **{a.value: ("aerial", a) for a in Aerial},
}

SIMPLE: dict[str, tuple[str, Any]] = {
    "foot": ("foot", Foot),
    "action": ("action", Action),
    "gesture": ("action", Action),
    "footless": ("action", Action),
    "direction": ("direction", Direction),
    "footwork": ("footwork", Footwork),
    "size": ("size", Size),
}
"""Kinds of word that set one field by themselves: the field and the type of its value."""


def alignment(mode: str, room: str) -> Alignment:
    return Alignment(Mode(mode), Room[room])


def turn(eighths: int, side: str | None, commence: bool) -> Turn:
    """The turn of that size and sense; without a size, one that only commences."""
    sense = Side[side] if side else None
    return Turn(eighths * sense.value if sense else 0, sense if commence and not eighths else None)
