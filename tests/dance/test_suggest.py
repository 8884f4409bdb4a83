"""Words that were probably meant: one likeness wherever a writer is asked 'did you mean'. Our own rule, no source."""
from __future__ import annotations

import re
from pathlib import Path

import pytest

import notation
from notation.dance.suggest import did_you_mean, nearest, nearest_few, quoted_list

PACKAGE = Path(notation.__file__).parent
KNOWN = ("fwd", "back", "side", "close", "natural turn", "natural turns", "waltz", "double", "mirror")


@pytest.mark.parametrize(
    ("word", "meant"),
    [("frwd", "fwd"), ("bakc", "back"), ("dwf", "fwd"), ("Clsoe", "close"), ("natral tern", "natural turn"),
     ("watlz", "waltz"), ("duoble", "double"), ("miror", "mirror"), ("WALTZ", "waltz")],
)
def test_a_slip_of_the_fingers_is_understood(word: str, meant: str) -> None:
    assert nearest(word, KNOWN) == meant
    assert did_you_mean(word, KNOWN) == (f": did you mean '{meant}'?", meant)


@pytest.mark.parametrize("word", ["wines", "fox", "turn", "", "natural" * 20])
def test_another_word_is_left_alone(word: str) -> None:
    assert nearest(word, KNOWN) is None
    assert did_you_mean(word, KNOWN) == ("", None)


def test_several_best_first() -> None:
    assert nearest_few("natural turnss", KNOWN) == ["natural turns", "natural turn"]
    assert nearest_few("natural turnss", KNOWN, 1) == ["natural turns"]
    assert (quoted_list(["a"]), quoted_list([])) == ("'a'", "")


def test_likeness_is_measured_in_one_place() -> None:
    likeness = re.compile("get_close_matches|SequenceMatcher")
    homes = [path for path in PACKAGE.rglob("*.py") if likeness.search(path.read_text())]
    assert homes == [PACKAGE / "dance" / "suggest.py"]
