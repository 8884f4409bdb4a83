"""What tells a name. The forms are those by which a name is commonly written or hidden (common practice, no source)."""
from __future__ import annotations

import pytest

from notation.dance.anonymity import LOOKALIKES, plain_letters, secrets_of

KNOWN = frozenset(("close", "walk"))


@pytest.mark.parametrize("text", [
    "Pym", "pym's two-step", "PYM", "The_Pym_Two-Step", "Pym2026", "P\u200bym", "P\u00adym", "P\u2060y\u202em",
    "Ｐｙｍ", "P y m", "P.Y.M.", "W\u0301alter", "WALTERS", "(Walter)", "WalterPym", "waltersong", "W. Pym\u2019s",
])
def test_a_name_is_seen_however_it_is_written(text: str) -> None:
    assert secrets_of(["Walter Pym"], [], KNOWN).hits(f"A two-step, {text}, slow")


@pytest.mark.parametrize("text", ["and pumps", "a nymph", "olympic", "W P", "LF fwd, R, T", "wal ter"])
def test_other_words_are_none(text: str) -> None:
    assert secrets_of(["Walter Pym"], [], KNOWN).hits(text) == ()


@pytest.mark.parametrize(("name", "told", "untold"), [
    ("Ray Close", "by Ray", "LF close"),
    ("Ray Close", "ray  close", "close, close"),
    ("Zoë Løvstrøm", "ZOE", "zone"),
    ("Ludwig van Dalen", "Dalen's", "a van"),
    ("Kōji Itō", "Ito", "into"),
    ("Мария", "мария", "мари"),
])
def test_words_of_the_trade_and_of_all_names_are_sought_whole(name: str, told: str, untold: str) -> None:
    secrets = secrets_of([name], [], KNOWN)
    assert secrets.hits(told) and not secrets.hits(untold)


def test_other_particulars_are_sought_as_they_stand() -> None:
    secrets = secrets_of(["Ann Lee"], ["Gull Street Club", "01632 960 217"], KNOWN)
    assert secrets.hits("from the GULL  street club") and secrets.hits("(01632 960 217)")
    assert not secrets.hits("a club in the street")


def test_what_is_allowed_is_told_apart() -> None:
    secrets = secrets_of(["Arthur Lane"], [], KNOWN, ["LANE"])
    assert secrets.spared == ("lane",) and not secrets.hits("Ferry Lane Saunter")
    assert secrets.hits("Arthur Lane") == ("arthur lane", "arthur")


@pytest.mark.parametrize(("name", "text"), [
    ("Walter Pym", "by \u0420\u0443m"), ("Perpetua Coxe", "\u0421\u043e\u0445\u0435's waltz"),
    ("Perpetua Coxe", "P\u0435rpetu\u0430song"), ("\u041c\u0430\u0440\u0438\u044f", "\u041ca\u0440\u0438\u044f"),
    ("Otto Nova", "n\u03bf\u03bda"),
])
def test_letters_of_other_alphabets_that_look_alike(name: str, text: str) -> None:
    assert secrets_of([name], [], KNOWN).hits(text)


def test_lookalikes_are_those_of_the_standard() -> None:
    """Against the table of Unicode Technical Standard 39 as another library carries it."""
    confusables = pytest.importorskip("confusable_homoglyphs.confusables")
    for code, latin in LOOKALIKES.items():
        one = chr(code)
        found = confusables.is_confusable(one, greedy=True, preferred_aliases=["latin"])
        assert found and any(other["c"] == chr(latin) for other in found[0]["homoglyphs"]), f"{one} {chr(latin)}"


def test_letters_that_are_often_written_otherwise() -> None:
    assert plain_letters("Łódź Ærø Þór Đặng") == "lodz aero thor dang"
