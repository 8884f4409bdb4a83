"""A document as stable text, a line an item, for tests and for looking at a layout without painting it."""
from __future__ import annotations

from collections.abc import Iterator

from notation.page.frame import (
    Anchor,
    Artifact,
    Document,
    Element,
    Item,
    PlacedLink,
    PlacedPicture,
    PlacedShape,
    PlacedText,
    Tag,
)
from notation.plane import Rect


def _number(value: float) -> str:
    """Two places, none of them needless.

    >>> _number(12.50), _number(-0.001)
    ('12.5', '0')
    """
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def _tag(tag: Tag) -> str:
    return tag.value if isinstance(tag, Artifact) else f"#{tag}"


def _box(box: Rect) -> str:
    return " ".join(map(_number, (box.x0, box.y0, box.x1, box.y1)))


def trace_item(item: Item) -> str:
    """One item: what it is, where it stands in points, what it belongs to."""
    match item:
        case PlacedText():
            style = f"{item.face} {_number(item.size)}"
            return f"text {_number(item.x)} {_number(item.y)} {style} {_tag(item.tag)} {item.text!r}"
        case PlacedShape():
            return f"shape {_box(item.bounds)} fill={item.fill} stroke={item.stroke} {_tag(item.tag)}"
        case PlacedPicture():
            return f"picture {_box(item.box)} {len(item.data)} bytes {_tag(item.tag)}"
        case PlacedLink():
            return f"link {_box(item.box)} {item.target} {_tag(item.tag)}"
        case Anchor():
            return f"anchor {_number(item.at.x)} {_number(item.at.y)} {item.name}"


def _element(element: Element, depth: int) -> str:
    words = [f"{'  ' * depth}#{element.key} {element.kind}"]
    words += [f"alt={element.alt!r}"] * bool(element.alt) + [f"scope={element.scope}"] * bool(element.scope)
    words += [f"columns={element.columns}"] * (element.columns != 1)
    return " ".join(words)


def trace_elements(document: Document) -> Iterator[str]:
    """The structure tree, children indented under their parents."""
    depth: dict[int | None, int] = {None: -1}
    for element in document.elements:
        depth[element.key] = depth[element.parent] + 1
        yield _element(element, depth[element.key])


def trace(document: Document) -> str:
    """Pages with their items, the structure tree, the outline."""
    lines: list[str] = []
    for page in document.pages:
        lines.append(f"page {page.label} {_number(page.width)} {_number(page.height)}")
        lines.extend("  " + trace_item(item) for item in page.items)
    lines.extend(trace_elements(document))
    lines.extend(f"outline {'  ' * entry.level}{entry.text} -> {entry.anchor}" for entry in document.outline)
    return "\n".join(lines) + "\n"
