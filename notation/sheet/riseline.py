"""Rise and fall as a line over the counts of a figure.

What the rise words say (magicdanceworld.com, waltz charts): commence to rise at the end of 1, continue on 2 and 3,
lower at the end of 3. Heights are a picture of the words, not a measurement.
"""
from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from notation.dance.script import Danced
from notation.dance.step import Rise
from notation.page.content import Drawing, Style
from notation.page.frame import Artifact, PlacedShape, PlacedText
from notation.page.path import Curve, Move, Path, Segment
from notation.plane import Point

HEIGHTS = {Rise.COMMENCE: 0.4, Rise.CONTINUE: 0.8, Rise.RISE: 0.8, Rise.UP: 1.0, Rise.BEND: -0.35}
FALLS = frozenset({Rise.LOWER, Rise.DOWN})
BEAT, HIGH, LOW = 34.0, 22.0, 9.0
"""Points for a beat, above the level of standing and below it."""


def rise_points(steps: Sequence[Danced], beats_a_bar: int) -> list[tuple[Fraction, float]]:
    """The line's corners: beats since the beginning, and height from -1 to 1 (0: standing on flat feet).

    A rise is reached at the end of its step, a bend at its middle; what lowers at the end of a step stays up to its
    last quarter.
    """
    found: list[tuple[Fraction, float]] = [(Fraction(0), 0.0)]
    for danced in steps:
        onset = (danced.bar - 1) * beats_a_bar + danced.beat
        found += _of_step(danced, onset, found[-1][1])
    return found


def _of_step(danced: Danced, onset: Fraction, level: float) -> list[tuple[Fraction, float]]:
    end = onset + danced.lasts
    raised = max((HEIGHTS[rise] for rise in danced.step.rise if HEIGHTS.get(rise, -1.0) > 0), default=None)
    if raised is not None and FALLS & set(danced.step.rise):
        top = max(raised, level)
        return [(onset + danced.lasts / 2, top), (onset + danced.lasts * 3 / 4, top), (end, 0.0)]
    if Rise.BEND in danced.step.rise:
        return [(onset + danced.lasts / 2, HEIGHTS[Rise.BEND]), (end, 0.0)]
    if raised is not None:
        return [(end, max(raised, level))]
    if FALLS & set(danced.step.rise):
        return [(onset + danced.lasts / 4, level), (end, 0.0)]
    return [(end, level)]


def rise_drawing(steps: Sequence[Danced], beats_a_bar: int, style: Style, most: float, alt: str) -> Drawing | None:
    """The line with its counts; None where no step says how it rises. most: greatest width in points. alt: the same in
    words."""
    if not any(danced.step.rise for danced in steps):
        return None
    corners = rise_points(steps, beats_a_bar)
    length = max(1, int(-(-corners[-1][0] // 1)))
    beat = min(BEAT, most / length)
    ground = Path.line(Point(0.0, 0.0), Point(length * beat, 0.0))
    shapes = [PlacedShape(ground, Artifact.LAYOUT, stroke=0.55, line_width=0.5, dash=(2.0, 2.0))]
    shapes += [PlacedShape(_tick(bar * beats_a_bar * beat), Artifact.LAYOUT, stroke=0.55, line_width=0.5)
               for bar in range(length // beats_a_bar + 1)]
    line = _smooth([Point(float(at) * beat, -height * (HIGH if height > 0 else LOW)) for at, height in corners])
    shapes.append(PlacedShape(line, Artifact.LAYOUT, stroke=0.0, line_width=1.3))
    counts = [_count(danced, beats_a_bar, beat, style) for danced in steps]
    return Drawing(length * beat + 2.0, HIGH + 3.0, LOW + 1.3 * style.size, (*shapes, *counts), alt)


def _tick(x: float) -> Path:
    return Path.line(Point(x, -HIGH), Point(x, LOW))


def _smooth(points: list[Point]) -> Path:
    """A curve that is level at each corner, so that it never overshoots."""
    segments: list[Segment] = [Move(points[0])]
    for one, two in zip(points, points[1:], strict=False):
        half = (two.x - one.x) / 2
        segments.append(Curve(Point(one.x + half, one.y), Point(two.x - half, two.y), two))
    return Path(tuple(segments))


def _count(danced: Danced, beats_a_bar: int, beat: float, style: Style) -> PlacedText:
    onset = float((danced.bar - 1) * beats_a_bar + danced.beat)
    return PlacedText(onset * beat + 2.0, LOW + 1.05 * style.size, danced.count.replace("-", "\u2013"), style.face,
                      style.size, Artifact.LAYOUT, (), style.ink)
