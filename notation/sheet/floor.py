"""A page of floor diagrams, one for each bar, side by side at one scale."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from notation.dance.floor import Floor
from notation.dance.hall import EMPRESS, Hall
from notation.dance.script import PARTS, DancedPassage, Worked
from notation.dance.travel import corner_sentence, hall_words, travel_of, travel_sentence
from notation.page.content import Figure, FigureRow, Flow, Margins, Paper, Paragraph, Run, Running, Story, Style
from notation.sheet.diagram import Lettering, floor_diagram, look_alike
from notation.sheet.hallplan import hall_plan
from notation.sheet.rows import Diagrams
from notation.sheet.sayings import person
from notation.sheet.script import bars_phrase
from notation.sheet.wording import TIE, Speaker, filled

REGULAR, BOLD = "SourceSans3-Regular", "SourceSans3-SemiBold"
MARGIN = 42.0
LARGE = Lettering(BOLD, 8.0, 0.085)
KEY = (
    "Line of dance up the page, wall at the right. Gent: black feet, plain counts. Lady: ribbed feet, counts in rings."
    " S and Q stand with the beat on which they begin."
    " Black or ribbed is the part of the foot that bears. Broken outline: without weight, a dot where heel or toe"
    " touches; low, mid, high: raised to ankle, calf or knee. Grey outline: where the feet stood before. Grey arrow:"
    " the way of a foot. Black arrow: its turn. Places are estimates from steps of usual length."
)
HALL_KEY = "The whole floor. Full line: the gent's way; broken line: the lady's. Numbered: where a sequence begins."
NBSP = "\u00a0"


def floor_story(
    worked: Worked, floor: Floor, bars: range, parts: Sequence[str], paper: Paper, says: Speaker,
    hall: Hall | None = None,
) -> Story:
    """The diagrams of those bars under the dance's title. says: the words of what is shown. hall: its plan with the
    way round it stands before them."""
    figures = tuple(f for bar in bars for f in _figure(floor, bar, parts, says))
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
    plan = Figure(hall_plan(floor, hall, width, alt), caption)
    return (*words, FigureRow((plan,), space_before=0.5, space_after=1.0))


def _figure(floor: Floor, bar: int, parts: Sequence[str], says: Speaker) -> tuple[Figure, ...]:
    words = says.phrases
    name = filled(words.bar, first=bar)
    alt = f"{name}: {described(floor, bar, says, parts)}"
    lettering = replace(LARGE, line_of_dance=words.line_of_dance, wall=words.wall, half_metre=words.half_metre,
                        heights=tuple(words.heights.split(", ")))
    drawing = floor_diagram(floor, range(bar, bar + 1), parts, lettering, alt)
    if drawing is None:
        return ()
    return (Figure(drawing, Paragraph((Run(name, Style(BOLD, 9.0)),))),)


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


def passage_figures(worked: Worked, floor: Floor, says: Speaker) -> Diagrams:
    """What a sheet with floor diagrams draws under a passage: its bars side by side, or, where they look like those of
    a passage before, which bars these are. says: in the sheet's language.

    The drawings are of one size whatever the type, so a sheet that is set at several sizes has them made once.
    """

    @cache
    def figures_of(bar: int) -> tuple[Figure, ...]:
        return _figure(floor, bar, PARTS, says)

    def figures_under(passage: DancedPassage) -> tuple[Figure, ...]:
        bars = range(passage.first, passage.last + 1) if passage.repeated is None else ()
        return tuple(figure for bar in bars for figure in figures_of(bar))

    @cache
    def first_drawn() -> dict[int, DancedPassage]:
        return _first_drawn([(passage, figures_under(passage)) for passage in worked.passages])

    def drawn(passage: DancedPassage) -> tuple[Flow, ...]:
        figures = figures_under(passage)
        before = first_drawn().get(passage.first)
        if before is None:
            return (FigureRow(figures, space_before=0.5),) if figures else ()
        again = bars_phrase(before.first, before.last, says.phrases.as_bar, says.phrases.as_bars)
        words = filled(says.phrases.drawn_before, again=again)
        return (Paragraph((Run(words, Style(REGULAR, 9.0)),), space_before=0.5),)

    return drawn


def _first_drawn(passages: Sequence[tuple[DancedPassage, tuple[Figure, ...]]]) -> dict[int, DancedPassage]:
    """By first bar, the passage before it whose diagrams look the same; none for those that are drawn."""
    kept: list[tuple[DancedPassage, tuple[Figure, ...]]] = []
    found = {}
    for passage, figures in passages:
        same = next((other for other, shown in kept if figures and _all_alike(figures, shown)), None)
        if same is not None:
            found[passage.first] = same
        elif figures:
            kept.append((passage, figures))
    return found


def _all_alike(one: Sequence[Figure], two: Sequence[Figure]) -> bool:
    return len(one) == len(two) and all(look_alike(a.drawing, b.drawing) for a, b in zip(one, two, strict=True))
