"""Written-out steps beside those of a library figure: where they are alike and where they are danced differently."""
from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from notation.dance.call import Wanted
from notation.dance.calling import Piece, piece_of
from notation.dance.figure import Figure
from notation.dance.mark import NOWHERE, Said
from notation.dance.script import Call, Danced
from notation.dance.step import Step
from notation.dance.turning import turn_words

LEAST_ALIKE = Fraction(1, 2)
"""Share of the steps that must be the figure's in foot and action for it to be that figure danced differently."""


def differences(figure: Figure, part: str, steps: tuple[Danced, ...]) -> tuple[str, ...] | None:
    """How the steps differ from the figure danced as often as they last, nearest of its variants and halves.

    None where they are another figure: another number of steps, or too few alike.
    """
    found = [ways for piece in _pieces(figure, part) if (ways := _against(piece, figure, steps)) is not None]
    return min(found, key=len, default=None)


def _pieces(figure: Figure, part: str) -> Iterator[Piece]:
    call = Call(Said(figure.name), (), NOWHERE)
    for variant, half in itertools.product((None, *figure.variants), (None, *figure.halves)):
        yield piece_of(Wanted(figure, call, variant=variant, half=half), part)


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
    return tuple(way for written, known in pairs for way in _ways(written, known))


def _repeated(piece: Piece, number: int, either: bool) -> Iterator[Step]:
    """The steps of the figure again and again; one of either foot goes on with the other where that one is free."""
    changes = sum(d.step.weight for d in piece.steps) % 2
    while number > 0:
        yield from (d.step for d in piece.steps)
        number -= len(piece.steps)
        piece = piece.mirrored if either and changes else piece


def _same_step(written: Step, known: Step) -> bool:
    return (written.foot, written.action) == (known.foot, known.action)


def _ways(written: Danced, known: Step) -> Iterator[str]:
    step, at = written.step, f"bar {written.bar} count {written.count}"
    if not _same_step(step, known):
        yield f"{at}: {_act(step)}, not {_act(known)}"
        return
    turned, turns = (one.turn.eighths if one.turn else 0 for one in (step, known))
    if turned != turns and not (step.turn is None and step.alignment is not None):
        yield f"{at}: {turn_words(turned)}, not {turn_words(turns)}"
    if step.place and known.place and _place(step) != _place(known):
        yield f"{at}: another place of the feet"
    if step.footwork and known.footwork and step.footwork is not known.footwork:
        yield f"{at}: {step.footwork.value}, not {known.footwork.value}"


def _place(step: Step) -> object:
    return replace(step.place, fourth=None) if step.place else None


def _act(step: Step) -> str:
    return " ".join(filter(None, (step.foot.value if step.foot else "", step.action.value.replace("-", " "))))
