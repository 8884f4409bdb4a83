"""One step line: COUNT FOOT ACTION [PLACE] [, QUALIFIER]... becomes a Step with the place of each word."""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from notation import bounds
from notation.dance.mark import Mark, Said
from notation.dance.metre import Count
from notation.dance.step import BarLine, Step
from notation.reading.counts import Leading, leading_count, parse_count
from notation.reading.draft import Draft
from notation.reading.fields import Findings
from notation.reading.headline import report
from notation.reading.lexing import COMMENT, REMEMBERED, Cut, Segment, Trouble, cut
from notation.reading.rows import TextRow
from notation.reading.segment import Saying, sayings
from notation.reading.words import Lexicon

BAR_LINE = re.compile(r"\s*bar\s+(\S+?)[.:]?\s*", re.IGNORECASE)
CHANGES = ("hold", "position")
QUOTES = "'\"“”‘’"


@dataclass(frozen=True, slots=True)
class Reader:
    """What reading a line needs: the words, and where findings go."""

    lexicon: Lexicon
    findings: Findings


@dataclass(frozen=True, slots=True)
class Heard:
    """What a line says, wherever it stands; places are counted from 0 in its text.

    leading: its count, None where it has none. said: the fields of its step but for what changes with it. changes: a
    new hold or position. spans: where each field was said. whole: where its words begin and end, white space and
    comment left off.
    """

    cut: Cut
    leading: Leading | None
    whole: tuple[int, int]
    said: dict[str, Any]
    changes: tuple[Saying, ...] = ()
    spans: tuple[tuple[str, int, int], ...] = ()
    troubles: tuple[Trouble, ...] = ()


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
    if heard.cut.remarks or any(segment.text.strip() for segment in heard.cut.segments):
        return heard
    report(heard.troubles, row, reader.findings)
    return None


@lru_cache(maxsize=REMEMBERED)
def hear(text: str, lexicon: Lexicon) -> Heard:
    """What a line says; kept, since many lines of a dance are alike."""
    line = cut(text)
    head = line.segments[0]
    leading = leading_count(head.text)
    if leading is None:
        return Heard(line, None, _bare(text), {}, troubles=line.troubles)
    rest = Segment(head.text[leading.after :], leading.after)
    segments = (rest, *line.segments[1:]) if rest.text.strip() else line.segments[1:]
    return _step_heard(line, leading, tuple(_spoken(segments, lexicon)), _bare(text))


def _step_heard(line: Cut, leading: Leading, spoken: tuple[Saying | Trouble, ...], whole: tuple[int, int]) -> Heard:
    making = Draft(troubles=list(line.troubles))
    for one in spoken:
        if isinstance(one, Trouble):
            making.troubles.append(one)
            making.guessed = making.guessed or one.rule == "unknown-word"
        else:
            making.say(one.field, one.value, one.start, one.end, one.sure)
    making.settle(whole, bool(line.remarks))
    changes = tuple(one for one in spoken if isinstance(one, Saying) and one.field in CHANGES)
    said = {key: value for key, value in making.values.items() if key not in CHANGES}
    said |= {"place": making.place_said(), "rise": tuple(making.rise), "body": tuple(making.body)}
    said["remarks"] = line.remarks
    spans = tuple((name, *span) for name, span in making.spans.items())
    return Heard(line, leading, whole, said, changes, spans, tuple(making.troubles))


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
        report(heard.troubles, row, reader.findings)
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
    report(heard.troubles, row, reader.findings)
    marks = tuple((name, row.mark(start, end)) for name, start, end in heard.spans)
    changes: dict[str, Any] = {one.field: _change(one, row) for one in heard.changes}
    return Step(count, **heard.said, **changes, mark=row.mark(*heard.whole), marks=marks)


def _change(said: Saying, row: TextRow) -> Said:
    """The name of a new hold or position; free words where it stands in quotation marks."""
    text = said.value
    return Said(text.strip(QUOTES), row.mark(said.end - len(text), said.end), text[0] in QUOTES)
