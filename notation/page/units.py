"""Units of length and sizes of paper. A point is 1/72 inch, an inch 25.4 mm."""
from __future__ import annotations

from notation.page.content import Paper
from notation.page.fault import LayoutError

POINTS_PER_MM = 72 / 25.4

# ANSI/ASME Y14.1 (Letter is its size A); Legal is customary in the United States. Inches times 72.
AMERICAN = {"letter": ("Letter", 612.0, 792.0), "legal": ("Legal", 612.0, 1008.0)}


def points(millimetres: float) -> float:
    """Millimetres as points.

    >>> round(points(25.4), 6)
    72.0
    """
    return millimetres * POINTS_PER_MM


def iso_a(number: int) -> tuple[int, int]:
    """Width and height in millimetres of the A series (ISO 216): each size is half the one before, cut across its
    length, parts of a millimetre dropped; A0 is 841 by 1189.

    >>> iso_a(4)
    (210, 297)
    """
    width, height = 841, 1189
    for _ in range(number):
        width, height = height // 2, width
    return width, height


def _size(name: str) -> tuple[str, float, float]:
    short = name.strip().lower()
    if short in AMERICAN:
        return AMERICAN[short]
    if len(short) == 2 and short[0] == "a" and short[1] in "34567":
        width, height = iso_a(int(short[1]))
        return short.upper(), points(width), points(height)
    raise LayoutError(f"there is no paper '{name}'; write A3, A4, A5, A6, A7, Letter or Legal")


def paper(name: str, landscape: bool = False) -> Paper:
    """The paper of that name, held upright or lying. LayoutError for an unknown name.

    >>> round(paper("A4", landscape=True).width, 2)
    841.89
    """
    proper, width, height = _size(name)
    return Paper(proper, height, width) if landscape else Paper(proper, width, height)


def named_papers() -> tuple[Paper, ...]:
    """All sizes that have a name, upright, the smallest first."""
    found = [paper(name) for name in ("A3", "A4", "A5", "A6", "A7", *AMERICAN)]
    return tuple(sorted(found, key=lambda one: one.width * one.height))
