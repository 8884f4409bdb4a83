"""Running heads and feet: three short texts on one line, cut where they are too long for it."""
from __future__ import annotations

from collections.abc import Iterator

from notation.page.content import Paragraph, Run, Running, Style
from notation.page.fonts import Faces
from notation.page.frame import Artifact
from notation.page.lines import Line, lines
from notation.page.slab import Spot
from notation.page.text import measured

GAP = 12.0  # points kept between two of the texts
WIDE = 1e9
LEAST_CUT = 12  # letters; a middle text cut shorter is left out


def _line(words: str, style: Style, faces: Faces) -> Line:
    return lines(Paragraph((Run(words, style),)), WIDE, faces, "")[0]


def cut(words: str, style: Style, width: float, faces: Faces) -> Line:
    """The words on one line of at most that width in points, ending in an ellipsis where some had to go."""
    if measured(Paragraph((Run(words, style),)), faces).natural <= width:
        return _line(words, style, faces)
    low, high = 0, len(words)
    while low < high:
        middle = (low + high + 1) // 2
        wide = _line(words[:middle].rstrip() + "\u2026", style, faces).width
        low, high = (middle, high) if wide <= width else (low, middle - 1)
    return _line(words[:low].rstrip() + "\u2026", style, faces) if low else Line((), 0.0)


def running_line(running: Running, width: float, tag: Artifact, faces: Faces) -> Iterator[Spot]:
    """Left, middle and right text on a line of that width. The right one has the first claim on the room, the middle
    the last; y is 0."""
    right = cut(running.right, running.style, width, faces)
    taken = right.width + GAP if right.pieces else 0.0
    left = cut(running.left, running.style, max(0.0, width - taken), faces)
    beside = max(taken, left.width + GAP)
    middle = cut(running.middle, running.style, max(0.0, width - 2 * beside), faces)
    if sum(len(piece.text) for piece in middle.pieces) < min(LEAST_CUT, len(running.middle)):
        middle = Line((), 0.0)
    for line, x in ((left, 0.0), (middle, (width - middle.width) / 2), (right, width - right.width)):
        if line.pieces:
            yield Spot(x, 0.0, line, tag)
