"""What is kept for the next time changes no result: sheets are the same bytes warm and cold, and little is kept."""
import random
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from notation.dance.checks import check
from notation.dance.finding import Finding
from notation.dance.script import Worked
from notation.dance.work import work_out
from notation.kept import Kept
from notation.layout import Layout
from notation.page.fonts import Faces
from notation.page.frame import Document
from notation.page.units import paper
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import load_layout
from notation.reading.passage import PASSAGES
from notation.sheet import set_sheet

FACES = Faces()
EXAMPLES = Path(__file__).parents[1] / "examples"


def stores() -> list[Kept[object]]:
    """Every store of the program."""
    modules = [module for name, module in sys.modules.items() if name.split(".")[0] == "notation"]
    return [value for module in modules for value in vars(module).values() if isinstance(value, Kept)]


def empty() -> None:
    for store in stores():
        store.known.clear()


def made(text: str, layout: Layout, on: str, faces: Faces) -> tuple[Worked, Document, tuple[Finding, ...]]:
    knowledge = load_knowledge()
    reading = read_dance(text.encode(), "dance.yaml", knowledge)
    assert reading.dance is not None
    worked = work_out(reading.dance, knowledge)
    document = set_sheet(worked, knowledge, layout, paper(on), faces)
    return worked, document, (*reading.findings, *check(worked, knowledge))


def assert_the_same_with_nothing_kept(text: str, layout: Layout, on: str, warm: Faces) -> None:
    """The document is all that a painter sees, so the same document is the same bytes."""
    again = made(text, layout, on, warm)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Kept, "get", lambda store, key, make: make())
        assert made(text, layout, on, FACES) == again


def edited(text: str, chance: random.Random) -> str:
    """The text with one line remarked, taken out, put in twice, turned, or with another hold, place or size."""
    lines = text.splitlines()
    at = chance.choice([n for n, line in enumerate(lines) if line.startswith("      ") and " LF " in line])
    word = "".join(chance.choice("abcdefgh ") for _ in range(chance.randint(1, 30)))
    bare = lines[at].split(" (")[0]
    lines[at : at + 1] = chance.choice([
        [f"{bare} ({word})"], [], [lines[at]] * 2, [lines[at].replace(" LF ", " RF ")], [lines[at], "      # nothing"],
        [f"{bare}, 1/4 R"], [f"{bare}, 3/8 L"], [f"{bare}, hold double"], [f"{bare}, head R"],
    ])
    changed = [n for n, line in enumerate(lines) if line.startswith(("    hold:", "  hold:", "feet:"))]
    for number in changed[: chance.randint(0, 1)]:
        key, said = lines[number].split(": ")
        other = {"feet": ("parallel", "turned-out")}.get(key, ("open", "double"))
        lines[number] = f"{key}: {other[said == other[0]]}"
    return "\n".join(lines)


@pytest.mark.parametrize("name", ["ferry-lane-saunter", "tinsmiths-two-step"])
def test_an_edited_dance_is_the_same_warm_and_with_nothing_kept(name: str) -> None:
    chance, text, warm = random.Random(name), (EXAMPLES / f"{name}.yaml").read_text(), Faces()
    for _ in range(5):
        text = edited(text, chance)
        assert_the_same_with_nothing_kept(text, load_layout("script"), "A5", warm)


CARRIED = """format: 1
title: What goes on
rhythm: {rhythm}
length: 4
feet: {feet}
start: {{position: {position}, hold: {held}, gent: "LF, facing {facing}"}}
sequence:
  - bars: 1-2
    head: {head}
    gent: |
      1  LF fwd{turn}
      2  RF side{more}
      1  LF close 3rd front, {remark}
    lady: opposite
  - bars: 3
    hold: double
    head: R
    gent: |
      1  RF fwd 5th front
      2  LF fwd
    lady: mirror
  - bars: 4
    gent: |
      1  RF back, 1/4 R, body turns less
    lady: opposite
"""
CHOICES = {
    "rhythm": ("waltz", "two step"), "feet": ("parallel", "turned-out"), "position": ("closed", "side by side"),
    "held": ("open", "double"), "facing": ("LOD", "wall", "DC"), "head": ("L", "R"), "turn": ("", ", 1/4 R"),
    "more": ("", ", hold closed", ", head L"), "remark": ("H", "(words that make the columns of the table narrow)"),
}


CALLED = """format: 1
title: What calls stand on
rhythm: old-time waltz
length: 5
feet: {feet}
start: {{position: {position}, hold: open, gent: "{foot}, facing {facing}"}}
sequence:
  - bars: 1
    gent: |
      1  {foot} fwd{turn}
    lady: {lady}
  - bars: 2-3
    gent: pas de basque, RF then LF
    lady: pas de basque, LF then RF
  - bars: 4-5
    position: closed
    gent: natural turn
    lady: natural turn, from rotary half
"""
STANDING = {
    "feet": ("turned-out", "parallel"), "position": ("closed", "facing"), "foot": ("LF", "RF"),
    "facing": ("LOD", "DW", "ALOD"), "turn": ("", ", 1/4 R", ", PP"),
    "lady": ('"1  RF fwd, facing LOD"', "mirror", '"1  RF fwd, facing wall"', '"1  LF fwd, facing LOD"'),
}


def changed(text: str, choices: dict[str, tuple[str, ...]]) -> Iterator[str]:
    """The text with the first of all choices, then each time with one other."""
    usual = {key: some[0] for key, some in choices.items()}
    yield text.format(**usual)
    for key, some in choices.items():
        yield from (text.format(**{**usual, key: choice}) for choice in some[1:])


def cases() -> Iterator[tuple[str, Layout, str]]:
    """A text, a layout and a paper: the usual ones, then each time one thing changed and changed back."""
    script, usual = load_layout("script"), next(changed(CARRIED, CHOICES))
    for text in (*changed(CARRIED, CHOICES), *changed(CALLED, STANDING)):
        yield text, script, "A5"
    yield usual, script, "A6"
    yield usual, replace(script, columns=script.columns[:-1]), "A5"
    yield usual, replace(script, faces=replace(script.faces, regular="DejaVuSans")), "A5"
    yield usual, replace(script, wording=replace(script.wording, separator="; ")), "A5"
    yield usual, replace(script, language="de"), "A5"


def test_what_goes_on_from_passage_to_passage_is_no_stale_one() -> None:
    """Nothing moves in the file from one case to the next, so that all that is not concerned is found kept."""
    warm = Faces()
    for text, layout, on in cases():
        assert_the_same_with_nothing_kept(text, layout, on, warm)


def test_stores_are_bounded_and_give_up_what_was_used_longest_ago() -> None:
    store: Kept[int] = Kept(2)
    for key in "abac":
        store.get(key, lambda key=key: ord(key))
    assert list(store.known) == ["a", "c"]
    assert store.get("a", lambda: 0) == ord("a")
    assert all(store.most <= 256 for store in stores())


def test_a_long_passage_is_not_kept() -> None:
    empty()
    step = "      1  LF fwd (and a remark)\n"
    for often, kept in ((3, 1), (400, 0)):
        text = f"format: 1\ntitle: x\nrhythm: waltz\nlength: 1\nsequence:\n  - bars: 1\n    gent: |\n{step * often}"
        read_dance(text.encode(), "long.yaml", load_knowledge())
        assert len(PASSAGES.known) == kept
        empty()
