"""Written-out steps beside those of a library figure: where they are alike and where they are danced differently.

Told is what a teacher would correct. Left alone is how the last step leads into what follows, how a turn of the right
amount is shared among the steps, and footwork in other words (a heel lead lowers to the whole foot, and a toe is the
ball as well: regencydancecentre.com, glossary).
"""
from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from notation.dance.call import Wanted
from notation.dance.calling import Piece, piece_of
from notation.dance.figure import Figure
from notation.dance.mark import NOWHERE, Said
from notation.dance.script import Call, Danced
from notation.dance.step import Footwork, Step
from notation.dance.turning import turn_words
from notation.kept import Same

ALIKE = {Footwork.H: Footwork.HT, Footwork.B: Footwork.T, Footwork.F: Footwork.WF}
"""Footwork that is the same in other words, or says less."""
LEAST_ALIKE = Fraction(1, 2)
"""Share of the steps that must be the figure's in foot and action for it to be that figure danced differently."""


def differences(figure: Figure, part: str, steps: tuple[Danced, ...]) -> tuple[str, ...] | None:
    """How the steps differ from the figure danced as often as they last, nearest of its variants and halves.

    None where they are another figure: another number of steps, or too few alike.
    """
    found = [ways for piece in _pieces(Same(figure), part) if (ways := _against(piece, figure, steps)) is not None]
    return min(found, key=len, default=None)


@lru_cache(maxsize=128)
def _pieces(key: Same[Figure], part: str) -> tuple[Piece, ...]:
    figure = key.value
    call = Call(Said(figure.name), (), NOWHERE)
    ways = itertools.product((None, *figure.variants), (None, *figure.halves))
    return tuple(piece_of(Wanted(figure, call, variant=variant, half=half), part) for variant, half in ways)


def _against(piece: Piece, figure: Figure, steps: tuple[Danced, ...]) -> tuple[str, ...] | None:
    if not piece.steps or not steps or len(steps) % len(piece.steps):
        return None
    foot = steps[0].step.foot
    if foot is not piece.foot:
        if figure.mirror_name:
            return None
        piece = piece.mirrored
    pairs = list(zip(steps, _repeated(piece, len(steps), figure.either), strict=True))
    alike = sum(_same_step(written.step, known) for written, known in pairs)
    if alike < len(pairs) * LEAST_ALIKE:
        return None
    other_turn = sum(_turned(written.step) for written, _ in pairs) != sum(_turned(known) for _, known in pairs)
    told = [way for written, known in pairs[:-1] for way in _ways(written, known, other_turn)]
    return (*told, *_last_ways(*pairs[-1], other_turn))


def _last_ways(written: Danced, known: Step, other_turn: bool) -> Iterator[str]:
    """Differences of the last step: one that closes, touches or turns on its way out leads into what follows."""
    turned, turns = _turned(written.step), _turned(known)
    if not _same_step(written.step, known) and written.step.foot is known.foot:
        return
    leads_out = turns == 0 or (turned * turns > 0 and abs(turned - turns) == 1)
    yield from _ways(written, known, other_turn and not leads_out)


def _turned(step: Step) -> int:
    return step.turn.eighths if step.turn else 0


def _repeated(piece: Piece, number: int, either: bool) -> Iterator[Step]:
    """The steps of the figure again and again; one of either foot goes on with the other where that one is free."""
    changes = sum(d.step.weight for d in piece.steps) % 2
    while number > 0:
        yield from (d.step for d in piece.steps)
        number -= len(piece.steps)
        piece = piece.mirrored if either and changes else piece


def _same_step(written: Step, known: Step) -> bool:
    return (written.foot, written.action) == (known.foot, known.action)


def _ways(written: Danced, known: Step, other_turn: bool) -> Iterator[str]:
    """other_turn: the whole turn is another, so that the steps where it differs are told."""
    step, at = written.step, f"bar {written.bar} count {written.count}"
    if not _same_step(step, known):
        yield f"{at}: {_act(step)}, not {_act(known)}"
        return
    turned, turns = _turned(step), _turned(known)
    if other_turn and turned != turns and not (step.turn is None and step.alignment is not None):
        yield f"{at}: {turn_words(turned)}, not {turn_words(turns)}"
    if step.place and known.place and _place(step) != _place(known):
        yield f"{at}: another place of the feet"
    if step.footwork and known.footwork and ALIKE.get(step.footwork, step.footwork) is not ALIKE.get(
        known.footwork, known.footwork
    ):
        yield f"{at}: {step.footwork.value}, not {known.footwork.value}"


def _place(step: Step) -> object:
    return replace(step.place, fourth=None) if step.place else None


def _act(step: Step) -> str:
    return " ".join(filter(None, (step.foot.value if step.foot else "", step.action.value.replace("-", " "))))
