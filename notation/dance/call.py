"""What a call of a figure asks for: feet, repetitions, half, variant and alignment, and which figure is meant."""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from notation.dance.feet import Foot
from notation.dance.figure import Figure, Half, Library, Unusable, Variant, plain_name
from notation.dance.finding import Finding, Severity
from notation.dance.mark import Said
from notation.dance.room import Room
from notation.dance.script import Call, Dance
from notation.dance.suggest import did_you_mean, nearest_few, quoted_list

FEET = {"lf": Foot.LEFT, "rf": Foot.RIGHT, "left foot": Foot.LEFT, "right foot": Foot.RIGHT,
        "on lf": Foot.LEFT, "on rf": Foot.RIGHT}
TIMES = {"once": 1, "twice": 2, "three times": 3, "four times": 4, "five times": 5, "six times": 6,
         "eight times": 8}
NUMBERED = re.compile(r"(\d{1,2}) times")
ROOMS = {
    **{room.name.lower(): room for room in Room},
    "line of dance": Room.LOD, "against lod": Room.ALOD, "c": Room.CENTRE, "w": Room.WALL, "center": Room.CENTRE,
}
FACING, BACKING = "facing ", "backing "
FROM = "from "
Named = TypeVar("Named", Half, Variant)


@dataclass(frozen=True, slots=True)
class Wanted:
    """A call understood.

    feet: one for each time, in turn; empty where none is named. times: how often; half, only: the half to begin with,
    and whether the figure ends with it. facing: where the toes point at its beginning, if that is said.
    """

    figure: Figure
    call: Call
    feet: tuple[Foot, ...] = ()
    times: int = 1
    half: Half | None = None
    only: bool = False
    variant: Variant | None = None
    facing: Room | None = None


@dataclass(slots=True)
class _Said:
    """The modifiers taken so far."""

    feet: tuple[Foot, ...] = ()
    times: int | None = None
    half: Half | None = None
    only: bool = False
    variant: Variant | None = None
    facing: Room | None = None
    unknown: list[Said] = field(default_factory=list)


def understand(call: Call, dance: Dance, library: Library, part: str, bar: int) -> tuple[Wanted | None, list[Finding]]:
    """What the call asks for; None with one finding where that is not clear."""
    figure, finding = _figure(call, dance, library, part, bar)
    if figure is None:
        return None, [finding] if finding else []
    said = _Said()
    for modifier in call.modifiers:
        _take(modifier, figure, said)
    if said.unknown:
        return None, [_odd_modifier(said.unknown[0], figure, part, bar)]
    times = said.times if said.times is not None else 1
    often = times * max(1, len(said.feet))
    return Wanted(figure, call, said.feet, often, said.half, said.only, said.variant, said.facing), []


def _take(modifier: Said, figure: Figure, said: _Said) -> None:
    text = " ".join(modifier.text.lower().split())
    feet = tuple(FEET.get(word.strip()) for word in text.split(" then "))
    numbered = NUMBERED.fullmatch(text)
    if all(feet):
        said.feet = tuple(foot for foot in feet if foot)
    elif text in TIMES or (numbered and int(numbered[1])):
        said.times = TIMES.get(text) or int(numbered[1] if numbered else 0)
    elif half := _named(text.removeprefix(FROM), figure.halves):
        said.half, said.only = half, not text.startswith(FROM)
    elif variant := _named(text, figure.variants):
        said.variant = variant
    elif (room := _room(text)) is not None:
        said.facing = room
    else:
        said.unknown.append(modifier)


def _named(text: str, rows: tuple[Named, ...]) -> Named | None:
    return next((row for row in rows if plain_name(text) == plain_name(row.name)), None)


def _room(text: str) -> Room | None:
    """Where the toes point by 'facing DW' or 'backing LOD'."""
    if text.startswith(FACING):
        return ROOMS.get(text.removeprefix(FACING).removeprefix("the "))
    backed = ROOMS.get(text.removeprefix(BACKING).removeprefix("the ")) if text.startswith(BACKING) else None
    return backed.backing if backed is not None else None


