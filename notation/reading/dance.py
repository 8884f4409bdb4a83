"""A dance file: its particulars, its start and its sequence."""
from __future__ import annotations

from dataclasses import dataclass

from notation import bounds
from notation.dance.feet import TurnOut
from notation.dance.finding import Finding
from notation.dance.knowledge import Knowledge
from notation.dance.mark import NOWHERE
from notation.dance.metre import Metre, Rhythm, Tempo
from notation.dance.script import Dance, Passage, Stance, Start
from notation.reading.fields import Fields, expect_choice, expect_fields, shown
from notation.reading.keyed import read_keyed
from notation.reading.nodes import Sequence
from notation.reading.passage import read_passage
from notation.reading.rhythms import find_rhythm, parse_metre, parse_tempo
from notation.reading.stance import read_stance
from notation.reading.stepline import Reader
from notation.reading.words import lexicon

KEYS = (
    "format", "title", "arranged by", "year", "rhythm", "metre", "tempo", "introduction", "length", "feet", "music",
    "notes", "start", "sequence",
)
START_KEYS = ("position", "hold", "gent", "lady")


@dataclass(frozen=True, slots=True)
class Reading:
    """What a file gave. dance: None where it cannot be used at all. lines: the file's lines, for showing findings."""

    dance: Dance | None
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]


def read_dance(source: bytes, file: str, knowledge: Knowledge) -> Reading:
    """Read a dance file. file: its name as findings show it. Raises nothing: what is wrong is among the findings."""

    def made(fields: Fields) -> Dance | None:
        return _dance(fields, Reader(lexicon(knowledge.vocabulary.language), fields.findings), knowledge)

    return Reading(*read_keyed(source, file, "a dance", KEYS, made))


def _dance(fields: Fields, reader: Reader, knowledge: Knowledge) -> Dance | None:
    """The dance; None where there is no sequence to work out."""
    said = fields.said("rhythm")
    rhythm = find_rhythm(said.text, knowledge.rhythms) if said else None
    metre = _metre(fields, rhythm)
    title = _needed_title(fields)
    passages = _sequence(fields, reader)
    length = _length(fields, passages)
    if not passages:
        return None
    return Dance(
        title=title,
        arrangers=tuple(s.text.strip() for s in fields.texts("arranged by")),
        year=fields.number("year", 1, bounds.YEAR, "a year"),
        rhythm_said=said,
        rhythm=rhythm,
        metre=metre,
        tempo=_tempo(fields),
        introduction=fields.number("introduction", 0, bounds.BARS, "bars"),
        length=length,
        feet=_feet(fields, rhythm),
        music=fields.words("music"),
        notes=fields.words("notes", bounds.SCALAR),
        start=_start(fields, reader),
        passages=passages,
        mark=fields.top,
        marks=fields.marks(),
    )


def _needed_title(fields: Fields) -> str:
    if "title" not in fields.values:
        fields.findings.error("key-missing", fields.top, "the dance has no 'title'; write one")
        return ""
    return fields.line("title", bounds.TITLE)


def _length(fields: Fields, passages: tuple[Passage, ...]) -> int:
    """The length as said; where it is missing or faulty, as far as the passages go, so that the rest can be checked."""
    said = fields.number("length", 1, bounds.BARS, "bars")
    for key in ("length", "sequence"):
        if key not in fields.values:
            fields.findings.error("key-missing", fields.top, f"the dance has no '{key}'; write one")
    return said if said is not None else max((p.last for p in passages), default=1)


def _metre(fields: Fields, rhythm: Rhythm | None) -> Metre | None:
    scalar = fields.text("metre")
    if scalar is None:
        if rhythm is None and "metre" not in fields.values and "rhythm" not in fields.values:
            message = "the dance has no 'rhythm' and no 'metre'; write one, for example 'rhythm: waltz'"
            fields.findings.error("key-missing", fields.top, message)
        return rhythm.metre if rhythm else None
    metre = parse_metre(scalar.text)
    if metre is None:
        message = f"'{shown(scalar.text)}' is no metre; write 3/4, 4/4, 2/4 or 6/8"
        fields.findings.error("metre-unclear", scalar.mark, message)
    return metre


def _tempo(fields: Fields) -> Tempo | None:
    scalar = fields.text("tempo")
    if scalar is None:
        return None
    tempo = parse_tempo(scalar.text)
    if tempo is None:
        message = f"'tempo' is bars a minute, more than 0, such as 42 or 40-44, not '{shown(scalar.text)}'"
        fields.findings.error("tempo-unclear", scalar.mark, message)
    elif tempo.most > bounds.TEMPO.most:
        fields.findings.error("number-too-large", scalar.mark, bounds.TEMPO.words)
        return None
    return tempo


def _feet(fields: Fields, rhythm: Rhythm | None) -> TurnOut | None:
    scalar = fields.text("feet")
    if scalar is None:
        return TurnOut(rhythm.feet) if rhythm and "feet" not in fields.values else None
    choice = expect_choice(scalar, "feet", tuple(t.value for t in TurnOut), fields.findings)
    return TurnOut(choice) if choice else None


def _start(fields: Fields, reader: Reader) -> Start:
    node = fields.values.get("start")
    start = expect_fields(node, "'start'", START_KEYS, reader.findings) if node else None
    if start is None:
        return Start(mark=NOWHERE)
    gent, lady = (_stance(start, key, reader) for key in ("gent", "lady"))
    return Start(start.said("position"), start.said("hold"), gent, lady, start.mark)


def _stance(start: Fields, key: str, reader: Reader) -> Stance | None:
    scalar = start.text(key)
    return read_stance(scalar, reader.lexicon, reader.findings) if scalar else None


def _sequence(fields: Fields, reader: Reader) -> tuple[Passage, ...]:
    node = fields.values.get("sequence")
    if node is None:
        return ()
    if not isinstance(node, Sequence) or not node.items:
        message = "'sequence' must be a list: each passage begins with '- bars: 1-2'"
        fields.findings.error("not-a-list", node.mark, message)
        return ()
    if len(node.items) > bounds.PASSAGES.most:
        reader.findings.error("too-many-passages", node.items[bounds.PASSAGES.most].mark, bounds.PASSAGES.words)
    items = node.items[: bounds.PASSAGES.most]
    read = (read_passage(item, reader) for item in items if not reader.findings.full)
    return tuple(passage for passage in read if passage is not None)
