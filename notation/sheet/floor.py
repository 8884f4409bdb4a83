"""A page of floor diagrams, one for each bar, side by side at one scale."""
from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from notation.dance.floor import Floor
from notation.dance.hall import EMPRESS, Hall
from notation.dance.naming import capital
from notation.dance.script import PARTS, DancedPassage, Worked
from notation.dance.words import Vocabulary
from notation.page.content import Figure, FigureRow, Flow, Margins, Paper, Paragraph, Run, Running, Story, Style
from notation.sheet.diagram import floor_diagram, look_alike
from notation.sheet.figurewords import figure_speaker
from notation.sheet.floorwords import corner_words, described, hall_words, lettered, travel_words
from notation.sheet.hallplan import hall_plan
from notation.sheet.pagewords import FloorWords, page_words
from notation.sheet.phrasing import filled
from notation.sheet.rows import Diagrams
from notation.sheet.script import bars_phrase
from notation.sheet.style import REGULAR, SEMIBOLD
from notation.sheet.wording import Speaker

MARGIN = 42.0
LARGE = (SEMIBOLD, 8.0, 0.085)
"""Lettering of a diagram: face, size in points, points for a millimetre."""


def floor_story(
    worked: Worked, floor: Floor, bars: range, parts: Sequence[str], paper: Paper, words: Vocabulary,
    hall: Hall | None = None,
) -> Story:
    """The diagrams of those bars under the dance's title. words: those it is printed with. hall: its plan with the way
    round it stands before them."""
    to, says = figure_speaker(words, False), page_words(words, FloorWords)
    figures = tuple(f for bar in bars for f in _figure(floor, bar, parts, to))
    travels = filled(says.on_floor, travels=travel_words(floor, hall or EMPRESS, words))
    flow: tuple[Flow, ...] = (
        Paragraph((Run(worked.dance.title, Style(SEMIBOLD, 16.0)),)),
        Paragraph((Run(travels, Style(REGULAR, 9.0)),)),
        *(_plan(floor, hall, paper.width - 2 * MARGIN, words) if hall else ()),
        Paragraph((Run(says.key, Style(REGULAR, 8.0, 0.3)),), space_after=1.0),
        FigureRow(figures),
    )
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    return Story(paper, margins, 13.0, flow, Running(worked.dance.title, "", says.paging), language=words.tag)


def _plan(floor: Floor, hall: Hall, width: float, words: Vocabulary) -> tuple[Flow, ...]:
    says, said = page_words(words, FloorWords), corner_words(floor, hall, words)
    alt = filled(says.plan_corners if said else says.plan, hall=hall_words(hall, words), corners=said)
    caption = Paragraph((Run(says.plan_key, Style(REGULAR, 8.0, 0.3)),))
    above = (Paragraph((Run(f"{capital(said)}.", Style(REGULAR, 9.0)),)),) if said else ()
    plan = Figure(hall_plan(floor, hall, width, alt, words), caption)
    return (*above, FigureRow((plan,), space_before=0.5, space_after=1.0))


def _figure(floor: Floor, bar: int, parts: Sequence[str], says: Speaker) -> tuple[Figure, ...]:
    name = filled(says.phrases.bar, first=bar)
    alt = f"{name}: {described(floor, bar, says, parts)}"
    drawing = floor_diagram(floor, range(bar, bar + 1), parts, lettered(says.phrases, *LARGE), alt)
    if drawing is None:
        return ()
    return (Figure(drawing, Paragraph((Run(name, Style(SEMIBOLD, 9.0)),))),)


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
