"""The particulars of a dance: a known rhythm, a usual tempo, nothing missing."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.rule import EVEN_BAR, Rule, example
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.running import tempo_words
from notation.dance.script import Worked
from notation.dance.suggest import did_you_mean


def check_rhythm(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    dance = worked.dance
    if dance.rhythm_said is None or dance.rhythm is not None:
        return
    names = [name for r in knowledge.rhythms for name in (r.name, *r.also)]
    hint, near = did_you_mean(dance.rhythm_said.text, names)
    hint = hint or "; 'lodestep terms' lists the rhythms"
    metre = "" if dance.metre else " Without it the metre is not known: write 'metre: 3/4'."
    message = f"unknown rhythm '{dance.rhythm_said.text}'{hint}{metre}"
    severity = Severity.WARNING if dance.metre else Severity.ERROR
    yield RHYTHM.at(dance.rhythm_said.mark, message, suggestion=near, severity=severity)


def check_tempo(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    dance = worked.dance
    usual = dance.rhythm.tempo if dance.rhythm else None
    if usual is None or dance.tempo is None:
        return
    if dance.tempo.least < usual.least or dance.tempo.most > usual.most:
        assert dance.rhythm is not None
        message = (
            f"{tempo_words(dance.tempo)} bars a minute is unusual for a {dance.rhythm.name};"
            f" {tempo_words(usual)} is usual ({dance.rhythm.source})"
        )
        yield TEMPO.at(dance.mark_of("tempo"), message, suggestion=tempo_words(usual))


def check_missing(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    dance = worked.dance
    wanted = {
        "arranged by": bool(dance.arrangers),
        "rhythm": dance.rhythm_said is not None,
        "tempo": dance.tempo is not None or "tempo" in dict(dance.marks),
        "introduction": dance.introduction is not None or "introduction" in dict(dance.marks),
        "start": dance.start.gent is not None or dance.start.lady is not None or "start" in dict(dance.marks),
    }
    for key, there in wanted.items():
        if not there:
            yield MISSING.at(dance.mark, f"the sheet will lack '{key}'; write a line '{key}: ...' at the top")


RHYTHM = Rule(
    "unknown-rhythm",
    Severity.ERROR,
    "The rhythm is not in the table.",
    "The rhythm gives the metre and the usual tempo. With a metre of its own a dance may have any rhythm, and this is"
    " only a warning.",
    example(EVEN_BAR, rhythm="watlz"),
    example(EVEN_BAR),
    check_rhythm,
)
TEMPO = Rule(
    "tempo-unusual",
    Severity.WARNING,
    "The tempo is outside the usual range for the rhythm.",
    "Often beats a minute were written for bars a minute.",
    example(EVEN_BAR, tempo="90"),
    example(EVEN_BAR, tempo="29-31"),
    check_tempo,
)
MISSING = Rule(
    "particulars-missing",
    Severity.WARNING,
    "A particular that belongs on every sheet is missing.",
    "Pupils and organisers look for arranger, rhythm, tempo, introduction and start at the head of the sheet.",
    example(EVEN_BAR).replace("arranged by: A. Writer\n", ""),
    example(EVEN_BAR),
    check_missing,
)
