"""The key that closes a sheet: the drawings and the short words used on it, and no others."""
from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from notation.dance.feet import Foot
from notation.page.content import Drawing, Key, Paragraph, Style
from notation.sheet.footprint import Bearing, Footprint, Movement, footprint
from notation.sheet.sole import Part
from notation.sheet.style import Styles, paragraph
from notation.sheet.wording import Speaker

Entry = tuple[Drawing | Paragraph, Paragraph]
PART_NAMES = {Part.BALL: "ball", Part.HEEL: "heel", Part.INSIDE: "inside", Part.OUTSIDE: "outside"}
ORDER = ("foot", "action", "gesture", "direction", "place", "size", "room", "side", "turn", "footwork", "rise", "body",
         "weight")


def keys(prints: Iterable[Footprint], speaker: Speaker, styles: Styles) -> Iterator[Key]:
    """The keys to those footprints and to the words the speaker has used; none where there is nothing to explain."""
    drawn = tuple(_footprint_entries(set(prints), speaker, styles))
    if drawn:
        yield Key(paragraph(speaker.phrases.key, styles.label), drawn, space_before=1.0)
    words = tuple(_word_entries(speaker, styles))
    if words:
        yield Key(paragraph(speaker.phrases.words_key, styles.label), words, space_before=0.5)


def _word_entries(speaker: Speaker, styles: Styles) -> Iterator[Entry]:
    """Short words that do not explain themselves, as 'touch' for 'touches' does."""
    by_kind = sorted(speaker.used.values(), key=lambda w: (ORDER.index(w.kind) if w.kind in ORDER else len(ORDER)))
    hidden = {(w.short, w.words): None for w in by_kind if w.kind != "place" and not w.words.startswith(w.short)}
    strong = Style(styles.strong.face, styles.small.size)
    for short, words in hidden:
        yield paragraph(short, strong), paragraph(words, styles.small)


def _footprint_entries(prints: set[Footprint], speaker: Speaker, styles: Styles) -> Iterator[Entry]:
    if not prints:
        return
    for shown, name in _samples(prints):
        words = str(getattr(speaker.phrases, f"key_{name}"))
        drawn = replace(footprint(shown, styles.glyph), alt=speaker.phrases.key_drawing)
        yield drawn, paragraph(words, styles.small)


def _samples(prints: set[Footprint]) -> Iterator[tuple[Footprint, str]]:
    """A footprint for each thing to explain, with the name of its words."""
    feet = {p.foot for p in prints}
    names = ((Foot.LEFT, "left"), (Foot.RIGHT, "right"), (Foot.BOTH, "both"))
    yield from ((Footprint(foot), name) for foot, name in names if foot in feet)
    yield from _bearings(prints)
    moves = {p.movement for p in prints} - {Movement.NONE}
    plain = Footprint(Foot.RIGHT)
    for movement in Movement:
        if movement in moves:
            yield _moved(plain, movement), movement.value.replace("-", "_")
    if any(p.turn for p in prints):
        yield Footprint(Foot.RIGHT, -90.0, turn=-2), "turn"


def _bearings(prints: set[Footprint]) -> Iterator[tuple[Footprint, str]]:
    bears = {p.bearing for p in prints}
    parts = {(p.bearing, p.part) for p in prints}
    for part, name in PART_NAMES.items():
        if (Bearing.WEIGHT, part) in parts:
            yield Footprint(Foot.RIGHT, part=part), name
    if Bearing.TOUCH in bears:
        yield Footprint(Foot.RIGHT, bearing=Bearing.TOUCH), "touch"
    for part in (Part.BALL, Part.HEEL):
        if (Bearing.TOUCH, part) in parts:
            yield Footprint(Foot.RIGHT, part=part, bearing=Bearing.TOUCH), f"touch_{PART_NAMES[part]}"
    if Bearing.AIR in bears:
        yield Footprint(Foot.RIGHT, bearing=Bearing.AIR), "air"


def _moved(plain: Footprint, movement: Movement) -> Footprint:
    course = -90.0 if movement is Movement.COURSE else 0.0
    return Footprint(plain.foot, 0.0, movement=movement, course=course)
