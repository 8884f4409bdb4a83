"""What is found while a dance is worked out: parts that are missing, do not fit or cannot be repeated."""
from __future__ import annotations

from notation.dance.checks.rule import EVEN_BAR, TWO_BARS, Rule, example, passage
from notation.dance.finding import Severity

_RIGHT = example(EVEN_BAR)
_REPEAT = "  - bars: {bars}\n    repeat: {of}\n"

PART_MISSING = Rule(
    "part-missing",
    Severity.ERROR,
    "A passage has steps for one partner only.",
    "Both partners dance every bar. Write the steps, or 'opposite', 'mirror' or 'same'.",
    example(EVEN_BAR.replace("    lady: opposite\n", "")),
    _RIGHT,
)
EACH_OTHER = Rule(
    "parts-derive-each-other",
    Severity.ERROR,
    "Each partner's part is said to follow from the other's.",
    "One of them has to be written out.",
    example("  - bars: 1\n    gent: opposite\n    lady: opposite\n"),
    _RIGHT,
)
UNMATCHED = Rule(
    "replacement-unmatched",
    Severity.ERROR,
    "A line under 'opposite', 'mirror' or 'same' matches no single step of the partner.",
    "Such a line replaces the derived step at the same bar of the passage and the same count.",
    example(EVEN_BAR.replace("opposite", "|\n      opposite\n      1.4  LF side")),
    example(EVEN_BAR.replace("opposite", "|\n      opposite\n      1.2  LF side, small")),
)
REPEAT_EARLY = Rule(
    "repeat-not-danced",
    Severity.ERROR,
    "A repeat of bars that have not been danced before.",
    "Only bars that stand above can be danced again.",
    example(EVEN_BAR + _REPEAT.format(bars="2", of="3"), length=2),
    example(EVEN_BAR + _REPEAT.format(bars="2", of="1"), length=2),
)
REPEAT_FIT = Rule(
    "repeat-does-not-fit",
    Severity.ERROR,
    "A repeat whose bars do not fill the passage.",
    "Four bars can be repeated in four bars, or twice in eight.",
    example(
        passage("1-2", *TWO_BARS) + _REPEAT.format(bars="3-5", of="1-2"),
        length=5,
    ),
    example(EVEN_BAR + _REPEAT.format(bars="2-3", of="1"), length=3),
)
_QUICK = passage("1", *(f"{count}  {foot} in place" for count, foot in zip("1&2&3&", ("LF", "RF") * 3, strict=True)))
TOO_MANY = Rule(
    "too-many-steps",
    Severity.ERROR,
    "More steps than are worked out, repeats danced.",
    "A dance of 32 bars has some two hundred for both partners; a mistake in a repeat soon makes thousands.",
    example(_QUICK + _REPEAT.format(bars="2-128", of="1"), length=128),
    example(_QUICK + _REPEAT.format(bars="2-8", of="1"), length=8),
)
RULES = (PART_MISSING, EACH_OTHER, UNMATCHED, REPEAT_EARLY, REPEAT_FIT, TOO_MANY)