def _odd_modifier(said: Said, figure: Figure, part: str, bar: int) -> Finding:
    known = list(modifiers_of(figure))
    hint, suggestion = did_you_mean(said.text, known)
    hint = hint or f"; after '{figure.name}' stand {', '.join(known)}"
    message = f"'{said.text}' is nothing that can be said of '{figure.name}'{hint}"
    return Finding("figure-modifier", Severity.ERROR, said.mark, message, suggestion, bar=bar, part=part)


def modifiers_of(figure: Figure) -> Iterator[str]:
    """What may be said after the name of a figure."""
    yield from ("LF", "RF", "LF then RF", "twice", "three times", "facing LOD")
    for half in figure.halves:
        yield from (half.name, f"from {half.name}")
    yield from (variant.name for variant in figure.variants)


def _figure(
    call: Call, dance: Dance, library: Library, part: str, bar: int
) -> tuple[Figure | None, Finding | None]:
    def fault(rule: str, message: str, suggestion: str | None = None) -> tuple[None, Finding]:
        return None, Finding(rule, Severity.ERROR, call.name.mark, message, suggestion, bar=bar, part=part)

    name = call.name.text
    try:
        found = library.named(name)
        if not found:
            near = nearest_names(name, library)
            hint = f": did you mean {quoted_list(near)}?" if near else "; 'lodestep figures' lists the library"
            message = f"there is no figure '{shortened(name)}'{hint}"
            return fault("figure-unknown", message, near[0] if near else None)
    except Unusable as why:
        return fault("figure-unknown", f"the figure '{shortened(name)}' cannot be used: {why}")
    fitting = [figure for figure in found if fits(figure, dance)]
    if len(fitting) == 1:
        return fitting[0], None
    if not fitting:
        return fault("figure-other-rhythm", _other_rhythm(name, found, dance, library))
    exact = [figure for figure in fitting if plain_name(figure.name) == plain_name(name)]
    if len(exact) == 1:
        return exact[0], None
    return fault("figure-ambiguous", _ambiguous(name, fitting), _own_name(fitting[0], name))


def fits(figure: Figure, dance: Dance) -> bool:
    """Whether the figure belongs to the dance's rhythm; where that is not known, whether it has its metre."""
    if dance.rhythm is not None and figure.rhythms:
        return dance.rhythm.name in figure.rhythms and (dance.metre is None or dance.metre == figure.metre)
    return dance.metre is None or dance.metre == figure.metre


def _ambiguous(name: str, found: list[Figure]) -> str:
    names = [_own_name(figure, name) for figure in found]
    return f"'{shortened(name)}' can be {quoted_list(names)}; call it by the name that only one of them has"


def _own_name(figure: Figure, said: str) -> str:
    """A name of the figure other than the one that is shared."""
    names = (figure.name, *figure.also)
    return next((name for name in names if plain_name(name) != plain_name(said)), figure.name)


def _other_rhythm(name: str, found: tuple[Figure, ...], dance: Dance, library: Library) -> str:
    rhythms = quoted_list(list(dict.fromkeys(rhythm for figure in found for rhythm in figure.rhythms)), quote="")
    here = dance.rhythm.name if dance.rhythm else str(dance.metre)
    near = [n for n in nearest_names(name, library, 12) if any(fits(f, dance) for f in library.named(n))][:3]
    hint = f"; near it in this rhythm: {quoted_list(near)}" if near else ""
    return f"'{shortened(name)}' belongs to {rhythms or 'another metre'}, not to {here}{hint}"


def nearest_names(name: str, library: Library, most: int = 3) -> list[str]:
    """The names most like that one, best first, each of another figure. Raises Unusable."""
    plain = {plain_name(known): known for known in library.names()}
    wanted = plain_name(name)[:80]
    close = nearest_few(wanted, plain, most)
    sharing = [known for known in plain if set(wanted.split()) & set(known.split())]
    by_figure: dict[tuple[str, ...], str] = {}
    for key in (*close, *sharing):
        by_figure.setdefault(tuple(figure.name for figure in library.named(key)), plain[key])
        if len(by_figure) == most:
            break
    return [*by_figure.values()]


def shortened(text: str, most: int = 60) -> str:
    return " ".join(text[: 2 * most].split())[:most]


def understood_name(figure: Figure, name: str) -> bool:
    """Whether the figure has that name."""
    return plain_name(name) in map(plain_name, (figure.name, *figure.also))
