"""Every rule's wrong example is found fault with by that rule and no other; its right example by none."""
import pytest

from notation.dance.checks import RULES, Rule, check
from notation.dance.finding import Finding
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge


def findings(text: str) -> tuple[Finding, ...]:
    knowledge = load_knowledge()
    reading = read_dance(text.encode(), "example.yaml", knowledge)
    assert reading.dance is not None, reading.findings
    return (*reading.findings, *check(work_out(reading.dance, knowledge), knowledge))


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_wrong_example_triggers_its_rule_only(rule: Rule) -> None:
    found = findings(rule.wrong)
    assert {f.rule for f in found} == {rule.name}
    assert all(f.mark.line > 0 for f in found)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_right_example_is_clean(rule: Rule) -> None:
    assert findings(rule.right) == ()


def test_names_are_words_and_stand_once() -> None:
    names = [rule.name for rule in RULES]
    assert len(set(names)) == len(names)
    assert all(name.replace("-", "").isalpha() for name in names)
