"""A step in words or in shorthand, as the layout orders it; and positions, heads, starts, counts and tempo.

The words come from the vocabulary; what joins them comes from the layout. Words that belong together are tied by
no-break spaces: a foot and its action, an amount and its unit. Each word used is remembered for the key.
"""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from notation.dance.feet import Foot, Place
from notation.dance.mark import Said
from notation.dance.naming import capital, plain
from notation.dance.room import Alignment, Side, Turn
from notation.dance.step import FOOTLESS, TAKES_WEIGHT, Action, Body, HeadLine, Step
from notation.dance.words import Word
from notation.layout import Phrases, Segment, Wording
from notation.sheet.phrasing import TIE, eighths, filled, tied

Held = tuple[Said | None, Said | None]
"""A position and a hold."""

Used = dict[tuple[str, str], Word]
"""Words by name and kind."""

SMALL = "small"
KINDS_OF_ACTION = ("action", "gesture", "footless")


@dataclass(slots=True)
class Speaker:
    """Puts steps into words. used: the words printed so far whose short form hides a longer one, for the key.

    said: steps put into words so far with the words used in them, by identity, since a step stands in several settings
    of one sheet.
    """

    wording: Wording
    phrases: Phrases
    words: dict[tuple[str, str], Word]
    names: dict[tuple[str, str], str] = field(default_factory=dict)
    held_apart: bool = True
    head_apart: bool = True
    used: Used = field(default_factory=dict)
    said: dict[int, tuple[Step, str, Used]] = field(default_factory=dict)

    def word(self, name: str, kind: str) -> str:
        """A word in the form that the layout asks for. KeyError where the vocabulary lacks it."""
        found = self.words[name, kind]
        if self.wording.shorthand:
            if found.short != found.words:
                self.used[name, kind] = found
            return found.short
        return found.words

    def step(self, step: Step) -> str:
        """The whole step, its parts in the layout's order."""
        known = self.said.get(id(step))
        if known is None:
            apart = self.apart()
            known = self.said[id(step)] = (step, apart._in_words(step), apart.used)
        self.used.update(known[2])
        return known[1]

    def apart(self) -> Speaker:
        """One that says the same and remembers the words it uses by itself."""
        return replace(self, used={})

    def _in_words(self, step: Step) -> str:
        text = ""
        for segment in self.wording.order:
            said = SEGMENTS[segment](self, step)
            if said:
                joint = "" if not text else " " if segment in self.wording.tied else self.wording.separator
                text += joint + said
        return text if self.wording.shorthand else capital(text)

    def briefly(self, said: Callable[[Speaker, HeadLine | None], str], head: HeadLine | None) -> str:
        """The same in shorthand: for narrow columns."""
        if self.wording.shorthand:
            return said(self, head)
        return said(replace(self, wording=replace(self.wording, shorthand=True), said={}), head)

    def foot_after(self, foot: Foot) -> str:
        """A foot after 'to', 'past' or 'over', in the case that a language gives it there."""
        inflected = not self.wording.shorthand and (foot.value, "foot-after") in self.words
        return self.word(foot.value, "foot-after" if inflected else "foot")

    def name(self, said: Said | None, kind: str) -> str:
        """A position, hold or rhythm by its name in the language; the writer's own words as they stand."""
        if said is None:
            return ""
        return said.text if said.free else self.called(said.text, kind)

    def called(self, name: str, kind: str) -> str:
        """A name of that kind as the language prints it."""
        return self.names.get((kind, plain(name)), name)

    def within(self, name: str) -> str:
        """What a dancer is called inside a line."""
        return name.lower() if self.phrases.within == SMALL else name

    def action(self, step: Step) -> str:
        """Foot and action alone."""
        return SEGMENTS[Segment.STEP](self, step)


def _action(to: Speaker, action: Action) -> str:
    for kind in KINDS_OF_ACTION:
        if (action.value, kind) in to.words:
            return to.word(action.value, kind)
    raise KeyError(action.value)


def _step(to: Speaker, step: Step) -> str:
    said = _action(to, step.action)
    if step.foot is not None and step.action not in FOOTLESS:
        said = f"{to.word(step.foot.value, 'foot')}{TIE}{tied(said)}"
    if step.direction is not None:
        said += TIE + tied(to.word(step.direction.value, "direction"))
    for foot, name in ((step.joins, "to"), (step.passes, "past")):
        if foot is not None:
            said += f" {to.word(name, 'joined')}{TIE}{to.foot_after(foot)}"
    return said


def place_words(to: Speaker, place: Place | None) -> str:
    """'3rd front', 'crossed 4th rear', 'low aerial'."""
    if place is None:
        return ""
    parts = [place.fourth, place.position, place.end, place.aerial]
    names = [str(part if isinstance(part, int) else part.value) for part in parts if part is not None]
    said = " ".join(to.word(name, "place") for name in names)
    return tied(said) if to.wording.shorthand else said


def _place(to: Speaker, step: Step) -> str:
    return place_words(to, step.place)


def _size(to: Speaker, step: Step) -> str:
    return to.word(step.size.value, "size") if step.size else ""


