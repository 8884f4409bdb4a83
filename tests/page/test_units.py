"""Sizes of paper against the standard."""
import pytest

from notation.page.fault import LayoutError
from notation.page.units import iso_a, paper, points


@pytest.mark.parametrize(
    ("number", "size"),
    [(0, (841, 1189)), (1, (594, 841)), (2, (420, 594)), (3, (297, 420)), (4, (210, 297)), (5, (148, 210)),
     (6, (105, 148)), (7, (74, 105)), (8, (52, 74))],
)
def test_a_series(number: int, size: tuple[int, int]) -> None:
    """The table of trimmed sizes in ISO 216:2007, 4.1 (A series), in millimetres."""
    assert iso_a(number) == size


def test_letter_and_legal() -> None:
    """8.5 by 11 inches (ANSI/ASME Y14.1, size A) and 8.5 by 14 inches (customary, no standard)."""
    assert (paper("Letter").width, paper("letter").height) == (8.5 * 72, 11 * 72)
    assert (paper("Legal").width, paper("LEGAL").height) == (8.5 * 72, 14 * 72)


def test_landscape_turns_the_sheet() -> None:
    upright, lying = paper("a5"), paper("A5", landscape=True)
    assert (upright.width, upright.height) == (lying.height, lying.width) == (points(148), points(210))
    assert lying.name == "A5"


@pytest.mark.parametrize("name", ["A2", "A8", "B5", "", "A44", "quarto"])
def test_unknown_paper_names_the_known(name: str) -> None:
    with pytest.raises(LayoutError, match="A3, A4, A5, A6, A7, Letter or Legal"):
        paper(name)
