"""A passage of the sequence, key by key."""
from __future__ import annotations

import re
from functools import partial

from notation import bounds
from notation.dance.finding import Finding
from notation.dance.mark import Mark
from notation.dance.script import Heads, Part, Passage, Repeat
from notation.dance.step import HeadLine
from notation.kept import Kept, Same
from notation.reading.fields import Fields, Findings, expect_choice, expect_fields, expect_text, shown
from notation.reading.headline import read_head
from notation.reading.nodes import Mapping, Node, Scalar, letters
from notation.reading.parts import read_part
from notation.reading.stepline import Reader
from notation.reading.words import Lexicon

KEYS = (
    "bars", "figure", "gent", "lady", "position", "hold", "head", "arms", "note", "repeat", "on", "exchange",
)
RANGE = re.compile(r"(\d{1,6})(?:\s*[-–]\s*(\d{1,6}))?", re.ASCII)

Read = tuple[Passage | None, tuple[Finding, ...]]

LETTERS = 2000  # of a passage that is worth keeping; most have a third of them
PASSAGES: Kept[Read] = Kept(2 * bounds.PASSAGES.most)
"""As they were read, since most stay as they are when a dance is read again."""


def read_passage(node: Node, reader: Reader) -> Passage | None:
    """The passage; None with a finding where its bars are not clear."""
    read = partial(_read, node, reader.lexicon)
    short = letters(node) <= LETTERS
    passage, found = PASSAGES.get((node, Same(reader.lexicon)), read) if short else read()
    reader.findings.add(found)
    return passage


def _read(node: Node, lexicon: Lexicon) -> Read:
    """The same with what is found."""
    reader = Reader(lexicon, Findings())
    fields = expect_fields(node, "a passage of the sequence", KEYS, reader.findings)
    bars = _bars(fields, "bars", reader, needed=True) if fields else None
    passage = _passage(node, fields, bars, reader) if fields and bars else None
    return passage, tuple(reader.findings.found)


def _passage(node: Node, fields: Fields, bars: tuple[int, int], reader: Reader) -> Passage:
    return Passage(
        *bars,
        figure=fields.said("figure"),
        gent=_part(fields, "gent", reader),
        lady=_part(fields, "lady", reader),
        position=fields.said("position"),
        hold=fields.said("hold"),
        head=_heads(fields, reader),
        arms=fields.said("arms"),
        note=fields.said("note"),
        repeat=_repeat(fields, reader),
        mark=_first_line(node),
        marks=fields.marks(),
    )


def _first_line(node: Node) -> Mark:
    """The mark of a passage is its first key: the whole of it would be many lines."""
    assert isinstance(node, Mapping)
    return node.entries[0].value.mark if node.entries else node.mark


def _bars(fields: Fields, key: str, reader: Reader, needed: bool) -> tuple[int, int] | None:
    """First and last bar of '3' or '3-4'."""
    if key not in fields.values:
        if needed:
            reader.findings.error("key-missing", fields.mark, f"this passage has no '{key}'; write '{key}: 1-2'")
        return None
    scalar = fields.text(key)
    if scalar is None:
        return None
    found = RANGE.fullmatch(scalar.text.strip())
    if not found:
        message = f"'{key}' is a bar or a range such as 3-4, not '{shown(scalar.text)}'"
        reader.findings.error("bars-unclear", scalar.mark, message)
        return None
    return _in_order(int(found[1]), int(found[2] or found[1]), scalar, reader)


def _in_order(first: int, last: int, scalar: Scalar, reader: Reader) -> tuple[int, int] | None:
    if first < 1:
        reader.findings.error("bars-unclear", scalar.mark, "bars count from 1; there is no bar 0")
    elif last < first:
        reader.findings.error("bars-unclear", scalar.mark, f"bars {first}-{last} run backwards", f"{last}-{first}")
    elif last > bounds.BARS.most:
        reader.findings.error("number-too-large", scalar.mark, bounds.BARS.words)
    else:
        return first, last
    return None


def _part(fields: Fields, key: str, reader: Reader) -> Part | None:
    scalar = fields.text(key, bounds.SCALAR)
    return read_part(scalar, key, reader) if scalar else None


def _heads(fields: Fields, reader: Reader) -> Heads:
    """One head line for both, or one each."""
    node = fields.values.get("head")
    if node is None:
        return Heads()
    if not isinstance(node, Mapping):
        both = _head(node, reader)
        return Heads(both, both)
    each = expect_fields(node, "'head'", ("gent", "lady"), reader.findings)
    assert each is not None
    gent, lady = (each.values.get(key) for key in ("gent", "lady"))
    return Heads(_head(gent, reader) if gent else None, _head(lady, reader) if lady else None)


def _head(node: Node, reader: Reader) -> HeadLine | None:
    scalar = expect_text(node, "head", reader.findings)
    return read_head(scalar, reader.lexicon, reader.findings) if scalar else None


def _repeat(fields: Fields, reader: Reader) -> Repeat | None:
    on, exchange = fields.text("on"), fields.text("exchange")
    feet = expect_choice(on, "on", ("opposite feet",), reader.findings) if on else None
    parts = expect_choice(exchange, "exchange", ("parts",), reader.findings) if exchange else None
    bars = _bars(fields, "repeat", reader, needed=False)
    stray = next((s for s in (on, exchange) if s), None)
    if "repeat" not in fields.values and stray:
        reader.findings.error("repeat-missing", stray.mark, "this stands only with 'repeat'; write which bars")
    if bars is None:
        return None
    if "gent" in fields.values or "lady" in fields.values:
        message = "a passage that repeats bars has no steps of its own; delete 'repeat' or the steps"
        reader.findings.error("repeat-and-steps", fields.values["repeat"].mark, message)
    return Repeat(*bars, bool(feet), bool(parts), fields.values["repeat"].mark)
