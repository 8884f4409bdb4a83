"""One step line: COUNT FOOT ACTION [PLACE] [, QUALIFIER]... becomes a Step with the place of each word."""
from __future__ import annotations

from dataclasses import dataclass

from notation.dance.feet import Foot
from notation.dance.mark import Mark, Said
from notation.dance.metre import Count
from notation.dance.room import Room, Side
from notation.dance.step import FOOTLESS, Action, BarLine, Body, Direction, Rise, Step
from notation.reading import bounds, draft
from notation.reading.counts import parse_count, split_bar
from notation.reading.draft import Draft
from notation.reading.fields import Findings
from notation.reading.headline import head_of
from notation.reading.lexing import Lexeme, Line, Segment, Token, cut, lexemes
from notation.reading.nodes import TextRow
from notation.reading.words import Lexicon

FIRST = ("foot", "footless", "action", "gesture")
LATER = ("place", "footwork", "rise", "body", "size", "direction", "foot", "action", "gesture", "footless")


@dataclass(frozen=True, slots=True)
class Reader:
    """What reading a line needs: the words, and where findings go."""

    lexicon: Lexicon
    findings: Findings


@dataclass(frozen=True, slots=True)
class CountedLine:
    """A line whose count is read: bar is set by a replacement line's '2.3' only."""

    line: Line
    bar: int | None
    count: Count
    rest: tuple[Segment, ...]


def read_line(row: TextRow, reader: Reader) -> Step | BarLine | None:
    """The step or bar line of a row; None for an empty row or one without a count."""
    line = _cut(row, reader)
    if line is None:
        return None
    first = line.segments[0].tokens
    if len(first) == 2 and first[0].text.lower() == "bar" and first[1].text.isdecimal() and len(first[1].text) < 5:
        return BarLine(int(first[1].text), row.mark(first[0].start, first[1].end))
    counted = _counted(line, reader)
    if counted is None:
        return None
    if counted.bar is not None:
        mark = row.mark(first[0].start, first[0].end)
        message = f"'{first[0].text}': a bar and a count together stand only under a derived part"
        reader.findings.error("count-unclear", mark, message)
    return _step(counted, reader)


def read_replacement(row: TextRow, reader: Reader) -> tuple[int | None, Step] | None:
    """The bar of the passage and the step of a line under a derivation; None for an empty or unclear row."""
    line = _cut(row, reader)
    counted = _counted(line, reader) if line else None
    return (counted.bar, _step(counted, reader)) if counted else None


def _cut(row: TextRow, reader: Reader) -> Line | None:
    """The row cut up; None where nothing stands in it."""
    if len(row.text) > bounds.LINE.most:
        reader.findings.error("text-too-long", row.mark(), bounds.LINE.words)
        return None
    line = cut(row, reader.findings)
    if not line.segments[0].tokens:
        if any(segment.tokens for segment in line.segments) or line.remarks:
            message = "this line does not begin with a count such as 1, & or S"
            reader.findings.error("count-missing", row.mark(), message)
        return None
    return line


def _counted(line: Line, reader: Reader) -> CountedLine | None:
    tokens = line.segments[0].tokens
    bar, text = split_bar(tokens[0].text)
    mark = line.row.mark(tokens[0].start, tokens[0].end)
    count = parse_count(text, mark)
    if count is None:
        message = f"'{tokens[0].text[:40]}' is no count; a step line begins with a count such as 1, &, 1-2 or S"
        reader.findings.error("count-missing", mark, message)
        return None
    return CountedLine(line, bar, count, (Segment(tokens[1:]), *line.segments[1:]))


def _step(counted: CountedLine, reader: Reader) -> Step:
    row = counted.line.row
    making = Draft(reader.findings)
    for number, segment in enumerate(counted.rest):
        _take_segment(segment, number == 0, row, reader, making)
    return _finished(counted, making, reader)


def _take_segment(segment: Segment, first: bool, row: TextRow, reader: Reader, making: Draft) -> None:
    tokens = segment.tokens
    change = _change_at(tokens, first)
    if change is not None:
        segment, tail = Segment(tokens[:change]), tokens[change:]
        _take_change(tail, row, reader, making)
    _take_words(lexemes(segment, row, reader.lexicon, reader.findings), first, reader, making)


def _change_at(tokens: tuple[Token, ...], first: bool) -> int | None:
    """Where 'head L', 'hold double' or 'position closed' begins; what follows in the segment belongs to it."""
    for at, token in enumerate(tokens[:-1]):
        word = token.text.lower()
        if word in ("head", "position") or (word == "hold" and not (first and at == 0)):
            return at
    return None


def _take_change(tokens: tuple[Token, ...], row: TextRow, reader: Reader, making: Draft) -> None:
    name = tokens[0].text.lower()
    mark = row.mark(tokens[0].start, tokens[-1].end)
    if name == "head":
        head = head_of(lexemes(Segment(tokens[1:]), row, reader.lexicon, reader.findings), mark, reader.findings)
        if head is not None:
            making.say("head", head, mark)
        return
    inner = row.mark(tokens[1].start, tokens[-1].end)
    making.say(name, Said(" ".join(t.text for t in tokens[1:]).strip("'\""), inner), mark)


def _take_words(words: tuple[Lexeme, ...], first: bool, reader: Reader, making: Draft) -> None:
    at = 0
    while at < len(words):
        taken = _take_pair(words, at, making) or _take_turn(words, at, reader, making)
        at += taken or _take_one(words[at], first, making)


