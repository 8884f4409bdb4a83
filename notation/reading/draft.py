"""A step while its line is read: each field may be said once."""
from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from notation.dance.feet import Place
from notation.dance.mark import Mark
from notation.dance.step import TAKES_WEIGHT, Action, Body, Direction, Rise
from notation.reading.fields import Findings

GOING = {
    Direction.FORWARD: Action.FORWARD,
    Direction.BACK: Action.BACK,
    Direction.SIDE: Action.SIDE,
    Direction.DIAGONALLY_FORWARD: Action.DIAGONALLY_FORWARD,
    Direction.DIAGONALLY_BACK: Action.DIAGONALLY_BACK,
    Direction.ACROSS: Action.CROSS_IN_FRONT,
    Direction.BEHIND: Action.CROSS_BEHIND,
}
"""The step that a direction without an action is: 'LF behind' crosses behind."""


@dataclass(slots=True)
class Draft:
    """What has been said so far of one step. guessed: a word of its line is unknown."""

    findings: Findings
    values: dict[str, Any] = field(default_factory=dict)
    marks: dict[str, Mark] = field(default_factory=dict)
    place: dict[str, Any] = field(default_factory=dict)
    rise: list[Rise] = field(default_factory=list)
    body: list[Body] = field(default_factory=list)
    guessed: bool = False

    def say(self, name: str, value: Any, mark: Mark, sure: bool = True) -> None:
        """Set a field. Saying something else a second time is a finding, where it is sure."""
        if name in ("rise", "body"):
            listed = self.rise if name == "rise" else self.body
            if value not in listed:
                listed.append(value)
        elif name == "place":
            self._once(self.place, value[0], value[1], "place of the foot", mark, sure)
        else:
            self._once(self.values, name, value, name.replace("_", " "), mark, sure)
        self.marks.setdefault(name, mark)

    def _once(self, said: dict[str, Any], key: str, value: Any, words: str, mark: Mark, sure: bool) -> None:
        if said.setdefault(key, value) != value and sure:
            self.findings.error("said-twice", mark, f"this step has a second {words}; keep one")

    @property
    def bears_weight(self) -> bool:
        """As said, else by the action's default."""
        return bool(self.values.get("weight", self.values.get("action") in TAKES_WEIGHT))

    def place_said(self) -> Place | None:
        if not self.place:
            return None
        said = self.place.get
        return Place(said("position"), said("end"), said("fourth"), said("aerial"))

    def settle_direction(self) -> None:
        """A direction alone is a step; a step that has its own direction may not name another."""
        direction, action = self.values.get("direction"), self.values.get("action")
        if direction is None:
            return
        if action is None and "foot" in self.values:
            self.values["action"] = GOING[direction]
            del self.values["direction"]
        elif isinstance(action, Action) and action in GOING.values() and action is not GOING[direction]:
            message = f"this step goes {action.value} and {direction.value} at once; keep one, or say 'diag fwd'"
            self.findings.error("said-twice", self.marks["direction"], message)
