"""One step line: COUNT FOOT ACTION [PLACE] [, QUALIFIER]... becomes a Step with the place of each word."""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from notation.dance.mark import Mark, Said
from notation.dance.metre import Count
from notation.dance.step import FOOTLESS, Action, BarLine, Step
from notation.reading import bounds
from notation.reading.counts import Leading, leading_count, parse_count
from notation.reading.draft import Draft
from notation.reading.fields import Findings
from notation.reading.headline import report
from notation.reading.lexing import COMMENT, REMEMBERED, Cut, Segment, Trouble, cut
from notation.reading.rows import TextRow
from notation.reading.segment import Saying, sayings
from notation.reading.words import Lexicon

BAR_LINE = re.compile(r"\s*bar\s+(\S+?)[.:]?\s*", re.IGNORECASE)
QUOTES = "'\"“”‘’"


@dataclass(frozen=True, slots=True)
class Reader:
    """What reading a line needs: the words, and where findings go."""

    lexicon: Lexicon
    findings: Findings


@dataclass(frozen=True, slots=True)
class Heard:
    """What a line says, wherever it stands; places are counted from 0 in its text.

    leading: its count, None where it has none. spoken: what it says of the step, and what is wrong in it. bare: where
    its words begin and end, white space and comment left off.
    """

    cut: Cut
    leading: Leading | None
    spoken: tuple[Saying | Trouble, ...]
    bare: tuple[int, int]


def read_line(row: TextRow, reader: Reader) -> Step | BarLine | None:
    """The step or bar line of a row; None for an empty row or one without a count."""
    heard = _heard(row, reader)
    if heard is None:
        return None
    found = BAR_LINE.fullmatch(heard.cut.segments[0].text) if heard.leading is None else None
    if found and len(heard.cut.segments) == 1:
        return _bar_line(found, row, reader)
    count = _count(heard, row, reader)
    if count is None:
        return None
    if heard.leading and heard.leading.bar is not None:
        message = f"'{heard.leading.bar}.{count.text}': a bar and a count together stand only under a derived part"
        reader.findings.error("count-unclear", count.mark, message)
    return _step(heard, count, row, reader)


def read_replacement(row: TextRow, reader: Reader) -> tuple[int | None, Step] | None:
    """The bar of the passage and the step of a line under a derivation; None for an empty or unclear row."""
    heard = _heard(row, reader)
    count = _count(heard, row, reader) if heard else None
    if heard is None or heard.leading is None or count is None:
        return None
    bar = heard.leading.bar
    if bar is not None and not 1 <= bar <= bounds.BARS.most:
        _bars_from_one(count.mark, reader)
    return bar, _step(heard, count, row, reader)


def _heard(row: TextRow, reader: Reader) -> Heard | None:
    """What the row says; None where nothing stands in it."""
    if len(row.text) > bounds.LINE.most:
        reader.findings.error("text-too-long", row.mark(), bounds.LINE.words)
        return None
    heard = hear(row.text, reader.lexicon)
    report(heard.cut.troubles, row, reader.findings)
    if heard.cut.remarks or any(segment.text.strip() for segment in heard.cut.segments):
        return heard
    return None


@lru_cache(maxsize=REMEMBERED)
def hear(text: str, lexicon: Lexicon) -> Heard:
    """What a line says; kept, since many lines of a dance are alike."""
    line = cut(text)
    head = line.segments[0]
    leading = leading_count(head.text)
    if leading is None:
        return Heard(line, None, (), _bare(text))
    rest = Segment(head.text[leading.after :], leading.after)
    segments = (rest, *line.segments[1:]) if rest.text.strip() else line.segments[1:]
    return Heard(line, leading, tuple(_spoken(segments, lexicon)), _bare(text))


def _spoken(segments: tuple[Segment, ...], lexicon: Lexicon) -> Iterator[Saying | Trouble]:
    placed = False
    for number, segment in enumerate(segments):
        for spoken in sayings(segment.text, number == 0, placed, lexicon):
            placed = placed or (isinstance(spoken, Saying) and spoken.field == "place" and "position" in spoken.value)
            yield replace(spoken, start=spoken.start + segment.start, end=spoken.end + segment.start)


