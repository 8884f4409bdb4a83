"""Step lines: every line that the format shows, and the answers to mistakes with their columns."""
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.feet import Aerial, End, Foot, Fourth, Place
from notation.dance.room import Alignment, Mode, Room, Side, Turn
from notation.dance.step import FOOTLESS, Action, BarLine, Body, Direction, Footwork, HeadLine, Rise, Size, Step
from notation.reading.fields import Findings
from notation.reading.rows import TextRow
from notation.reading.stepline import Reader, read_line
from notation.reading.words import lexicon


def read(text: str) -> tuple[Step | BarLine | None, Findings]:
    findings = Findings()
    return read_line(TextRow(text, "dance.yaml", 7, 3), Reader(lexicon(), findings)), findings


def step(text: str) -> Step:
    made, findings = read(text)
    assert not findings.found, findings.found
    assert isinstance(made, Step)
    return made


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("1  LF fwd, facing LOD", "alignment", Alignment(Mode.FACING, Room.LOD)),
        ("1  LF fwd, backing the centre", "alignment", Alignment(Mode.BACKING, Room.CENTRE)),
        ("1  LF fwd, pointing diag to wall", "alignment", Alignment(Mode.POINTING, Room.DW)),
        ("1  LF fwd, moving LOD", "travel", Room.LOD),
        ("1  LF fwd along LOD", "travel", Room.LOD),
        ("1  LF fwd down LOD", "travel", Room.LOD),
        ("1  LF side, to wall", "travel", Room.WALL),
        ("1  LF fwd, 1/8 L", "turn", Turn(1)),
        ("1  LF fwd, turn R 3/8", "turn", Turn(-3)),
        ("1  LF fwd, 1/2 turn to R", "turn", Turn(-4)),
        ("1  LF fwd, ¾ L", "turn", Turn(6)),
        ("1  LF fwd, whole turn L", "turn", Turn(8)),
        ("1  LF fwd, 1 1/4 R", "turn", Turn(-10)),
        ("1  LF fwd, no turn", "turn", Turn(0)),
        ("1  LF fwd, commence to turn R", "turn", Turn(0, Side.RIGHT)),
        ("3  LF close 3rd rear, TH", "place", Place(3, End.REAR)),
        ("3  LF point 4th front, open", "place", Place(4, End.FRONT, Fourth.OPEN)),
        ("3  LF point 4th front, low aerial", "place", Place(4, End.FRONT, None, Aerial.LOW)),
        ("2  RF fwd, T", "footwork", Footwork.T),
        ("2  RF fwd, toe heel", "footwork", Footwork.TH),
        ("2  RF fwd, rise, no foot rise", "rise", (Rise.RISE, Rise.NO_FOOT_RISE)),
        ("2  RF fwd, down", "rise", (Rise.DOWN,)),
        ("2  RF fwd, CBMP, outside partner", "body", (Body.CBMP, Body.OP)),
        ("2  RF side, body turns less", "body", (Body.TURNS_LESS,)),
        ("2  RF side, sway L", "sway", Side.LEFT),
        ("2  RF side, small", "size", Size.SMALL),
        ("2  RF side, head L", "head", HeadLine(side=Side.LEFT)),
        ("2  RF side, head to partner", "head", HeadLine(words="partner")),
        ("2  RF side, head over LF", "head", HeadLine(over=Foot.LEFT)),
        ("2  LF close to RF", "joins", Foot.RIGHT),
        ("2  LF fwd past RF", "passes", Foot.RIGHT),
        ("2  LF point fwd", "direction", Direction.FORWARD),
        ("2  RF circle to side", "direction", Direction.SIDE),
        ("2  LF fwd (as you like, slowly) # a comment", "remarks", ("as you like, slowly",)),
        ("2  both close", "foot", Foot.BOTH),
        ("3  hold", "action", Action.HOLD),
        ("3  turn under", "action", Action.TURN_UNDER),
        ("3  LF lock behind", "action", Action.LOCK_BEHIND),
        ("3  LF cross in front", "action", Action.CROSS_IN_FRONT),
        ("3  LF diag fwd", "action", Action.DIAGONALLY_FORWARD),
        ("3  left foot forwards", "action", Action.FORWARD),
        ("3  close LF", "action", Action.CLOSE),
        ("3  LF behind", "action", Action.CROSS_BEHIND),
        ("3  LF x in front", "action", Action.CROSS_IN_FRONT),
        ("3  LF diag. fwd", "action", Action.DIAGONALLY_FORWARD),
        ("3  LF bk", "action", Action.BACK),
        ("3  lf CLOSES", "action", Action.CLOSE),
        ("3  LF lock behind RF", "joins", Foot.RIGHT),
        ("3  LF cross in front of RF", "joins", Foot.RIGHT),
        ("3  LF fwd, R 3/8", "turn", Turn(-3)),
        ("3  LF fwd, 2/8 to the left", "turn", Turn(2)),
        ("3  LF fwd, facing DC against LOD", "alignment", Alignment(Mode.FACING, Room.DCA)),
        ("3  LF fwd, head to wall", "head", HeadLine(room=Room.WALL)),
        ("3  LF fwd (a (nested) remark)", "remarks", ("a (nested) remark",)),
        ("3. LF fwd; T", "footwork", Footwork.T),
        ("3, LF fwd", "action", Action.FORWARD),
    ],
)
def test_words(text: str, field: str, value: object) -> None:
    assert getattr(step(text), field) == value


