"""Every figure of the library: its bars fill, its feet run on, its turn and its end are what its file says.

The turned-out set is the style's common practice, no source; charts of published figures are in test_library_charts.
"""
from __future__ import annotations

from fractions import Fraction

import pytest

from notation.dance.call import Wanted
from notation.dance.calling import Piece, piece_of
from notation.dance.feet import Foot
from notation.dance.figure import Figure, plain_name
from notation.dance.mark import NOWHERE, Said
from notation.dance.script import GENT, PARTS, Call, Danced, Stance
from notation.dance.turning import align, total
from notation.dance.weight import standing_at_start, weigh
from notation.reading.figures import FOLDER, load_figure
from notation.reading.knowledge import load_knowledge

LIBRARY = {path.stem: load_figure(path) for path in sorted(FOLDER.glob("*.yaml"))}
EACH = pytest.mark.parametrize("figure", LIBRARY.values(), ids=LIBRARY.keys())
PAIRS = [(f, part) for f in LIBRARY.values() for part in PARTS if part == GENT or f.lady is not None]
PART = pytest.mark.parametrize(("figure", "part"), PAIRS, ids=lambda value: getattr(value, "name", value))
"""Each figure with each part that is its own."""


def wanted(figure: Figure, **more: object) -> Wanted:
    return Wanted(figure, Call(Said(figure.name), (), NOWHERE), **more)  # type: ignore[arg-type]


def end(steps: tuple[Danced, ...], stance: Stance) -> Foot | None:
    """The foot free after the steps, each of which must be danced on a foot that is free for it."""
    weighed = list(weigh(steps, standing_at_start(stance)))
    assert [w.danced.step for w in weighed if w.fault] == []
    after = weighed[-1].after
    return after.other if after else None


def onset(one: Danced, figure: Figure) -> Fraction:
    return (one.bar - 1) * figure.metre.beats + one.beat


def test_there_are_more_than_sixty() -> None:
    assert len(LIBRARY) >= 60
    assert len({figure.name for figure in LIBRARY.values()}) >= 60


@PART
def test_bars_fill(figure: Figure, part: str) -> None:
    """From the first beat to the last, every step beginning where the one before it ends."""
    at = Fraction(0)
    for one in piece_of(wanted(figure), part).steps:
        assert onset(one, figure) == at
        assert one.lasts > 0
        at += one.lasts
    assert at == figure.beats


@PART
def test_feet_run_on_and_the_stated_foot_is_free_at_the_end(figure: Figure, part: str) -> None:
    of = figure.part(part)
    steps = piece_of(wanted(figure), part).steps
    assert end(steps, of.start) is of.free


@PART
def test_turn_is_what_the_file_states(figure: Figure, part: str) -> None:
    of = figure.part(part)
    aligned = align(piece_of(wanted(figure), part).steps, of.start)
    assert total(aligned) == of.turn
    assert [one.danced.step for one in aligned if one.against] == []


@PART
def test_variants_and_halves_are_danced_as_well(figure: Figure, part: str) -> None:
    for variant in figure.variants:
        steps = piece_of(wanted(figure, variant=variant), part).steps
        assert end(steps, figure.part(part).start) is figure.part(part).free
        assert steps != piece_of(wanted(figure), part).steps or (variant.lady == () and part == "lady")
    for half in figure.halves:
        piece = piece_of(wanted(figure, half=half), part)
        assert sum(one.lasts for one in piece.steps) == figure.beats
        assert len(piece.steps) == len(piece_of(wanted(figure), part).steps)
        only = piece_of(wanted(figure, half=half, only=True), part)
        assert sum(one.lasts for one in only.steps) == (half.last - half.first + 1) * figure.metre.beats


@PART
def test_what_follows_begins_with_the_free_foot_and_in_the_same_metre(figure: Figure, part: str) -> None:
    """In each rhythm that both have; a figure of either foot can always follow."""
    for name in figure.joins:
        found = [f for f in load_knowledge().figures.named(name) if set(f.rhythms) & set(figure.rhythms)]
        assert found, f"{figure.name}: no figure '{name}' of the same rhythm"
        for following in found:
            assert following.metre == figure.metre
            assert following.either or following.part(part).start.foot is figure.part(part).free


@EACH
def test_on_the_other_foot_it_is_the_mirror_image(figure: Figure) -> None:
    piece = piece_of(wanted(figure), "gent")
    assert piece.mirrored.mirrored == piece
    assert total(align(piece.mirrored.steps, None)) == -total(align(piece.steps, None))
    if figure.mirror_name:
        other = next(f for f in load_knowledge().figures.named(figure.mirror_name) if f.rhythms == figure.rhythms)
        assert feet(piece_of(wanted(other), "gent")) == feet(piece.mirrored)
        assert other.gent.turn == -figure.gent.turn


def feet(piece: Piece) -> list[tuple[object, ...]]:
    """Foot and count of every step; crossing or closing is the named figure's own."""
    return [(d.step.foot, d.step.count.text) for d in piece.steps]


@PART
def test_turned_to_any_alignment_it_keeps_its_turn(figure: Figure, part: str) -> None:
    piece = piece_of(wanted(figure), part)
    for eighths in range(8):
        assert total(align(piece.turned(eighths).steps, None)) == total(align(piece.steps, None))
        assert piece.turned(eighths).turned(-eighths) == piece


@EACH
def test_it_says_what_it_needs_to(figure: Figure) -> None:
    assert dict(figure.sources), "sources, or the word that there are none"
    assert figure.faults and figure.rhythms
    rhythms = {row.name: row for row in load_knowledge().rhythms}
    for rhythm in figure.rhythms:
        assert rhythms[rhythm].metre == figure.metre
        assert rhythms[rhythm].feet == figure.feet.value or figure.family in ("old-time", "turned-out")
    positions = {row.name for row in load_knowledge().positions}
    assert set(figure.positions) <= positions


@EACH
def test_no_two_figures_of_a_rhythm_have_the_same_name(figure: Figure) -> None:
    named = [f for f in load_knowledge().figures.named(figure.name) if set(f.rhythms) & set(figure.rhythms)]
    exact = [f for f in named if f.name == figure.name]
    assert exact == [figure]


def test_the_names_are_found_without_reading_the_files() -> None:
    """The quick look at the first lines finds what the reader finds."""
    found = set(load_knowledge().figures.names())
    written = [name for figure in LIBRARY.values() for name in (figure.name, *figure.also)]
    assert found <= set(written)
    assert {plain_name(name) for name in found} == {plain_name(name) for name in written}
    for figure in LIBRARY.values():
        for name in (figure.name, *figure.also):
            assert figure.name in {f.name for f in load_knowledge().figures.named(name)}
