"""The checks: every rule by name, in one explicit list."""
from __future__ import annotations

from notation.dance.checks import (
    bar_long,
    bar_overlap,
    bar_short,
    clash,
    counts_out_of_order,
    coverage,
    derived,
    feet_places,
    feet_run_on,
    figure_turn,
    figures,
    hands,
    held_twice,
    letters,
    manners,
    particulars,
    parts_differ,
    places,
    turns,
    worked_out,
)
from notation.dance.checks.rule import Rule
from notation.dance.finding import Finding, at_most, in_file_order
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked

__all__ = ["RULES", "Rule", "check"]

RULES: tuple[Rule, ...] = (
    bar_short.RULE,
    bar_long.RULE,
    bar_overlap.RULE,
    counts_out_of_order.RULE,
    coverage.MISSING,
    coverage.OVERLAP,
    coverage.BEYOND,
    parts_differ.RULE,
    letters.RULE,
    feet_run_on.STEPS,
    feet_run_on.GESTURES,
    feet_run_on.HOPS,
    feet_run_on.JOIN,
    particulars.RHYTHM,
    particulars.TEMPO,
    particulars.MISSING,
    hands.NAMES,
    held_twice.TWICE,
    derived.RULE,
    figure_turn.FIGURE,
    *feet_places.RULES,
    *turns.RULES,
    *places.RULES,
    clash.OVERLAP,
    *manners.RULES,
    *worked_out.RULES,
    *figures.RULES,
)


def check(worked: Worked, knowledge: Knowledge) -> tuple[Finding, ...]:
    """All that is found in a dance up to a bound, what could not be worked out included, in file order.

    Where a call of a figure cannot be danced, that alone is told of it: the rest follows from it.
    """
    found = list(worked.findings)
    calls = {finding.mark for finding in found if finding.rule.startswith(figures.CALLS)}
    for rule in RULES:
        if rule.check is not None:
            found += (finding for finding in rule.check(worked, knowledge) if finding.mark not in calls)
    return tuple(at_most(in_file_order(found)))
