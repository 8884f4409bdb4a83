"""The parts of a figure: its step lines, how each partner begins and ends, and how far each turns."""
from __future__ import annotations

import re
from dataclasses import replace

from notation import bounds
from notation.dance.feet import Foot, TurnOut
from notation.dance.figure import FigurePart
from notation.dance.partner import partner_head, partner_steps
from notation.dance.room import Alignment, Mode
from notation.dance.script import GENT, LADY, Derivation, Replacement, Stance
from notation.dance.step import BarLine, HeadLine, Step
from notation.reading.fields import Fields
from notation.reading.headline import read_head
from notation.reading.nodes import Mapping, Node, Scalar
from notation.reading.stance import read_stance
from notation.reading.stepline import Reader, read_line, read_replacement

TURN = re.compile(r"(?:(\d+)/([1248])|(\d+)) (?:turns? )?(?:to )?([LR])", re.IGNORECASE)
NO_TURN = "no turn"
FEET = {"LF": Foot.LEFT, "RF": Foot.RIGHT, "none": None}
MODES = {Mode.FACING: Mode.BACKING, Mode.BACKING: Mode.FACING}


def read_steps(fields: Fields, reader: Reader) -> FigurePart | None:
    """What the gent does, or both where the figure has 'steps'; None with a finding where there are none."""
    key = "steps" if "steps" in fields.values else "gent"
    lines = _lines(fields, key, reader)
    if not lines:
        fields.findings.error("key-missing", fields.mark, "the figure has neither 'steps' nor 'gent' with step lines")
    return _part(fields, GENT, lines, None, reader) if lines else None


def read_lady(fields: Fields, gent: FigurePart, out: TurnOut, reader: Reader) -> FigurePart | None:
    """The lady's part: written, or derived where 'lady' names how; None where both dance the same steps."""
    scalar = fields.text("lady", bounds.SCALAR)
    if "steps" in fields.values or scalar is None:
        return None
    words = {how.value: how for how in Derivation}
    how = words.get(scalar.text.strip().lower())
    if how is None:
        return _part(fields, LADY, _lines(fields, "lady", reader), None, reader)
    return _part(fields, LADY, opposed_part(gent, how, out).lines, opposed_part(gent, how, out), reader)


def opposed_part(gent: FigurePart, how: Derivation, out: TurnOut) -> FigurePart:
    """The part that follows from the gent's."""
    steps = iter(partner_steps(tuple(line for line in gent.lines if isinstance(line, Step)), how, LADY, out))
    lines = tuple(line if isinstance(line, BarLine) else next(steps) for line in gent.lines)
    turn = -gent.turn if how is Derivation.MIRROR else gent.turn
    same = how is Derivation.SAME
    free = gent.free if same or gent.free is None else gent.free.other
    return FigurePart(lines, opposed_stance(gent.start, how), turn, free, partner_head(gent.head, how))


def opposed_stance(stance: Stance, how: Derivation) -> Stance:
    """How the partner begins."""
    aligned = stance.alignment
    if how is Derivation.SAME:
        return stance
    if aligned is not None and how is Derivation.MIRROR:
        aligned = replace(aligned, room=aligned.room.mirrored)
    elif aligned is not None:
        aligned = Alignment(MODES.get(aligned.mode, aligned.mode), aligned.room)
    return replace(stance, foot=stance.foot.other, alignment=aligned)


def _lines(fields: Fields, key: str, reader: Reader) -> tuple[Step | BarLine, ...]:
    scalar = fields.text(key, bounds.SCALAR)
    read = (read_line(row, reader) for row in scalar.rows) if scalar else ()
    return tuple(line for line in read if line is not None)


def _part(
    fields: Fields, part: str, lines: tuple[Step | BarLine, ...], derived: FigurePart | None, reader: Reader
) -> FigurePart | None:
    """One part; what is not said of it is taken from the derived one, if any."""
    stance = _stance(_for(fields, "start", part, derived is None), derived, reader)
    if stance is None:
        fields.findings.error("foot-missing", fields.mark, f"say how the {part} starts: 'start: RF, facing LOD'")
        return None
    turn = _turn(_for(fields, "turn", part, derived is None), derived, reader)
    free = _free(_for(fields, "free", part, derived is None), derived, reader)
    head = _head(_for(fields, "head", part, derived is None), derived, reader)
    return FigurePart(lines, stance, turn, free, head)


def _for(fields: Fields, key: str, part: str, plain: bool) -> Scalar | None:
    """The text said for that partner; one said without a partner is the gent's, and hers where she has no other."""
    node = fields.values.get(key)
    if isinstance(node, Mapping):
        node = next((entry.value for entry in node.entries if entry.key.text == part), None)
    elif part == LADY and not plain:
        node = None
    return node if isinstance(node, Scalar) else None


def _stance(scalar: Scalar | None, derived: FigurePart | None, reader: Reader) -> Stance | None:
    if scalar is None:
        return derived.start if derived else None
    return read_stance(scalar, reader.lexicon, reader.findings)


def _turn(scalar: Scalar | None, derived: FigurePart | None, reader: Reader) -> int:
    """Eighths to the left of '3/4 R', '1 turn L' or 'no turn'."""
    if scalar is None:
        return derived.turn if derived else 0
    found = TURN.fullmatch(scalar.text.strip())
    if found:
        eighths = int(found[3]) * 8 if found[3] else int(found[1]) * 8 // int(found[2])
        return eighths if found[4].upper() == "L" else -eighths
    if scalar.text.strip().lower() != NO_TURN:
        reader.findings.error("turn-unclear", scalar.mark, "the turn of a figure is said like '3/4 R' or 'no turn'")
    return 0


def _free(scalar: Scalar | None, derived: FigurePart | None, reader: Reader) -> Foot | None:
    if scalar is None:
        return derived.free if derived else None
    if scalar.text.strip() not in FEET:
        reader.findings.error("foot-missing", scalar.mark, "the foot free at the end is LF, RF or none")
    return FEET.get(scalar.text.strip())


def _head(scalar: Scalar | None, derived: FigurePart | None, reader: Reader) -> HeadLine | None:
    if scalar is None:
        return derived.head if derived else None
    return read_head(scalar, reader.lexicon, reader.findings)


def replacements(node: Node | None, reader: Reader) -> tuple[Replacement, ...]:
    """The lines of a variant."""
    rows = node.rows if isinstance(node, Scalar) else ()
    read = (read_replacement(row, reader) for row in rows if row.text.strip())
    return tuple(Replacement(bar, step) for bar, step in filter(None, read))


def read_head_of(fields: Fields, part: str, reader: Reader) -> HeadLine | None:
    """The head line of that partner all through the figure."""
    return _head(_for(fields, "head", part, True), None, reader)
