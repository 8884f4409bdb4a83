"""The vocabulary against the model, the format and the trade's abbreviations."""
import enum

import pytest

from notation.dance.feet import Aerial, End, Foot, Fourth
from notation.dance.room import Mode, Room, Side
from notation.dance.script import Derivation
from notation.dance.step import FOOTLESS, Action, Body, Direction, Footwork, Rise, Size, Step
from notation.dance.words import Word
from notation.reading.fields import Findings
from notation.reading.rows import TextRow
from notation.reading.stepline import Reader, read_line
from notation.reading.words import Lexicon, lexicon, load_vocabulary

WORDS = load_vocabulary().words


def values(*kinds: type[enum.Enum]) -> set[str]:
    return {str(member.value) for kind in kinds for member in kind}


MODEL: dict[str, set[str]] = {
    "foot": values(Foot),
    "footless": {action.value for action in FOOTLESS},
    "direction": values(Direction),
    "place": {"1", "2", "3", "4", "5"} | values(End, Fourth, Aerial),
    "mode": values(Mode),
    "room": {room.name for room in Room},
    "side": {side.name for side in Side},
    "footwork": values(Footwork),
    "rise": values(Rise),
    "body": values(Body),
    "size": values(Size),
    "derivation": values(Derivation),
}


def names(*kinds: str) -> set[str]:
    return {word.name for word in WORDS if word.kind in kinds}


@pytest.mark.parametrize("kind", MODEL)
def test_words_and_model_agree(kind: str) -> None:
    assert names(kind) == MODEL[kind]


def test_every_action_is_a_word_of_one_kind() -> None:
    assert names("action", "gesture", "footless") == values(Action)
    assert len([w for w in WORDS if w.kind in ("action", "gesture", "footless")]) == len(Action)


def test_a_word_is_named_once_in_its_kind() -> None:
    named = [(word.kind, word.name) for word in WORDS]
    assert len(named) == len(set(named))


@pytest.mark.parametrize("word", WORDS, ids=lambda w: f"{w.kind}-{w.name}")
def test_what_is_printed_can_be_read(word: Word) -> None:
    words: Lexicon = lexicon()
    for spelling in (word.words, word.short, *word.accepts):
        assert word in words.words(tuple(spelling.split())), spelling


@pytest.mark.parametrize("kind", sorted({word.kind for word in WORDS} - {"place", "direction"}))
def test_a_spelling_means_one_thing_in_its_kind(kind: str) -> None:
    spelt = [s for w in WORDS if w.kind == kind for s in dict.fromkeys((w.words, w.short, *w.accepts))]
    assert len(spelt) == len(set(spelt))


def step(text: str) -> Step:
    findings = Findings()
    made = read_line(TextRow(text, "dance.yaml", 1, 1), Reader(lexicon(), findings))
    assert not findings.found, (text, findings.found)
    assert isinstance(made, Step)
    return made


FORMAT = {
    "action": "fwd back side close pivot spring hop point touch tap heel toe brush kick swing lift flick circle",
    "qualifier": "H T HT TH THT B BF BH F WF IE IET OE rise up lower down bend CBM CBMP PP CPP OP small long",
}
PHRASES = (
    "diag fwd", "diag back", "cross in front", "cross behind", "in place", "lock in front", "lock behind",
)
TRADE = ("PO", "IEB", "NFR", "BTL", "BCT", "ww", "comm to turn L", "commence to rise", "cont to rise", "in PP")
"""Abbreviations in general use on script sheets: published glossaries (stardancestudio.com, weloveballroom.com),
waltz charts of magicdanceworld.com, general terms of dancevision.com; 'ww' (without weight): common practice."""


@pytest.mark.parametrize("action", [*FORMAT["action"].split(), *PHRASES])
def test_every_action_of_the_format_is_read(action: str) -> None:
    made = step(f"1  LF {action}")
    assert made.foot is Foot.LEFT
    assert made.weight is (action not in FORMAT["action"].split()[7:])


@pytest.mark.parametrize("word", [*FORMAT["qualifier"].split(), "no foot rise", "sway L", *TRADE])
def test_every_qualifier_is_read(word: str) -> None:
    assert step(f"1  LF fwd, {word}") != step("1  LF fwd")


@pytest.mark.parametrize("room", ["LOD", "ALOD", "wall", "centre", "DW", "DC", "DWA", "DCA"])
@pytest.mark.parametrize("mode", ["facing", "backing", "pointing", "moving"])
def test_every_alignment_is_read(mode: str, room: str) -> None:
    made = step(f"1  LF fwd, {mode} {room}")
    expected = Room[room.upper()]
    assert (made.travel if mode == "moving" else made.alignment and made.alignment.room) is expected


@pytest.mark.parametrize(
    ("place", "position"),
    [("1st", 1), ("2nd", 2), ("3rd front", 3), ("4th open", 4), ("4th crossed rear", 4), ("5th rear", 5)],
)
def test_places(place: str, position: int) -> None:
    made = step(f"1  LF close {place}").place
    assert made is not None and made.position == position


@pytest.mark.parametrize("height", ["low", "medium", "high"])
def test_heights(height: str) -> None:
    made = step(f"1  LF lift 4th front, {height} aerial").place
    assert made is not None and made.aerial is Aerial(height)
