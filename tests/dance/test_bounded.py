"""What is worked out and told stays within the bounds, and says so in their own words (values of our own)."""
import pytest

from notation.bounds import FINDINGS, STEPS
from notation.dance.checks import check, worked_out
from notation.dance.finding import Finding, Severity, at_most
from notation.dance.mark import Mark
from notation.dance.script import Worked
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge


def worked(source: str) -> Worked:
    reading = read_dance(source.encode(), "d.yaml", load_knowledge())
    assert reading.dance is not None
    return work_out(reading.dance, load_knowledge())


def finding(line: int, severity: Severity) -> Finding:
    return Finding("bar-short", severity, Mark("d.yaml", line, 1, line, 2), f"line {line}")


def test_a_repeat_cannot_make_more_steps_than_the_bound() -> None:
    """128 bars of six steps for each partner would be 1,536; what stands before them is worked out."""
    dance = worked(worked_out.TOO_MANY.wrong)
    assert sum(len(p.gent) + len(p.lady) for p in dance.passages) <= STEPS.most
    assert [(f.rule, f.message) for f in dance.findings] == [("too-many-steps", STEPS.words)]
    assert len(worked(worked_out.TOO_MANY.right).passages) == 8


def test_a_dance_full_of_faults_has_as_many_findings_as_are_shown() -> None:
    """Each of 256 steps of the gent and 256 of the lady is one foot twice running."""
    bar = "    gent: |\n      1  LF fwd\n      3  LF fwd\n    lady: opposite\n"
    head, _ = worked_out.PART_MISSING.right.split("sequence:\n")
    source = f"{head}sequence:\n" + "".join(f"  - bars: {n}\n{bar}" for n in range(1, 129))
    found = check(worked(source.replace("length: 1", "length: 128")), load_knowledge())
    assert len(found) == FINDINGS.most + 1
    assert (found[-1].rule, found[-1].message) == ("too-many-findings", FINDINGS.words)


NOTE, WARNING, ERROR = Severity.NOTE, Severity.WARNING, Severity.ERROR


@pytest.mark.parametrize("others", [(NOTE,), (WARNING, NOTE), (NOTE, ERROR)])
def test_what_is_not_shown_is_as_grave_as_the_gravest_of_it(others: tuple[Severity, ...]) -> None:
    """A dance whose errors all come late still has errors; one with many notes has none."""
    findings = [finding(n, NOTE) for n in range(FINDINGS.most)]
    late = [finding(1000 + n, severity) for n, severity in enumerate(others)]
    expected = next(s for s in Severity if s in others)
    assert at_most(findings) == findings
    assert at_most(findings + late)[-1].severity is expected