def _bare(text: str) -> tuple[int, int]:
    found = COMMENT.search(text) if "#" in text else None
    words = text[: found.start()].rstrip() if found else text.rstrip()
    return len(text) - len(text.lstrip()), len(words)


def _bar_line(found: re.Match[str], row: TextRow, reader: Reader) -> BarLine | None:
    mark = row.mark(len(row.text) - len(row.text.lstrip()), found.end(1))
    number = found[1] if found[1].isascii() and found[1].isdecimal() and len(found[1]) < 5 else ""
    if number and 1 <= int(number) <= bounds.BARS.most:
        return BarLine(int(number), mark)
    _bars_from_one(mark, reader)
    return None


def _bars_from_one(mark: Mark, reader: Reader) -> None:
    reader.findings.error("bars-unclear", mark, "bars of a passage count from 1, in figures: 'bar 2'")


def _count(heard: Heard, row: TextRow, reader: Reader) -> Count | None:
    leading = heard.leading
    mark = row.mark(leading.start, leading.end) if leading else _first_word(row)
    count = parse_count(leading.text, mark) if leading else None
    if count is None:
        reader.findings.error("count-missing", mark, _no_count(heard.cut.segments[0].text))
    return count


def _first_word(row: TextRow) -> Mark:
    found = re.search(r"\S+", row.text)
    return row.mark(found.start(), found.end()) if found else row.mark()


def _no_count(text: str) -> str:
    words = text.split()
    if not words:
        return "this line does not begin with a count such as 1, & or S"
    if words[0].lower() == "bar":
        return "a bar is named on a line of its own, with its number: 'bar 2'"
    if len(words[0]) > 1 and set(words[0].upper()) <= {"S", "Q"}:
        return f"'{words[0][:40]}' is more than one count; write each step on a line of its own"
    return f"'{words[0][:40]}' is no count; a step line begins with a count such as 1, &, 1-2 or S"


def _step(heard: Heard, count: Count, row: TextRow, reader: Reader) -> Step:
    making = Draft(reader.findings)
    for spoken in heard.spoken:
        _say(spoken, row, making)
    return _finished(heard, count, row.mark(*heard.bare), making)


def _say(spoken: Saying | Trouble, row: TextRow, making: Draft) -> None:
    mark = row.mark(spoken.start, spoken.end)
    if isinstance(spoken, Trouble):
        making.guessed = making.guessed or spoken.rule == "unknown-word"
        making.findings.error(spoken.rule, mark, spoken.message, spoken.suggestion)
    elif spoken.field in ("hold", "position"):
        text = spoken.value
        inner = row.mark(spoken.end - len(text), spoken.end)
        making.say(spoken.field, Said(text.strip(QUOTES), inner, text[0] in QUOTES), mark)
    else:
        making.say(spoken.field, spoken.value, mark, spoken.sure)


def _finished(heard: Heard, count: Count, mark: Mark, making: Draft) -> Step:
    making.settle_direction()
    if "action" not in making.values:
        _default_action(heard, making, mark)
    _settle_foot(making, mark)
    bears = making.bears_weight
    making.values.pop("weight", None)
    return Step(
        count, **making.values, weight=bears, place=making.place_said(), rise=tuple(making.rise),
        body=tuple(making.body), remarks=heard.cut.remarks, mark=mark, marks=tuple(making.marks.items()),
    )


def _default_action(heard: Heard, making: Draft, mark: Mark) -> None:
    """Nothing but brackets is a hold; anything else without an action is a finding, unless a word was unknown."""
    making.values["action"] = Action.HOLD if "foot" not in making.values else Action.IN_PLACE
    only_words = not making.marks and heard.cut.remarks
    if not only_words and not making.guessed:
        making.findings.error("action-missing", mark, "what does the foot do? write fwd, back, side, close, point ...")


def _settle_foot(making: Draft, mark: Mark) -> None:
    footless = making.values["action"] in FOOTLESS
    if not footless and "foot" not in making.values and not making.guessed:
        making.findings.error("foot-missing", mark, "which foot? write LF, RF or both after the count")
    if footless and "foot" in making.values:
        if not making.guessed:
            name = making.values["action"].value.replace("-", " ")
            making.findings.error("foot-and-hold", mark, f"'{name}' moves no foot; leave the foot out")
        del making.values["foot"]
