"""What a teaching card says in words besides its steps: how long a figure is, how it begins and ends, how it rises."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from notation.dance.feet import Foot, Place
from notation.dance.figure import Figure, FigurePart
from notation.dance.mark import Said
from notation.dance.naming import capital
from notation.dance.script import Danced
from notation.dance.step import Rise
from notation.dance.words import Vocabulary
from notation.sheet.figurewords import figure_speaker
from notation.sheet.pagewords import CardWords, page_words
from notation.sheet.phrasing import TIE, eighths, filled, number
from notation.sheet.sayings import person, stance_words
from notation.sheet.wording import head_words, place_words

RISES = {
    Rise.COMMENCE: "commence_to_rise", Rise.CONTINUE: "continue_to_rise", Rise.RISE: "rises", Rise.UP: "up",
    Rise.LOWER: "lower", Rise.DOWN: "down", Rise.BEND: "bend", Rise.NO_FOOT_RISE: "no_foot_rise",
}


def length_words(figure: Figure, words: Vocabulary) -> str:
    """How long a figure lasts: '2 bars of 3/4', '1½ bars of 4/4', 'half a bar of 2/4'."""
    says = page_words(words, CardWords)
    form = says.length_half if figure.bars * 2 == 1 else says.length if figure.bars > 1 else says.length_one
    return filled(form, bars=number(figure.bars), metre=figure.metre)


def end_words(of: FigurePart, words: Vocabulary) -> str:
    """How a part ends: 'LF free, turned ¾ to L', 'RF free, no turn'."""
    to, says = figure_speaker(words, True), page_words(words, CardWords)
    free = filled(says.free, foot=to.word(of.free.value, "foot")) if of.free else says.both_feet
    if not of.turn:
        return f"{free}, {figure_speaker(words, False).word('no-turn', 'turn')}"
    form = says.turned if of.turn % 8 else says.whole_turn if abs(of.turn) == 8 else says.whole_turns
    return filled(form, free=free, amount=eighths(of.turn), side=says.left if of.turn > 0 else says.right)


def heading_words(figure: Figure, words: Vocabulary) -> str:
    """Its family, rhythms, length and other names."""
    to, says = figure_speaker(words, False), page_words(words, CardWords)
    rhythms = ", ".join(to.called(rhythm, "rhythm") for rhythm in figure.rhythms)
    also = filled(says.also_called, names=", ".join(figure.also)) if figure.also else ""
    return f"{capital(to.called(figure.family, 'family'))}: {rhythms}. {capital(length_words(figure, words))}.{also}"


def particulars(figure: Figure, parts: Sequence[str], words: Vocabulary) -> Iterator[tuple[str, str]]:
    """Label and words of what is known of it. parts: those that it tells apart."""
    says = page_words(words, CardWords)
    for part in parts:
        yield from _of_part(figure, part, len(parts) > 1, words)
    to = figure_speaker(words, True)
    rows = (
        (says.foot, says.either if figure.either else ""),
        (says.position, says.or_.join(to.name(Said(one), "position") for one in figure.positions)),
        (says.halves, ", ".join(dict.fromkeys(half.name for half in figure.halves))),
        (says.variants, ", ".join(variant.name for variant in figure.variants)),
        (says.joins, ", ".join(figure.joins)),
    )
    yield from (row for row in rows if row[1])


def _of_part(figure: Figure, part: str, apart: bool, words: Vocabulary) -> Iterator[tuple[str, str]]:
    """How a part begins and ends, and where it looks. apart: whether another part's stands beside it."""
    to, says, of = figure_speaker(words, True), page_words(words, CardWords), figure.part(part)

    def label(what: str) -> str:
        return capital(filled(says.of_part, dancer=person(to, part), what=what) if apart else what)

    yield label(says.begins), stance_words(to, of.start)
    yield label(says.ends), end_words(of, words)
    if of.head is not None:
        head, lady = head_words(to, of.head), head_words(to, figure.lady_head)
        yield label(says.head), filled(says.lady_head, head=head, lady=lady) if _own_head(figure) else head


def _own_head(figure: Figure) -> bool:
    return figure.lady is None and figure.lady_head is not None and figure.lady_head != figure.gent.head


def rise_words(steps: Sequence[Danced], words: Vocabulary) -> str:
    """What the line of rise and fall shows."""
    says = page_words(words, CardWords)
    said = [f"{d.count} {', '.join(str(getattr(says, RISES[rise])) for rise in d.step.rise)}"
            for d in steps if d.step.rise]
    return filled(says.rise_drawn, counts="; ".join(said))


def foot_in_place(place: Place, foot: Foot, words: Vocabulary) -> str:
    """'RF 3rd front', 'LF crossed 4th rear'."""
    to = figure_speaker(words, True)
    return f"{to.word(foot.value, 'foot')} {place_words(to, place)}".replace(TIE, " ")
