"""Plain values in the words of a language: days, tempi, terms, stances, and what a checklist finds."""
from __future__ import annotations

from datetime import date

from notation.dance.entry import Requirement
from notation.dance.facts import Fact, Term
from notation.dance.metre import Tempo
from notation.dance.script import Stance
from notation.dance.step import HeadLine
from notation.dance.words import Vocabulary
from notation.sheet.figurewords import figure_speaker
from notation.sheet.pagewords import page_words
from notation.sheet.phrasing import TIE, filled
from notation.sheet.toldwords import FactWords
from notation.sheet.wording import alignment_words, head_words, place_words


def day_words(day: date, words: Vocabulary) -> str:
    """A day with its month in words, which reads alike everywhere: '31 March 2027'."""
    says = page_words(words, FactWords)
    return filled(says.date, day=day.day, month=says.months.split(", ")[day.month - 1], year=day.year)


def tempo_words(tempo: Tempo, words: Vocabulary) -> str:
    """'42' or '40–44', with decimals only where there are some."""
    decimal = figure_speaker(words, False).phrases.decimal
    ends = dict.fromkeys(f"{float(end):g}".replace(".", decimal) for end in (tempo.least, tempo.most))
    return "\u2013".join(ends)


def value_words(value: object, words: Vocabulary) -> str:
    """A value that is told: of several facts all, of several other values any of them; empty for None."""
    match value:
        case None:
            return ""
        case Fact():
            return fact_words(value, words)
        case Term():
            return figure_speaker(words, False).called(value.name, value.kind)
        case Tempo():
            return tempo_words(value, words)
        case date():
            return day_words(value, words)
        case Stance():
            return _stance_words(value, words)
        case HeadLine():
            return _head_words(value, words)
        case tuple():
            facts = any(isinstance(one, Fact) for one in value)
            return (", " if facts else page_words(words, FactWords).or_).join(value_words(one, words) for one in value)
    return str(value)


def _stance_words(stance: Stance, words: Vocabulary) -> str:
    """'LF, 3rd front, facing DW'."""
    to = figure_speaker(words, True)
    said = (to.word(stance.foot.value, "foot"), place_words(to, stance.place), alignment_words(to, stance.alignment))
    return ", ".join(filter(None, said)).replace(TIE, " ")


def _head_words(head: HeadLine, words: Vocabulary) -> str:
    """'L', 'DC', 'partner', 'over LF', or the writer's own words."""
    says = page_words(words, FactWords)
    known = {"partner": says.head_partner, "forward": says.head_forward}
    return known.get(head.words) or head_words(figure_speaker(words, True), head).replace(TIE, " ")


def fact_words(told: Fact, words: Vocabulary) -> str:
    form = str(getattr(page_words(words, FactWords), told.name))
    return filled(form, **{place: value_words(value, words) for place, value in told.of})


def rule_words(line: Requirement, words: Vocabulary) -> tuple[str, str, str]:
    """The rule of a line of the checklist, what it asks and what is found."""
    rule = figure_speaker(words, False).called(line.rule, "particular")
    return rule, fact_words(line.asked, words), fact_words(line.found, words)
