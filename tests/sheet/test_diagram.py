"""Floor diagrams: counts cover nothing, scale is true, every step is there."""
import pytest

from notation.dance.floor import dance_floor
from notation.dance.geometry import MEANS, overlap
from notation.dance.script import GENT, LADY, PARTS
from notation.page.frame import PlacedText
from notation.plane import Point
from notation.reading.knowledge import load_knowledge
from notation.sheet import diagram
from notation.sheet.diagram import Lettering, corners, counts_placed, floor_diagram
from notation.sheet.floor import described
from tests.dance.worked import EXAMPLES, work

NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
LETTERS = Lettering(size=8.0, scale=0.085)


@pytest.mark.parametrize("name", NAMES)
def test_counts_cover_no_footprint_and_no_other_count(name: str) -> None:
    """By geometry, in every bar of the example; the feet that stood before count too."""
    worked = work(EXAMPLES / f"{name}.yaml")
    floor = dance_floor(worked, load_knowledge())
    for bar in range(1, worked.dance.length + 1):
        shown = [m for m in floor.moments if m.bar == bar]
        stood = diagram._before(floor, shown[0])
        prints = [p for part in PARTS for p in diagram._standing(stood[part], floor)]
        prints += [p for m in shown for p in diagram._landed(m, PARTS, floor)]
        labels = counts_placed(prints, LETTERS)
        feet = [tuple(diagram._on_page(p, LETTERS.scale) for p in one.outline) for one in prints]
        assert len(labels) == sum(1 for one in prints if one.count)
        for n, label in enumerate(labels):
            assert not any(label.box.overlaps(other.box) for other in labels[:n])
            assert max(overlap(corners(label.box), foot) for foot in feet) == 0.0


def test_line_of_dance_is_up_the_page_and_the_wall_at_the_right() -> None:
    """Common practice: as in the rows of the sheet."""
    ahead, aside = (diagram._on_page(p, 1.0) for p in (Point(1.0, 0.0), Point(0.0, -1.0)))
    assert ahead.y == pytest.approx(-1.0) and aside.x == pytest.approx(1.0)


def test_every_step_has_its_count_and_its_words() -> None:
    """Against the dance file: bar 1 of the natural turn, three steps each."""
    floor = dance_floor(work(EXAMPLES / "harbour-bell-waltz.yaml"), load_knowledge())
    drawing = floor_diagram(floor, range(1, 2))
    assert drawing is not None
    texts = [item.text for item in drawing.items if isinstance(item, PlacedText)]
    assert sorted(t for t in texts if t.isdecimal()) == ["1", "1", "2", "2", "3", "3"]
    assert {"LOD", "wall", "0.5 m"} <= set(texts)
    assert described(floor, 1).startswith("1, gent's RF forward; 1, lady's LF back")


def test_one_part_alone_and_a_bar_that_is_not_there() -> None:
    """By definition."""
    floor = dance_floor(work(EXAMPLES / "harbour-bell-waltz.yaml"), load_knowledge())
    alone, both = floor_diagram(floor, range(1, 2), (LADY,)), floor_diagram(floor, range(1, 2))
    assert alone is not None and both is not None and len(alone.items) < len(both.items)
    assert floor_diagram(floor, range(99, 100)) is None


def test_feet_are_drawn_to_scale() -> None:
    """ANSUR II: a man's foot of 271 mm, a woman's of 246 mm."""
    floor = dance_floor(work(EXAMPLES / "harbour-bell-waltz.yaml"), load_knowledge())
    for part in PARTS:
        one = next(iter(diagram._landed(floor.moments[0], (part,), floor)))
        lengths = [a.distance(b) for a in one.outline for b in one.outline]
        assert max(lengths) >= MEANS[part].length and one.length == {GENT: 271.0, LADY: 246.0}[part]
