"""Dances of the test data and small ones, worked out."""
from pathlib import Path

from notation.dance.checks import check
from notation.dance.finding import Finding
from notation.dance.script import Worked
from notation.dance.step import Step
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.fields import Findings
from notation.reading.knowledge import load_knowledge
from notation.reading.nodes import TextRow
from notation.reading.stepline import Reader, read_line
from notation.reading.words import lexicon

TRADITIONAL = Path(__file__).parent / "traditional"
EXAMPLES = Path(__file__).parent.parent.parent / "examples"


def work(path: Path) -> Worked:
    """The dance of that file worked out; it must read without an error."""
    reading = read_dance(path.read_bytes(), path.name, load_knowledge())
    assert reading.dance is not None and not reading.findings, reading.findings
    return work_out(reading.dance, load_knowledge())


def found(worked: Worked) -> tuple[Finding, ...]:
    return check(worked, load_knowledge())


def steps(text: str) -> tuple[Step, ...]:
    """Step lines, each of which must read without a finding."""
    findings = Findings()
    reader = Reader(lexicon(), findings)
    made = tuple(read_line(TextRow(row, "steps", n, 1), reader) for n, row in enumerate(text.strip().splitlines(), 1))
    assert not findings.found, findings.found
    return tuple(step for step in made if isinstance(step, Step))