def _weight(to: Speaker, step: Step) -> str:
    if step.foot is None or step.weight == (step.action in TAKES_WEIGHT):
        return ""
    return tied(to.word("with-weight" if step.weight else "without-weight", "weight"))


def _travel(to: Speaker, step: Step) -> str:
    return f"{to.word('moving', 'travel')}{TIE}{to.word(step.travel.name, 'room')}" if step.travel else ""


def side_word(to: Speaker, side: Side) -> str:
    return to.word(side.name, "side")


def turn_words(to: Speaker, turn: Turn | None) -> str:
    """'⅜ R' in shorthand, '⅜ to right' in words, 'comm to turn L', 'no turn'."""
    if turn is None:
        return ""
    if turn.commence is not None:
        commence, side = to.word("commence-to-turn", "turn"), side_word(to, turn.commence)
        return tied(filled(to.phrases.commence, commence=commence, side=side))
    if not turn.eighths:
        return tied(to.word("no-turn", "turn"))
    form = to.phrases.turn_short if to.wording.shorthand else to.phrases.turn
    side = side_word(to, Side.LEFT if turn.eighths > 0 else Side.RIGHT)
    return tied(filled(form, amount=eighths(turn.eighths), side=side))


def _turn(to: Speaker, step: Step) -> str:
    return turn_words(to, step.turn)


def alignment_words(to: Speaker, alignment: Alignment | None) -> str:
    """'facing DW'."""
    if alignment is None:
        return ""
    return f"{to.word(alignment.mode.value, 'mode')}{TIE}{to.word(alignment.room.name, 'room')}"


def _alignment(to: Speaker, step: Step) -> str:
    return alignment_words(to, step.alignment)


def _footwork(to: Speaker, step: Step) -> str:
    return to.word(step.footwork.value, "footwork") if step.footwork else ""


def _rise(to: Speaker, step: Step) -> str:
    return to.wording.separator.join(tied(to.word(rise.value, "rise")) for rise in step.rise)


def _body(to: Speaker, step: Step) -> str:
    said = [_body_word(to, body) for body in step.body]
    if step.sway is not None:
        said.append(tied(f"{to.word('sway', 'sway')} {side_word(to, step.sway)}"))
    return to.wording.separator.join(said)


def _body_word(to: Speaker, body: Body) -> str:
    word = to.word(body.value, "body")
    return tied(word) if to.wording.shorthand else word


def head_words(to: Speaker, head: HeadLine | None) -> str:
    """'L', 'DC', 'to partner', 'over LF', or the writer's words."""
    if head is None:
        return ""
    if head.side is not None:
        return side_word(to, head.side)
    if head.room is not None:
        return to.word(head.room.name, "room")
    if head.over is not None:
        return tied(f"{to.word('over', 'head')} {to.foot_after(head.over)}")
    return tied(to.word(head.words, "head")) if (head.words, "head") in to.words else head.words


def _head(to: Speaker, step: Step) -> str:
    if to.head_apart or step.head is None:
        return ""
    return f"{to.word('head', 'head')}{TIE}{head_words(to, step.head)}"


def _hold(to: Speaker, step: Step) -> str:
    if to.held_apart:
        return ""
    return bare_hold(to, step.position, step.hold)


def _remarks(to: Speaker, step: Step) -> str:
    return " ".join(f"({remark})" for remark in step.remarks)


SEGMENTS: dict[Segment, Callable[[Speaker, Step], str]] = {
    Segment.STEP: _step,
    Segment.PLACE: _place,
    Segment.SIZE: _size,
    Segment.WEIGHT: _weight,
    Segment.TRAVEL: _travel,
    Segment.TURN: _turn,
    Segment.ALIGNMENT: _alignment,
    Segment.FOOTWORK: _footwork,
    Segment.RISE: _rise,
    Segment.BODY: _body,
    Segment.HEAD: _head,
    Segment.HOLD: _hold,
    Segment.REMARKS: _remarks,
}


def hold_pieces(to: Speaker, position: Said | None, hold: Said | None) -> tuple[str, ...]:
    """A position and a hold as short pieces; one where both have one name: ('facing,', 'double hold').

    The writer's own words for a hold, in quotation marks, are printed as they stand.
    """
    where = tied(to.name(position, "position"))
    if hold is None or (position and position.text == hold.text):
        return (where,) if where else ()
    named = hold.text if hold.free else tied(filled(to.phrases.only_hold, hold=to.name(hold, "hold")))
    return (f"{where},", named) if where else (named,)


def changed_hold(to: Speaker, before: Held, now: Held) -> tuple[str, ...]:
    """Only what is another than before: the position, the hold or both."""
    new = [said if said and (old is None or said.text != old.text) else None
           for old, said in zip(before, now, strict=True)]
    together = now[0] and now[1] and now[0].text == now[1].text
    return hold_pieces(to, *now) if together and any(new) else hold_pieces(to, *new)


def bare_hold(to: Speaker, position: Said | None, hold: Said | None) -> str:
    """A position and a hold in one phrase: 'facing, double hold'."""
    return " ".join(hold_pieces(to, position, hold))
