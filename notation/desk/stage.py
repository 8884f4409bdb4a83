"""One bar on the floor, for the page: the drawing of it, and where both dancers stand after every count."""
from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from notation.dance.feet import Foot
from notation.dance.floor import Floor, Shown
from notation.dance.script import PARTS
from notation.dance.stepping import Dancer
from notation.installed import data_folder
from notation.page.content import Drawing
from notation.page.frame import Frame, Item, PlacedShape, PlacedText
from notation.page.svg import outline_data, paint_svg
from notation.sheet.diagram import floor_diagram
from notation.sheet.floorwords import described, lettered
from notation.sheet.sole import TO_PAGE, sole
from notation.sheet.style import SEMIBOLD
from notation.sheet.wording import Speaker

LARGE = (SEMIBOLD, 9.0, 0.11)
MARGIN = 6.0  # points
BREADTH = 0.4  # of a sole's length


@cache
def soles(length: float) -> dict[str, str]:
    """Outlines of both soles as SVG path data, heel at the origin, toes up, in millimetres."""
    made = {foot: sole(foot, length, BREADTH * length).outline.mapped(TO_PAGE) for foot in (Foot.LEFT, Foot.RIGHT)}
    return {foot.value: outline_data(path) for foot, path in made.items()}


def stood(dancer: Dancer) -> dict[str, Any]:
    """A pose in millimetres and degrees: x along the line of dance, y to the centre, degrees positive to the left."""
    feet = {
        foot.value: [round(placed.heel.x), round(placed.heel.y), round(placed.degrees, 1)]
        for foot, placed in dancer.feet.items()
    }
    weight = dancer.weight.value if dancer.weight else None
    return {"at": [round(dancer.centre.x), round(dancer.centre.y)], "facing": dancer.facing.degrees,
            "feet": feet, "weight": weight}


def _said(shown: Shown) -> tuple[str, str]:
    """The count, and what both do on it."""
    counts, words = [], []
    for part in PARTS:
        landing = shown.landings.get(part)
        if landing is None:
            continue
        danced = landing.aligned.danced
        counts.append(danced.count)
        foot = f"{danced.step.foot.value} " if danced.step.foot else ""
        words.append(f"{part} {foot}{danced.step.action.value.replace('-', ' ')}")
    return counts[0] if counts else "", "; ".join(words)


def bar_on_floor(floor: Floor, bar: int, says: Speaker) -> dict[str, Any] | None:
    """What the page shows of a bar; None where nobody dances in it."""
    here = [at for at, one in enumerate(floor.moments) if one.bar == bar]
    if not here:
        return None
    before = floor.moments[here[0] - 1].dancers if here[0] else floor.start
    poses: list[dict[str, Any]] = [{"count": "", "said": "before the bar", "dancers": _all(before)}]
    for one in (floor.moments[at] for at in here):
        count, said = _said(one)
        poses.append({"count": count, "said": said, "dancers": _all(one.dancers)})
    told = f"Bar {bar}: {described(floor, bar, says)}"
    drawing = floor_diagram(floor, range(bar, bar + 1), PARTS, lettered(says.phrases, *LARGE), told)
    picture = drawing_svg(drawing) if drawing else ""
    return {"bar": bar, "poses": poses, "told": told, "picture": picture,
            "soles": {part: soles(floor.sizes[part].length) for part in PARTS}}


def _all(dancers: Any) -> dict[str, Any]:
    return {part: stood(dancers[part]) for part in PARTS}


def drawing_svg(drawing: Drawing) -> str:
    """A drawing as a picture of its own."""
    down = drawing.ascent + MARGIN
    items = tuple(_moved(item, MARGIN, down) for item in drawing.items)
    height = drawing.ascent + drawing.descent + 2 * MARGIN
    frame = Frame(drawing.width + 2 * MARGIN, height, items)
    return paint_svg(frame, data_folder("fonts"), "Floor diagram", drawing.alt)


def _moved(item: Item, x: float, y: float) -> Item:
    if isinstance(item, PlacedText):
        return replace(item, x=item.x + x, y=item.y + y)
    if isinstance(item, PlacedShape):
        return replace(item, dx=item.dx + x, dy=item.dy + y)
    return item