@pytest.mark.parametrize(
    ("text", "weight"),
    [("1 LF fwd", True), ("1 LF point", False), ("1 LF close, ww", False), ("1 LF touch, with weight", True)],
)
def test_weight_as_said_or_by_the_action(text: str, weight: bool) -> None:
    assert step(text).weight is weight


@pytest.mark.parametrize(
    ("text", "beat", "part", "until", "letter"),
    [
        ("1-2 LF fwd", 1, Fraction(0), 2, ""),
        ("4-1 LF fwd", 4, Fraction(0), 1, ""),
        ("& LF fwd", None, Fraction(1, 2), None, ""),
        ("a LF fwd", None, Fraction(3, 4), None, ""),
        ("2e LF fwd", 2, Fraction(1, 4), None, ""),
        ("S LF fwd", None, Fraction(0), None, "S"),
        ("q LF fwd", None, Fraction(0), None, "Q"),
        ("1& LF fwd", 1, Fraction(1, 2), None, ""),
        ("1 & LF fwd", 1, Fraction(1, 2), None, ""),
        ("1 - 2 LF fwd", 1, Fraction(0), 2, ""),
        ("1–2\u00a0LF fwd", 1, Fraction(0), 2, ""),
        ("and LF fwd", None, Fraction(1, 2), None, ""),
    ],
)
def test_counts(text: str, beat: int | None, part: Fraction, until: int | None, letter: str) -> None:
    count = step(text).count
    assert (count.beat, count.part, count.until, count.letter) == (beat, part, until, letter)


def test_bar_line_and_hold_change() -> None:
    assert read("bar 2")[0] == BarLine(2, read("bar 2")[0].mark)  # type: ignore[union-attr]
    said = step("1  LF fwd, hold double").hold
    assert said is not None and said.text == "double"


@pytest.mark.parametrize(
    ("text", "rule", "column", "suggestion"),
    [
        ("1  LF frwd", "unknown-word", 9, "fwd"),
        ("1  LF fwd, 3/8", "turn-sense-missing", 14, None),
        ("1  LF fwd, 1/3 L", "turn-not-eighths", 14, None),
        ("1  LF fwd, turn L", "turn-unclear", 14, None),
        ("1  LF fwd, LOD", "word-out-of-place", 14, "facing LOD"),
        ("1  LF fwd, T, H", "said-twice", 17, None),
        ("LF fwd", "count-missing", 3, None),
        ("0  LF fwd", "count-missing", 3, None),
        ("1  fwd", "foot-missing", 3, None),
        ("1  LF", "action-missing", 3, None),
        ("1  LF hold", "foot-and-hold", 3, None),
        ("1  LF fwd (slowly", "bracket-open", 13, None),
        ("2.1  LF fwd", "count-unclear", 3, None),
        ("1  LF fwd, head small", "head-unclear", 14, None),
        ("1  L fwd", "word-out-of-place", 6, "LF"),
        ("1  l fwd", "unknown-word", 6, "L"),
        ("1  LF fwd back", "said-twice", 13, None),
        ("1  LF fwd, facing DW, backing LOD", "said-twice", 25, None),
        ("1  LF fwd, RF back", "said-twice", 14, None),
        ("1  LF fwd, 1/8 L, 1/4 R", "said-twice", 21, None),
        ("1  LF fwd, 1/16 L", "turn-not-eighths", 14, None),
        ("1  LF fwd, 4/8 r", "unknown-word", 18, "R"),
        ("1  LF fwd, ht", "unknown-word", 14, "HT"),
        ("1  LF fwd, no turn L", "turn-unclear", 14, None),
        ("1  LF fwd, facing partner", "word-out-of-place", 14, None),
        ("bar 0", "bars-unclear", 3, None),
        ("bar two", "bars-unclear", 3, None),
        ("bar 2 LF fwd", "count-missing", 3, None),
    ],
)
def test_mistakes_are_named_where_they_stand(text: str, rule: str, column: int, suggestion: str | None) -> None:
    found = read(text)[1].found[0]
    assert (found.rule, found.mark.line, found.mark.column, found.suggestion) == (rule, 7, column, suggestion)


@settings(max_examples=200, deadline=None)
@given(st.text(alphabet="1234&eaSQ LFRfwdclose,()#/½-.TH\u00a0é", max_size=60))
def test_any_line_is_answered(text: str) -> None:
    made, findings = read(text)
    assert made is not None or findings.found or not text.partition("#")[0].strip(" \u00a0,()") or "#" in text


WORDS = st.sampled_from(lexicon().spellings) | st.sampled_from(["1/4", "3/8", "½", ",", "(", ")", "#", "l", "xx", "lF"])


@settings(max_examples=200, deadline=None)
@given(st.lists(WORDS, max_size=8))
def test_any_words_of_the_vocabulary_are_answered(words: list[str]) -> None:
    made, findings = read("1  " + " ".join(words))
    assert isinstance(made, Step) and (made.foot is not None or made.action in FOOTLESS or findings.found)
