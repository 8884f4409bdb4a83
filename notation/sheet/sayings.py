"""What a sheet says besides steps: head lines, starts, tempo, lengths, names, counts."""
from __future__ import annotations

from collections.abc import Iterable, Iterator

from notation.dance.metre import Tempo
from notation.dance.script import GENT, Stance
from notation.dance.step import HeadLine
from notation.sheet.phrasing import TIE, filled, number, tied
from notation.sheet.wording import Speaker, alignment_words, head_words, place_words


def head_pieces(
    to: Speaker, gent: HeadLine | None, lady: HeadLine | None, alone: bool = False
) -> tuple[str, ...]:
    """Both partners' heads as short pieces, in shorthand; one where they are alike or one part stands alone."""
    one, two = to.briefly(head_words, gent), to.briefly(head_words, lady)
    if one == two or alone:
        return tuple(filter(None, (one or two,)))
    said = ((to.wording.gent, one), (to.wording.lady, two))
    pieces = [tied(f"{to.within(name)} {words}") for name, words in said if words]
    return (*(f"{piece}," for piece in pieces[:-1]), pieces[-1])


def stance_words(to: Speaker, stance: Stance) -> str:
    """'LF 3rd front, facing DW'."""
    foot = f"{to.word(stance.foot.value, 'foot')}"
    place = place_words(to, stance.place)
    first = f"{foot}{TIE}{place}" if place else f"{foot}{TIE}{to.phrases.free}"
    return ", ".join(filter(None, (first, alignment_words(to, stance.alignment))))


def tempo_words(to: Speaker, tempo: Tempo) -> str:
    """'42 bars a minute', '40–44 bars a minute'."""
    return tied(filled(to.phrases.tempo_value, tempo=tempo_range(to, tempo)))


def tempo_range(to: Speaker, tempo: Tempo) -> str:
    low, high = (number(end, to.phrases.decimal) for end in (tempo.least, tempo.most))
    return low if low == high else f"{low}\u2013{high}"


def bars_words(to: Speaker, bars: int) -> str:
    form = to.phrases.bar_value if bars == 1 else to.phrases.bars_value
    return tied(filled(form, bars=bars))


def listed(to: Speaker, names: Iterable[str]) -> str:
    """'A', 'A and B', 'A, B and C'; each name kept together where it is short."""
    kept = [tied(name) if len(name) < 24 else name for name in names]
    if len(kept) < 2:
        return "".join(kept)
    return f"{', '.join(kept[:-1])} {to.phrases.and_} {kept[-1]}"


def number_word(to: Speaker, count: int) -> str:
    """A small number in words."""
    words = to.phrases.numbers.split(", ")
    return words[count] if count < len(words) else str(count)


def person(to: Speaker, part: str) -> str:
    """What the layout calls 'gent' or 'lady'."""
    return to.wording.gent if part == GENT else to.wording.lady


def count_runs(count: str) -> Iterator[tuple[str, bool]]:
    """A count cut into figures and what is printed smaller ('&', 'e', 'a').

    >>> list(count_runs("2&"))
    [('2', False), ('&', True)]
    """
    for character in count.replace("-", "\u2013"):
        yield character, character in "&ea"
