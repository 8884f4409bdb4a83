"""Steps in shorthand and in words. Order of the words in a step: foot and action, place, direction of travel, turn,
alignment, footwork, rise, body, head, remarks (common practice of script sheets, no source)."""
from __future__ import annotations

from fractions import Fraction

import pytest

from notation.dance.mark import Said
from notation.dance.metre import Tempo
from notation.dance.room import Side
from notation.dance.step import HeadLine
from notation.layout import Segment, Wording
from notation.sheet.phrasing import eighths
from notation.sheet.running import running_words
from notation.sheet.sayings import count_runs, head_pieces, listed, tempo_words
from notation.sheet.speakers import speaker
from notation.sheet.wording import Speaker, bare_hold
from tests.sheet.setting import NAMES, dance, example, knowledge, passage, step


def says(shorthand: bool, **more: object) -> Speaker:
    return speaker(knowledge().vocabulary, Wording(shorthand=shorthand, **more))  # type: ignore[arg-type]


def spaced(text: str) -> str:
    return text.replace("\u00a0", " ")


CASES = [
    ("LF fwd, facing LOD, H", "LF fwd, facing LOD, H", "Left foot forward, facing line of dance, heel"),
    ("RF side, T, 3/8 R, pointing DC, body turns less", "RF side, ⅜ R, pointing DC, T, BTL",
     "Right foot side, ⅜ to right, pointing diagonal to centre, toe, body turns less"),
    ("LF close 3rd rear, TH", "LF close 3rd rear, TH", "Left foot closes third position rear, toe then heel"),
    ("RF fwd, commence to turn R, CBM, HT", "RF fwd, comm to turn R, HT, CBM",
     "Right foot forward, commence to turn right, heel then toe, contrary body movement"),
    ("RF swing fwd, low aerial", "RF swing fwd low aerial", "Right foot swings forward low aerial"),
    ("LF close to RF, no turn, lower (softly)", "LF close to RF, no turn, lower (softly)",
     "Left foot closes to right foot, no turn, lower (softly)"),
    ("RF fwd past LF, long, moving LOD, rise, sway L", "RF fwd past LF, long, moving LOD, rise, sway L",
     "Right foot forward past left foot, long, moving line of dance, rise, sway left"),
    ("LF point side, with weight", "LF point side, with weight", "Left foot points to side, with weight"),
    ("hold", "hold", "Hold"),
]


@pytest.mark.parametrize(("line", "short", "words"), CASES)
def test_a_step_in_both_forms(line: str, short: str, words: str) -> None:
    assert spaced(says(True).step(step(line))) == short
    assert spaced(says(False).step(step(line))) == words


def test_foot_and_action_amount_and_unit_are_tied() -> None:
    said = says(True).step(step("LF fwd, 1/4 R, facing DW"))
    assert said == "LF\u00a0fwd, ¼\u00a0R, facing\u00a0DW"


def test_order_and_separator_are_the_layouts() -> None:
    order = (Segment.FOOTWORK, Segment.STEP, *(s for s in Segment if s not in (Segment.FOOTWORK, Segment.STEP)))
    here = says(True, order=order, separator=" / ")
    assert spaced(here.step(step("LF fwd, facing LOD, H"))) == "H / LF fwd / facing LOD"


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("shorthand", [True, False])
def test_every_step_of_the_examples_can_be_said(name: str, shorthand: bool) -> None:
    for part in ("gent", "lady"):
        for danced in example(name).steps(part):
            assert says(shorthand).step(danced.step)


@pytest.mark.parametrize("name", NAMES)
def test_shorthand_reads_back_as_the_same_step(name: str) -> None:
    """What is printed in shorthand is what may be written: read again it gives the same words (own reader)."""
    for danced in example(name).steps("gent"):
        said = spaced(says(True).step(danced.step)).replace("\u2013", "-")
        assert spaced(says(True).step(step(said))) == said


def test_fractions_are_real_ones() -> None:
    assert [eighths(n) for n in (1, 2, 3, 4, 5, 6, 7, 8, -12)] == ["⅛", "¼", "⅜", "½", "⅝", "¾", "⅞", "1", "1½"]


def test_only_words_used_are_remembered_for_the_key() -> None:
    here = says(True)
    here.step(step("LF fwd, HT"))
    assert {word.short for word in here.used.values()} == {"LF", "fwd", "HT"}


def test_heads_holds_counts_tempo_and_names() -> None:
    here = says(True)
    left, right = HeadLine(side=Side.LEFT), HeadLine(side=Side.RIGHT)
    assert [spaced(p) for p in head_pieces(here, left, right)] == ["gent L,", "lady R"]
    assert head_pieces(here, left, left) == ("L",)
    assert spaced(bare_hold(here, Said("facing"), Said("double"))) == "facing, double hold"
    assert bare_hold(here, Said("closed"), Said("closed")) == "closed"
    assert bare_hold(here, None, Said("hands on hips", free=True)) == "hands on hips"
    assert list(count_runs("1-2&")) == [("1", False), ("\u2013", False), ("2", False), ("&", True)]
    assert spaced(tempo_words(here, Tempo(Fraction(40), Fraction(44)))) == "40\u201344 bars a minute"
    assert spaced(listed(here, ["Ann Ay", "Bob Bee", "Cy Cee"])) == "Ann Ay, Bob Bee and Cy Cee"


def test_other_names_of_the_partners() -> None:
    here = says(True, gent="Leader", lady="Follower")
    assert spaced(head_pieces(here, HeadLine(side=Side.LEFT), None)[0]) == "leader L"


def test_running_time() -> None:
    """16 bars at 42 last 22.86 s; 4 + 5 x 16 = 84 bars last 120 s (arithmetic)."""
    of = dance(passage("1 LF fwd; 2 RF fwd; 3 LF close"), length=16).dance
    assert spaced(running_words(of, says(True))) == "16 bars at 42: 23 s; five times through with 4 bars in: 2 min"


def test_phrases_of_a_layout_cannot_reach_into_values() -> None:
    here = speaker(knowledge().vocabulary, Wording(), (("tempo value", "{tempo.__class__} {tempo}"),))
    assert "class '" not in tempo_words(here, Tempo(Fraction(42), Fraction(42)))
    assert says(True).phrases.tempo_value == "{tempo} bars a minute"