def _take_pair(words: tuple[Lexeme, ...], at: int, making: Draft) -> int:
    """Two words that mean something together: 'facing DW', 'to wall', 'past RF', 'sway L'. How many were taken."""
    if at + 1 >= len(words):
        return 0
    one, two = words[at], words[at + 1]
    if (mode := one.named("mode")) and (room := two.named("room")):
        making.say("alignment", draft.alignment(mode, room), one.mark)
    elif (one.named("travel") or one.named("joined") == "to") and (room := two.named("room")):
        making.say("travel", Room[room], one.mark)
    elif (joined := one.named("joined")) and (foot := two.named("foot")):
        making.say("joins" if joined == "to" else "passes", Foot(foot), one.mark)
    elif one.named("sway") and (side := two.named("side")):
        making.say("sway", Side[side], one.mark)
    elif one.named("joined") == "to" and (direction := two.named("direction")):
        making.say("direction", Direction(direction), one.mark)
    else:
        return 0
    return 2


def _take_turn(words: tuple[Lexeme, ...], at: int, reader: Reader, making: Draft) -> int:
    """A turn: '1/8 L', 'turn R 3/8', '1/2 turn to R', 'no turn', 'commence to turn R'. How many words were taken."""
    taken, eighths, side, commence, said_turn = 0, None, None, False, False
    for word in words[at:]:
        amount = word.eighths if word.eighths is not None else _whole(word)
        if amount is not None and eighths is None:
            eighths = amount
        elif word.named("side") and side is None and (said_turn or eighths is not None):
            side = word.named("side")
        elif word.named("turn") and not said_turn:
            said_turn, commence = True, word.named("turn") == "commence-to-turn"
            eighths = 0 if word.named("turn") == "no-turn" else eighths
        else:
            break
        taken += 1
    if taken:
        _say_turn(words[at : at + taken], eighths, side, commence, reader, making)
    return taken


def _whole(word: Lexeme) -> int | None:
    name = word.named("amount")
    return int(name) if name else None


def _say_turn(
    words: tuple[Lexeme, ...], eighths: int | None, side: str | None, commence: bool, reader: Reader, making: Draft
) -> None:
    first, last = words[0].mark, words[-1].mark
    mark = Mark(first.file, first.line, first.column, last.end_line, last.end_column)
    if eighths and side is None:
        reader.findings.error("turn-sense-missing", mark, "this turn has no sense; say L or R after it", None)
    elif eighths is None and side is None:
        message = "say how far and which way: 'turn 1/4 R', 'commence to turn R' or 'no turn'"
        reader.findings.error("turn-unclear", mark, message)
    elif eighths is None and side and not commence:
        message = f"how far? say '1/4 {side[0]}' or 'commence to turn {side[0]}'"
        reader.findings.error("turn-unclear", mark, message)
    else:
        making.say("turn", draft.turn(eighths or 0, side, commence), mark)


def _take_one(word: Lexeme, first: bool, making: Draft) -> int:
    kind = _kind(word, first, making)
    name = word.named(kind) if kind else None
    if name is None or kind is None:
        _complain(word, making)
    elif kind in draft.SIMPLE:
        field, make = draft.SIMPLE[kind]
        making.say(field, make(name), word.mark)
    elif kind == "place":
        making.say_place(name, word.mark)
    elif kind == "rise":
        making.rise.append(Rise(name))
    elif kind == "body":
        making.body.append(Body(name))
    else:
        making.say("weight", name == "with-weight", word.mark)
    return 1


def _kind(word: Lexeme, first: bool, making: Draft) -> str | None:
    """Which of its meanings a word has here: foot and action come first, then what is said of them."""
    if word.named("weight"):
        return "weight"
    order: tuple[str, ...] = FIRST + LATER if first and not making.acts else LATER
    if "position" in making.place or word.named("direction") is None:
        return next((k for k in order if word.named(k)), None)
    order = tuple(kind for kind in order if kind != "place")
    return next((k for k in (*order, "place") if word.named(k)), None)


def _complain(word: Lexeme, making: Draft) -> None:
    name = word.candidates[0].short if word.candidates else ""
    if word.named("room"):
        message, better = f"'{name}' alone is not clear; say 'facing {name}' or 'moving {name}'", f"facing {name}"
    elif word.named("side"):
        message, better = f"'{name}' alone is not clear; say how far you turn, 'sway {name}' or 'head {name}'", None
    else:
        message, better = f"'{name}' means nothing in this place; say more, or put it in round brackets", None
    making.findings.error("word-out-of-place", word.mark, message, better)


def _finished(counted: CountedLine, making: Draft, reader: Reader) -> Step:
    row = counted.line.row
    mark = row.mark(len(row.text) - len(row.text.lstrip()), len(row.text.rstrip()))
    values = making.values
    if "action" not in values:
        _default_action(counted, making, reader, mark)
    if values["action"] not in FOOTLESS and "foot" not in values:
        reader.findings.error("foot-missing", mark, "which foot? write LF, RF or both after the count")
    if values["action"] in FOOTLESS and values.get("foot"):
        reader.findings.error("foot-and-hold", mark, f"'{values['action'].value}' moves no foot; leave the foot out")
        values.pop("foot")
    bears = making.bears_weight
    return Step(
        counted.count, **{k: v for k, v in values.items() if k != "weight"}, weight=bears, place=making.place_said(),
        rise=tuple(making.rise), body=tuple(making.body), remarks=counted.line.remarks, mark=mark,
        marks=tuple(making.marks.items()),
    )


def _default_action(counted: CountedLine, making: Draft, reader: Reader, mark: Mark) -> None:
    """A foot with a place but no action closes or stands there; nothing but brackets is a hold; else a finding."""
    if "foot" not in making.values and not making.values and counted.line.remarks:
        making.values["action"] = Action.HOLD
        return
    reader.findings.error("action-missing", mark, "what does the foot do? write fwd, back, side, close, point ...")
    making.values["action"] = Action.HOLD if "foot" not in making.values else Action.IN_PLACE


