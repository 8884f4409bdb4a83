"""What a rule is: its name, what it finds, why that matters, and an example of each kind."""
from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.script import Worked

Check = Callable[[Worked, Knowledge], Iterable[Finding]]


@dataclass(frozen=True, slots=True)
class Rule:
    """A named rule.

    summary: what it finds, in one line. why: why that matters and what to do. wrong, right: whole dance files, one that
    it finds fault with and one that it does not. check: None for what is found while reading or working out.
    """

    name: str
    severity: Severity
    summary: str
    why: str
    wrong: str
    right: str
    check: Check | None = None

    def at(
        self,
        mark: Mark,
        message: str,
        *,
        suggestion: str | None = None,
        bar: int | None = None,
        count: str | None = None,
        part: str | None = None,
        severity: Severity | None = None,
    ) -> Finding:
        """A finding of this rule."""
        return Finding(self.name, severity or self.severity, mark, message, suggestion, bar, count, part)


HEADING = """\
format: 1
title: Example
arranged by: A. Writer
rhythm: {rhythm}
tempo: {tempo}
introduction: 4
length: {length}
start:
  position: closed
  hold: closed
  gent: LF, facing LOD
  lady: RF, backing LOD
sequence:
"""


def example(sequence: str, length: int = 1, rhythm: str = "waltz", tempo: str = "30") -> str:
    """A whole dance file around a sequence, whose text is indented already."""
    return HEADING.format(rhythm=rhythm, tempo=tempo, length=length) + sequence


def passage(bars: str, *gent: str, lady: str = "opposite") -> str:
    """A passage of an example: the gent's lines, and the lady's part."""
    lines = "".join(f"      {line}\n" for line in gent)
    return f"  - bars: {bars}\n    gent: |\n{lines}    lady: {lady}\n"


TWO_BARS = ("1  LF fwd", "2  RF side", "3  LF close", "1  RF back", "2  LF side", "3  RF close")
"""Lines of two bars of waltz after which the free foot is that of their beginning."""

EVEN_BAR = passage("1", "1  LF fwd", "2  RF side", "3  hold")
"""A bar of waltz after which the free foot is that of its beginning."""
