"""Letters that no face has, as findings: named, and where they stand in the source."""
from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence

from notation.dance.finding import Finding, Severity
from notation.dance.mark import Mark

RULE = "letter-missing"


def missing_letters(missing: Iterable[str], lines: Sequence[str], file: str) -> tuple[Finding, ...]:
    """A warning for each letter that was drawn as a box, at its first place in the file's lines."""
    return tuple(_finding(letter, lines, file) for letter in sorted(missing))


def _finding(letter: str, lines: Sequence[str], file: str) -> Finding:
    name = unicodedata.name(letter, "a letter without a name").lower()
    message = (
        f"none of the fonts has the letter U+{ord(letter):04X} ({name}); an empty box stands for it on the sheet; "
        "write it in other letters"
    )
    return Finding(RULE, Severity.WARNING, _place(letter, lines, file), message)


def _place(letter: str, lines: Sequence[str], file: str) -> Mark:
    for number, line in enumerate(lines, 1):
        column = line.find(letter) + 1
        if column:
            return Mark(file, number, column, number, column + 1)
    return Mark(file, 1, 1, 1, 1)
