"""Teaching cards: every figure's card says all that its file has, on whole pages, in drawings that stand on one line.

Rise and fall: magicdanceworld.com, waltz charts (commence at the end of 1, continue on 2 and 3, lower at the end of 3).
Turn-out only as far as it comes from the hips: J Orthop Sports Phys Ther 2002;32(11):579-84.
"""
from __future__ import annotations

from fractions import Fraction

import pytest
from setting import knowledge

from notation.dance.figure import Figure, end_words, length_words
from notation.dance.script import GENT
from notation.page.content import FigureRow, Flow, Paragraph, Particulars, Table
from notation.page.fonts import Faces
from notation.page.frame import Document, Metadata
from notation.page.paginate import set_story
from notation.page.units import paper
from notation.reading.figures import FOLDER, load_figure
from notation.sheet.card import MARGIN, card, card_story, shown, with_breaks
from notation.sheet.feetchart import positions_story
from notation.sheet.figurewords import step_words
from notation.sheet.pagewords import CardWords, page_words
from notation.sheet.riseline import rise_points

FIGURES = {path.stem: load_figure(path) for path in sorted(FOLDER.glob("*.yaml"))}
EACH = pytest.mark.parametrize("figure", FIGURES.values(), ids=FIGURES.keys())
A4 = paper("A4")
ENGLISH = knowledge().vocabulary
FACES = Faces()


def made(figure: Figure) -> tuple[Flow, ...]:
    return card(figure, knowledge(), A4.width - 2 * MARGIN, ENGLISH)


def document(*cards: tuple[Flow, ...]) -> Document:
    def fits(some: object) -> bool:
        return len(set_story(card_story(some, A4, [False] * len(some), ENGLISH), Metadata(""), FACES).pages) == 1  # type: ignore

    return set_story(card_story(cards, A4, with_breaks(cards, fits), ENGLISH), Metadata("Cards"), FACES)


def words(flow: tuple[Flow, ...]) -> str:
    """All words of a card, those of drawings left out."""
    said: list[str] = []
    for part in flow:
        match part:
            case Paragraph():
                said.append(part.text)
            case Particulars():
                said += [f"{label.text} {value.text}" for label, value in part.pairs]
            case Table():
                said += [c.content.text for s in part.sections for b in s.blocks for r in b.rows for c in r.cells]
            case FigureRow():
                said += [f.caption.text for f in part.figures if f.caption]
    return "\n".join(said)


@EACH
def test_a_card_says_all_that_its_file_has(figure: Figure) -> None:
    said = words(made(figure))
    for rhythm in figure.rhythms:
        assert rhythm in said
    for text in (*figure.also, *figure.faults, *figure.cautions, *(hint for _, _, hint in figure.hints)):
        assert text.rstrip(".") in said
    for part, steps in shown(figure, knowledge(), ENGLISH).steps.items():
        assert end_words(figure.part(part)) in said
        for one in steps:
            for shorthand in (True, False):
                assert step_words(one.step, knowledge().vocabulary, shorthand) in said
    says = page_words(ENGLISH, CardWords)
    care = says.turn_out if figure.feet.value == "turned-out" else says.health
    assert care in said and "a teacher or a doctor decides" in care


@EACH
def test_head_line_rise_and_floor_are_drawn_where_the_file_has_them(figure: Figure) -> None:
    flow = made(figure)
    said = words(flow)
    rows = [part for part in flow if isinstance(part, FigureRow)]
    rises = any(one.step.rise for one in shown(figure, knowledge(), ENGLISH).steps[GENT])
    assert ("Rise and fall" in said) == rises
    assert ("head" in said.lower()) >= (figure.gent.head is not None)
    assert "on the floor" in said.lower()
    for row in rows:
        heights = {(f.drawing.ascent, f.drawing.descent) for f in row.figures}
        assert len(heights) == 1, "the words under the drawings stand on one line"


def test_cards_stand_whole_on_pages_in_their_order() -> None:
    """A lesson of six: none is parted, several stand on a page."""
    some = [made(FIGURES[stem]) for stem in ("canter", "rock", "lf-closed-change", "whisk", "jive-chasse", "two-step")]
    pages = document(*some).pages
    assert len(pages) < len(some)
    heads = [item.text for page in pages for item in page.items if getattr(item, "size", 0) == 17.0]
    assert " ".join(heads).split()[0] == "Canter" and " ".join(heads).split()[-1] == "Two-step"


@EACH
def test_a_card_fits_one_page(figure: Figure) -> None:
    assert len(document(made(figure)).pages) == 1
    assert not FACES.missing


def test_line_of_rise_of_the_natural_turn() -> None:
    """Down at 0, up through 2 and 3, down again at the end of each bar."""
    steps = shown(FIGURES["natural-turn-waltz"], knowledge(), ENGLISH).steps[GENT]
    heights = dict(rise_points(steps, 3))
    assert heights[Fraction(0)] == heights[Fraction(3)] == heights[Fraction(6)] == 0.0
    assert 0 < heights[Fraction(1)] < heights[Fraction(2)]


def test_chart_of_the_five_positions_is_one_page() -> None:
    story = positions_story(A4, ENGLISH)
    assert len(set_story(story, Metadata(""), FACES).pages) == 1
    for row in (part for part in story.flow if isinstance(part, FigureRow)):
        assert len({(f.drawing.ascent, f.drawing.descent) for f in row.figures}) == 1


@pytest.mark.parametrize(
    ("stem", "length", "end"),
    [("natural-turn", "2 bars of 3/4", "RF free, 1 turn to R"), ("rock", "1 bar of 4/4", "LF free, no turn"),
     ("quarter-turn", "1½ bars of 4/4", "RF free, turned ¼ to R"),
     ("jive-chasse", "half a bar of 4/4", "RF free, no turn"),
     ("natural-spin-turn", "2 bars of 3/4", "RF free, turned 1¼ to R")],
)
def test_length_and_end_in_words(stem: str, length: str, end: str) -> None:
    assert (length_words(FIGURES[stem]), end_words(FIGURES[stem].gent)) == (length, end)


def test_what_a_teacher_says_stands_once_beside_its_step() -> None:
    assert words(made(FIGURES["new-york"])).count("The first step goes between the partners") == 1
    assert words(made(FIGURES["whisk"])).count("The gent's body turns slightly to R") == 1
