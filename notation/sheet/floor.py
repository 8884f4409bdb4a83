"""A page of floor diagrams, one for each bar, side by side at one scale."""
from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from notation.dance.floor import Floor
from notation.dance.hall import EMPRESS, Hall
from notation.dance.script import PARTS, DancedPassage, Worked
from notation.dance.travel import corner_sentence, hall_words, travel_of, travel_sentence
from notation.page.content import Figure, FigureRow, Flow, Margins, Paper, Paragraph, Run, Running, Story, Style
from notation.sheet.diagram import Lettering, floor_diagram
from notation.sheet.hallplan import hall_plan
from notation.sheet.rows import Diagrams

REGULAR, BOLD = "SourceSans3-Regular", "SourceSans3-SemiBold"
MARGIN = 42.0
LARGE = Lettering(BOLD, 8.0, 0.085)
KEY = (
    "Line of dance up the page, wall at the right. Gent: black feet, plain counts. Lady: ribbed feet, counts in rings."
    " Black or ribbed is the part of the foot that bears. Broken outline: without weight, a dot where heel or toe"
    " touches; low, mid, high: raised to ankle, calf or knee. Grey outline: where the feet stood before. Grey arrow:"
    " the way of a foot. Black arrow: its turn. Places are estimates from steps of usual length."
)
HALL_KEY = "The whole floor. Full line: the gent's way; broken line: the lady's. Numbered: where a sequence begins."
NBSP = "\u00a0"


def floor_story(
    worked: Worked, floor: Floor, bars: range, parts: Sequence[str], paper: Paper, hall: Hall | None = None
) -> Story:
    """The diagrams of those bars under the dance's title. hall: its plan with the way round it stands before them."""
    figures = tuple(f for bar in bars for f in _figure(floor, bar, parts))
    travels = travel_sentence(travel_of(floor), hall or EMPRESS).replace(" m", f"{NBSP}m")
    flow: tuple[Flow, ...] = (
        Paragraph((Run(worked.dance.title, Style(BOLD, 16.0)),)),
        Paragraph((Run(f"On the floor: {travels}.", Style(REGULAR, 9.0)),)),
        *(_plan(floor, hall, paper.width - 2 * MARGIN) if hall else ()),
        Paragraph((Run(KEY, Style(REGULAR, 8.0, 0.3)),), space_after=1.0),
        FigureRow(figures),
    )
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    return Story(paper, margins, 13.0, flow, Running(worked.dance.title, "", "{page} of {pages}"))


def _plan(floor: Floor, hall: Hall, width: float) -> tuple[Flow, ...]:
    said = corner_sentence(floor, hall)
    alt = f"Plan of a hall of {hall_words(hall)} with the way of both partners round it. {said}".strip()
    caption = Paragraph((Run(HALL_KEY, Style(REGULAR, 8.0, 0.3)),))
    words = (Paragraph((Run(f"{said[:1].upper()}{said[1:]}.", Style(REGULAR, 9.0)),)),) if said else ()
    return (*words, FigureRow((Figure(hall_plan(floor, hall, width, alt), caption),), space_before=0.5, space_after=1.0))


def _figure(floor: Floor, bar: int, parts: Sequence[str]) -> tuple[Figure, ...]:
    alt = f"Bar {bar}: {described(floor, bar, parts)}"
    drawing = floor_diagram(floor, range(bar, bar + 1), parts, LARGE, alt)
    if drawing is None:
        return ()
    return (Figure(drawing, Paragraph((Run(f"Bar {bar}", Style(BOLD, 9.0)),))),)


def described(floor: Floor, bar: int, parts: Sequence[str] = PARTS) -> str:
    """What the diagram of a bar shows, in words for a reader who does not see it."""
    said = []
    for shown in (one for one in floor.moments if one.bar == bar):
        for part in parts:
            landing = shown.landings.get(part)
            if landing is not None and landing.foot is not None:
                danced = landing.aligned.danced
                weight = "" if danced.step.weight else " without weight"
                way = danced.step.action.value.replace("-", " ")
                said.append(f"{danced.count}, {part}'s {landing.foot.value} {way}{weight}")
    return "; ".join(said) + "."


def passage_figures(floor: Floor) -> Diagrams:
    """What a sheet with floor diagrams draws under a passage: its bars side by side.

    The drawings are of one size whatever the type, so a sheet that is set at several sizes has them made once.
    """

    @cache
    def figures_of(bar: int) -> tuple[Figure, ...]:
        return _figure(floor, bar, PARTS)

    def drawn(passage: DancedPassage) -> tuple[Flow, ...]:
        bars = range(passage.first, passage.last + 1)
        figures = tuple(figure for bar in bars for figure in figures_of(bar))
        return (FigureRow(figures, space_before=0.5),) if figures and passage.repeated is None else ()

    return drawn
