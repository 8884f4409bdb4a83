"""Steps and dances by hand, for tests of the model: far fewer words than the file format, and no reader."""
from __future__ import annotations

import itertools
from dataclasses import replace
from fractions import Fraction

from notation.dance.feet import Foot, TurnOut
from notation.dance.mark import Mark, Said
from notation.dance.metre import Count, Metre, Rhythm, Tempo
from notation.dance.room import Alignment, Mode, Room
from notation.dance.script import (
    Call,
    Dance,
    Derivation,
    Derived,
    Part,
    Passage,
    Repeat,
    Replacement,
    Stance,
    Start,
    Written,
)
from notation.dance.step import FOOTLESS, TAKES_WEIGHT, Action, BarLine, Step

PARTS = {"&": Fraction(1, 2), "e": Fraction(1, 4), "a": Fraction(3, 4)}
LINES = itertools.count(1)
MODES = {"F": Mode.FACING, "B": Mode.BACKING, "P": Mode.POINTING}


def mark() -> Mark:
    """A mark of its own line."""
    line = next(LINES)
    return Mark("built", line, 1, line, 2)


def count(text: str) -> Count:
    """'1', '&', '2&', '1-2', 'S' as the reader gives them."""
    if text in ("S", "Q"):
        return Count(text, letter=text)
    if text in PARTS:
        return Count(text, part=PARTS[text])
    if "-" in text:
        first, last = text.split("-")
        return Count(text, beat=int(first), until=int(last))
    if text[-1] in PARTS:
        return Count(text, beat=int(text[:-1]), part=PARTS[text[-1]])
    return Count(text, beat=int(text))


def step(line: str) -> Step:
    """'1 LF forward' or '3 hold', with '-weight' or '+weight' after it."""
    first, *words = line.split()
    foot = {"LF": Foot.LEFT, "RF": Foot.RIGHT, "both": Foot.BOTH}.get(words[0])
    action = Action(words[0] if foot is None else words[1])
    weight = action in TAKES_WEIGHT and foot is not None and "-weight" not in words or "+weight" in words
    assert (foot is None) == (action in FOOTLESS)
    return Step(count(first), action, foot, weight, mark=mark())


def lines(text: str) -> tuple[Step | BarLine, ...]:
    """Step lines with ';' between them; 'bar 2' is a bar line."""
    return tuple(_line(line.strip()) for line in text.split(";"))


def _line(text: str) -> Step | BarLine:
    if text.startswith("bar "):
        return BarLine(int(text[4:]), mark())
    return step(text)


def walk(counts: str, foot: Foot = Foot.LEFT) -> str:
    """Step lines forward on alternate feet from that foot, one to each count."""
    feet = itertools.cycle((foot.value, foot.other.value))
    return "; ".join(f"{c} {f} forward" for c, f in zip(counts.split(), feet, strict=False))


def align(text: str) -> Alignment:
    """'F DW', 'B LOD', 'P CENTRE'."""
    mode, room = text.split()
    return Alignment(MODES[mode], Room[room])


def part(text: str | Part | None) -> Part | None:
    """Step lines, or 'opposite', 'mirror', 'same', or '= name' for a call."""
    if not isinstance(text, str):
        return text
    if text.startswith("="):
        return Call(Said(text[1:].strip()), (), mark())
    head, *rest = [line.strip() for line in text.split(";")]
    if head in {d.value for d in Derivation}:
        return Derived(Derivation(head), tuple(_replacement(line) for line in rest), mark())
    return Written(lines(text), mark())


def _replacement(line: str) -> Replacement:
    first, rest = line.split(maxsplit=1)
    bar, _, text = first.rpartition(".")
    return Replacement(int(bar) if bar else None, step(f"{text} {rest}"))


def passage(bars: str, gent: str | Part | None = None, lady: str | Part | None = "opposite", **more: object) -> Passage:
    first, _, last = bars.partition("-")
    built = Passage(int(first), int(last or first), gent=part(gent), lady=part(lady), mark=mark())
    return replace(built, **more)  # type: ignore[arg-type]


def again(bars: str, source: str, opposite: bool = False, exchange: bool = False) -> Passage:
    first, _, last = source.partition("-")
    written = Repeat(int(first), int(last or first), opposite, exchange, mark())
    return passage(bars, None, None, repeat=written)


WALTZ = Rhythm("old-time waltz", Metre(3, 4), Tempo(Fraction(40), Fraction(44)), "", feet="turned-out")


THREE_FOUR = Metre(3, 4)


def dance(*passages: Passage, metre: Metre = THREE_FOUR, free: Foot | None = Foot.LEFT, **more: object) -> Dance:
    """A dance with all its particulars whose gent begins with that foot free, facing the line of dance."""
    stance = None if free is None else Stance(free, None, align("F LOD"), mark())
    start = Start(Said("closed"), Said("closed"), stance, None, mark())
    whole = Dance(
        title="Capstan Waltz", arrangers=("Maud Ferrier",), year=None, rhythm_said=Said("old-time waltz"),
        rhythm=WALTZ, metre=metre, tempo=Tempo(Fraction(42), Fraction(42)), introduction=4,
        length=max((p.last for p in passages), default=0), feet=TurnOut.PARALLEL, music="", notes="", start=start,
        passages=passages, mark=mark(),
    )
    return replace(whole, **more)  # type: ignore[arg-type]
