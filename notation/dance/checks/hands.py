"""Holds and positions by name, and hands that would be needed twice."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.rule import EVEN_BAR, Rule, example
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Said
from notation.dance.naming import named, nearest_row
from notation.dance.script import PARTS, Worked


def said_names(worked: Worked) -> Iterator[tuple[str, Said, int | None]]:
    """Every position and hold that the file names, with its bar."""
    start = worked.dance.start
    yield from ((kind, said, None) for kind, said in (("position", start.position), ("hold", start.hold)) if said)
    for p in worked.dance.passages:
        yield from ((kind, said, p.first) for kind, said in (("position", p.position), ("hold", p.hold)) if said)
    for passage in worked.passages:
        for part in PARTS:
            for d in passage.part(part):
                said = (("position", d.step.position), ("hold", d.step.hold))
                yield from ((kind, words, d.bar) for kind, words in said if words)


def check_names(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    seen = set()
    for kind, said, bar in said_names(worked):
        known = named(said, knowledge.positions) if kind == "position" else named(said, knowledge.holds)
        like = nearest_row(said, knowledge.positions if kind == "position" else knowledge.holds)
        if said.free or like is None or known is not None or said.mark in seen:
            continue
        seen.add(said.mark)
        message = f"the table of {kind}s has no '{said.text}': did you mean '{like}'? Own words go in quotation marks"
        yield NAMES.at(said.mark, message, suggestion=like, bar=bar)


NAMES = Rule(
    "unknown-position-or-hold",
    Severity.WARNING,
    "A position or hold that is nearly the name of one in the tables.",
    "Only a known position or hold can be checked and drawn. Words of your own are printed as they stand: put them in"
    " quotation marks.",
    example(EVEN_BAR.replace("    gent", "    hold: duoble\n    gent")),
    example(EVEN_BAR.replace("    gent", "    hold: double\n    gent")),
    check_names,
)
