"""The figures a teacher of sequence dances looks for are in the library, each with all that a card says of it.

The list is the library's own aim; no source.
"""
from __future__ import annotations

import pytest

from notation.dance.figure import FAMILIES, Figure, plain_name
from notation.dance.script import PARTS
from notation.dance.step import Rise
from notation.reading.figures import FOLDER, load_figure
from notation.reading.knowledge import load_knowledge

WANTED = {
    "old-time waltz": "pas de basque, pas de valse, natural turn, reverse turn, balance, solo turn, lock",
    "gavotte": "gavotte step",
    "waltz": "natural turn, reverse turn, LF closed change, RF closed change, whisk, chasse from promenade,"
             " natural spin turn, hesitation change",
    "foxtrot": "feather, feather step, three step, closed impetus, feather finish, twinkle",
    "quickstep": "quarter turn, progressive chasse, forward lock",
    "tango": "walk, tango walk, progressive link, closed promenade",
    "saunter": "saunter walk, grapevine, scissors, rock, promenade walk",
    "blues": "blues walk",
    "two-step": "two-step, promenade walk, pas de basque",
    "polka": "polka step",
    "schottische": "schottische step, step-hop",
    "galop": "galop",
    "mazurka": "mazurka step",
    "rumba": "rumba box, spot turn",
    "cha-cha": "cha-cha chasse, cha-cha basic, spot turn",
    "samba": "samba whisk",
    "jive": "jive chasse",
}
NAMES = [(rhythm, name.strip()) for rhythm, names in WANTED.items() for name in names.split(",")]
ASKED = ("steps", "timing", "turn", "footwork", "rise", "head", "arms", "cautions", "faults")
"""What each file says the source of, or that none was found."""
TURNED_OUT = ("pas-de-basque", "pas-de-valse", "natural-turn", "reverse-turn", "gavotte-step")
FIGURES = {path.stem: load_figure(path) for path in sorted(FOLDER.glob("*.yaml"))}
EACH = pytest.mark.parametrize("figure", FIGURES.values(), ids=FIGURES.keys())


@pytest.mark.parametrize(("rhythm", "name"), NAMES)
def test_the_figure_is_there_under_that_name(rhythm: str, name: str) -> None:
    found = [figure for figure in load_knowledge().figures.named(name) if rhythm in figure.rhythms]
    assert [plain_name(name) in map(plain_name, (figure.name, *figure.also)) for figure in found] == [True]


def sources(figure: Figure) -> dict[str, str]:
    return {key.strip(): where for keys, where in figure.sources for key in keys.split(",")}


@EACH
def test_every_value_has_its_source_or_the_word_that_none_was_found(figure: Figure) -> None:
    said = sources(figure)
    assert set(ASKED) <= set(said)
    steps = [line for part in PARTS for line in figure.part(part).lines if hasattr(line, "footwork")]
    given = {
        "footwork": any(step.footwork for step in steps),
        "rise": any(set(step.rise) - {Rise.NO_FOOT_RISE} for step in steps),
        "head": bool(figure.gent.head or figure.lady_head or any(step.head for step in steps)),
        "arms": bool(figure.arms),
    }
    for key, there in given.items():
        assert there or "no source found" in said[key], f"{figure.name}: {key}"
        assert not (there and "none is given" in said[key]), f"{figure.name}: {key}"


@EACH
def test_fields(figure: Figure) -> None:
    assert figure.name and figure.family in FAMILIES and figure.rhythms and figure.faults
    for part in PARTS:
        of = figure.part(part)
        assert of.start.foot and of.start.alignment is not None, "starting foot and alignment"
        assert of.lines and of.free is not None


@pytest.mark.parametrize("stem", TURNED_OUT)
def test_the_turned_out_set_says_that_it_is_common_practice(stem: str) -> None:
    """Arms: rounded, neither straight nor behind the body; joined hands and skirt hand at one height; start in 3rd with
    the first foot in front; turns danced from either partner's half and solo. Common practice, no source."""
    figure = FIGURES[stem]
    assert figure.family == "turned-out" and figure.feet.value == "turned-out"
    assert "common practice" in sources(figure)["steps"]
    place = figure.gent.start.place
    assert place is not None and (place.position, place.end and place.end.value) == (3, "front")
    if "turn" in stem:
        assert {half.name for half in figure.halves} >= {"progressive half", "rotary half"}
        assert [variant.name for variant in figure.variants] == ["solo"]
    else:
        assert figure.either and figure.arms.startswith("Rounded")
    assert stem != "gavotte-step" or [variant.name for variant in figure.variants] == ["without turn"]
