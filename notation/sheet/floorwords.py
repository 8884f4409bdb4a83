"""What is said of the floor: how far a sequence travels, in which bars the corners come, what a diagram shows."""
from __future__ import annotations

import re
from collections.abc import Sequence

from notation.dance.floor import Floor
from notation.dance.hall import Hall, corners
from notation.dance.script import PARTS
from notation.dance.travel import progress, travel_of
from notation.dance.words import Vocabulary
from notation.layout import Phrases
from notation.sheet.figurewords import figure_speaker
from notation.sheet.pagewords import FloorWords, page_words
from notation.sheet.phrasing import TIE, filled
from notation.sheet.prints import Lettering
from notation.sheet.sayings import listed, person
from notation.sheet.wording import Speaker

METRES = re.compile(r"(?<=\d) (?=m\b)")


def travel_words(floor: Floor, hall: Hall, words: Vocabulary) -> str:
    """How far one sequence travels, and how many go once round the hall."""
    says, told = page_words(words, FloorWords), progress(travel_of(floor), hall)
    aside = _aside(told.to_centre, words)
    if not told.along:
        said = filled(says.stays_aside, aside=aside) if aside else says.stays
        return METRES.sub(TIE, said)
    form = says.travels_lod if told.along > 0 else says.travels_alod
    joined = filled(says.and_aside, aside=aside) if aside else ""
    said = filled(form, along=_decimal(f"{abs(told.along):.1f}", words), aside=joined)
    if told.times is not None:
        said = filled(says.once_round, travels=said, hall=hall_words(hall, words), times=told.times)
    return METRES.sub(TIE, said)


def _aside(metres: float, words: Vocabulary) -> str:
    says = page_words(words, FloorWords)
    form = says.to_centre if metres > 0 else says.to_wall
    return filled(form, metres=_decimal(f"{abs(metres):.1f}", words)) if metres else ""


def _decimal(number: str, words: Vocabulary) -> str:
    return number.replace(".", figure_speaker(words, False).phrases.decimal)


def metres_words(millimetres: float, words: Vocabulary) -> str:
    """Metres without decimals that say nothing: '5', '2.5'."""
    return _decimal(f"{millimetres / 1000:g}", words)


def hall_words(hall: Hall, words: Vocabulary) -> str:
    says = page_words(words, FloorWords)
    return filled(says.hall, length=metres_words(hall.length, words), breadth=metres_words(hall.breadth, words))


def corner_words(floor: Floor, hall: Hall, words: Vocabulary) -> str:
    """In which bars the corners of a hall come; empty where the sequence does not go round it."""
    says, found = page_words(words, FloorWords), corners(floor, hall)
    said = [filled(says.corner, sequence=sequence, bar=bar) for sequence, bar in found]
    joined = listed(figure_speaker(words, False), said).replace(TIE, " ")
    return filled(says.corners, corners=joined) if found else ""


def lettered(phrases: Phrases, face: str, size: float, scale: float) -> Lettering:
    """The lettering of a diagram with the words of a language. size: in points; scale: points for a millimetre."""
    heights = tuple(phrases.heights.split(", "))
    return Lettering(phrases.line_of_dance, phrases.wall, phrases.half_metre, heights, face, size, scale)


def described(floor: Floor, bar: int, says: Speaker, parts: Sequence[str] = PARTS) -> str:
    """What the diagram of a bar shows, in words for a reader who does not see it."""
    said = []
    for shown in (one for one in floor.moments if one.bar == bar):
        for part in parts:
            landing = shown.landings.get(part)
            if landing is not None and landing.foot is not None:
                danced = landing.aligned.danced
                step = says.action(danced.step) + ("" if danced.step.weight else f" {says.phrases.without_weight}")
                dancer = says.within(person(says, part))
                line = filled(says.phrases.floor_step, count=danced.count, dancer=dancer, step=step)
                said.append(line.replace(TIE, " "))
    return "; ".join(said) + "."
