"""A step while its line is read: each field may be said once."""
from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from notation.dance.feet import Place
from notation.dance.step import FOOTLESS, TAKES_WEIGHT, Action, Body, Direction, Rise
from notation.reading.lexing import Trouble

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
    """What has been said so far of one step, and what is wrong with it.

    spans: where each field was said first, from and up to. guessed: a word of its line is unknown.
    """

    values: dict[str, Any] = field(default_factory=dict)
    spans: dict[str, tuple[int, int]] = field(default_factory=dict)
    place: dict[str, Any] = field(default_factory=dict)
    rise: list[Rise] = field(default_factory=list)
    body: list[Body] = field(default_factory=list)
    troubles: list[Trouble] = field(default_factory=list)
    guessed: bool = False

    def say(self, name: str, value: Any, start: int, end: int, sure: bool = True) -> None:
        """Set a field. Saying something else a second time is a finding, where it is sure."""
        span = start, end
        if name in ("rise", "body"):
            listed = self.rise if name == "rise" else self.body
            if value not in listed:
                listed.append(value)
        elif name == "place":
            self._once(self.place, value[0], value[1], "place of the foot", span, sure)
        else:
            self._once(self.values, name, value, name.replace("_", " "), span, sure)
        self.spans.setdefault(name, span)

    def _once(self, said: dict[str, Any], key: str, value: Any, words: str, span: tuple[int, int], sure: bool) -> None:
        if said.setdefault(key, value) != value and sure:
            self.trouble("said-twice", f"this step has a second {words}; keep one", span)

    def trouble(self, rule: str, message: str, span: tuple[int, int]) -> None:
        self.troubles.append(Trouble(rule, message, *span))

    def place_said(self) -> Place | None:
        if not self.place:
            return None
        said = self.place.get
        return Place(said("position"), said("end"), said("fourth"), said("aerial"))

    def settle(self, whole: tuple[int, int], remarked: bool) -> None:
        """Fill in what follows from what is said, and say what is missing.

        whole: the span of the line. remarked: it has words in brackets, which alone make it a hold.
        """
        self._settle_direction()
        if "action" not in self.values:
            self._settle_action(whole, remarked)
        self._settle_foot(whole)
        self.values.setdefault("weight", self.values["action"] in TAKES_WEIGHT)

    def _settle_direction(self) -> None:
        """A direction alone is a step; a step that has its own direction may not name another."""
        direction, action = self.values.get("direction"), self.values.get("action")
        if direction is None:
            return
        if action is None and "foot" in self.values:
            self.values["action"] = GOING[direction]
            del self.values["direction"]
        elif isinstance(action, Action) and action in GOING.values() and action is not GOING[direction]:
            message = f"this step goes {action.value} and {direction.value} at once; keep one, or say 'diag fwd'"
            self.trouble("said-twice", message, self.spans["direction"])

    def _settle_action(self, whole: tuple[int, int], remarked: bool) -> None:
        if (self.spans or not remarked) and not self.guessed:
            message = "what does the foot do? write fwd, back, side, close, point ..."
            self.trouble("action-missing", message, whole)
        self.values["action"] = Action.HOLD if "foot" not in self.values else Action.IN_PLACE

    def _settle_foot(self, whole: tuple[int, int]) -> None:
        action: Action = self.values["action"]
        if action not in FOOTLESS and "foot" not in self.values and not self.guessed:
            self.trouble("foot-missing", "which foot? write LF, RF or both after the count", whole)
        if action in FOOTLESS and self.values.pop("foot", None) and not self.guessed:
            name = action.value.replace("-", " ")
            self.trouble("foot-and-hold", f"'{name}' moves no foot; leave the foot out", whole)
