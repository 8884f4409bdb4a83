"""The tables of positions and holds against their sources."""
import pytest

from notation.dance.mark import Said
from notation.dance.naming import named, nearest_row
from notation.reading.positions import load_holds, load_positions

POSITIONS, HOLDS = load_positions(), load_holds()


@pytest.mark.parametrize(
    ("name", "eighths"),
    [("closed", 4), ("promenade", 2), ("counter promenade", -2), ("side by side", 0), ("shadow", 0), ("tandem", 0)],
)
def test_facing_of_positions(name: str, eighths: int) -> None:
    """'Reading Ballroom Dance Scripts' p.6: closed facing at 180 degrees, promenade at 90; rdinstruction.co.uk: side by
    side the same way. Shadow: Wikipedia 'Handhold'. Tandem: common practice, no source."""
    position = named(Said(name), POSITIONS)
    assert position is not None and position.turn == eighths


def test_lady_is_at_the_gents_right_side_by_side_and_in_promenade() -> None:
    """rdinstruction.co.uk; in promenade his right side and her left side are in touch (regencydancecentre.com)."""
    for name in ("side by side", "promenade", "closed"):
        position = named(Said(name), POSITIONS)
        assert position is not None and position.lady_at.y < 0


def test_reach_of_double_and_inside_hands() -> None:
    """ANSUR II means: torso to grip 646 and 584 mm with arms forward, 790 and 720 sideways."""
    double, inside = named(Said("double"), HOLDS), named(Said("inside hands"), HOLDS)
    assert double is not None and double.reach == 646 + 584
    assert inside is not None and inside.reach == 790 + 720 and inside.hands == (("R", "L"),)


def test_hands_are_each_used_once_and_sources_stand_beside() -> None:
    """A hand holds one hand; every row says where it is from."""
    for hold in HOLDS:
        gents, ladies = [h[0] for h in hold.hands], [h[1] for h in hold.hands]
        assert len(set(gents)) == len(gents) and len(set(ladies)) == len(ladies)
    assert all(row.source for row in (*POSITIONS, *HOLDS))


def test_names_stand_once() -> None:
    """Else a name would mean two things."""
    for table in (POSITIONS, HOLDS):
        names = [name for row in table for name in (row.name, *row.also)]
        assert len(set(names)) == len(names)


def test_lookup() -> None:
    """Common practice, no source: 'closed position' is closed; free words mean nothing; a slip is answered."""
    assert named(Said("Closed position"), POSITIONS) == named(Said("closed"), POSITIONS)
    assert named(Said("closed", free=True), POSITIONS) is None
    assert nearest_row(Said("promenad"), POSITIONS) == "promenade" and nearest_row(Said("zzz"), POSITIONS) is None
