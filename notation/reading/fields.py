"""Taking expected values out of nodes; what does not fit becomes a finding, and reading goes on."""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from notation.bounds import FINDINGS, NAME, WORD, Bound
from notation.dance.finding import Finding, Severity
from notation.dance.mark import Mark, Said
from notation.dance.suggest import did_you_mean
from notation.reading.nodes import Mapping, Node, Scalar, Sequence, plain_key

FORMAT = "1"
YES, NO = ("yes", "true", "on"), ("no", "false", "off")


def shown(text: str, most: int = 60) -> str:
    """A text as a message quotes it: in one line, cut short."""
    return " ".join(text[: 2 * most].split())[:most]


@dataclass(slots=True)
class Findings:
    """Collects what is found while a file is read, up to a bound."""

    found: list[Finding] = field(default_factory=list)

    @property
    def full(self) -> bool:
        """Whether the bound is met: whoever reads may stop."""
        return len(self.found) > FINDINGS.most

    def error(self, rule: str, mark: Mark, message: str, suggestion: str | None = None) -> None:
        self._add(Finding(rule, Severity.ERROR, mark, message, suggestion))

    def warning(self, rule: str, mark: Mark, message: str, suggestion: str | None = None) -> None:
        self._add(Finding(rule, Severity.WARNING, mark, message, suggestion))

    def note(self, rule: str, mark: Mark, message: str, suggestion: str | None = None) -> None:
        self._add(Finding(rule, Severity.NOTE, mark, message, suggestion))

    def add(self, found: Iterable[Finding]) -> None:
        for finding in found:
            self._add(finding)

    def _add(self, finding: Finding) -> None:
        if len(self.found) < FINDINGS.most:
            self.found.append(finding)
        elif not self.full:
            self.found.append(Finding("too-many-findings", Severity.ERROR, finding.mark, FINDINGS.words))


@dataclass(frozen=True, slots=True)
class Fields:
    """The entries of a mapping by plain key."""

    mark: Mark
    values: dict[str, Node]
    findings: Findings

    @property
    def top(self) -> Mark:
        """The first letter of the file stands for the file as a whole."""
        mark = self.mark
        return Mark(mark.file, mark.line, mark.column, mark.line, mark.column + 1)

    def check_format(self) -> None:
        """A finding where the file says another format than the one that is read."""
        scalar = self.text("format")
        if scalar and scalar.text.strip() != FORMAT:
            message = f"this is format {shown(scalar.text)}; format {FORMAT} is read here"
            self.findings.error("format-unknown", scalar.mark, message, FORMAT)

    def marks(self) -> tuple[tuple[str, Mark], ...]:
        """Where each value was written, by key."""
        return tuple((key, node.mark) for key, node in self.values.items())

    def text(self, key: str, bound: Bound = NAME) -> Scalar | None:
        """The text under the key, without white space around it; None where it is missing, empty or no text."""
        node = self.values.get(key)
        return expect_text(node, key, self.findings, bound) if node is not None else None

    def said(self, key: str) -> Said | None:
        scalar = self.text(key)
        return Said(" ".join(scalar.text.split()), scalar.mark, scalar.quoted) if scalar else None

    def words(self, key: str, bound: Bound = NAME) -> str:
        scalar = self.text(key, bound)
        return scalar.text.strip() if scalar else ""

    def line(self, key: str, bound: Bound = NAME) -> str:
        """The words under the key in one line, each white space a single space."""
        return " ".join(self.words(key, bound).split())

    def number(self, key: str, least: int, most: Bound, unit: str) -> int | None:
        """The whole number under the key, within bounds; None where it is missing or faulty."""
        scalar = self.text(key)
        return expect_number(scalar, key, least, most, unit, self.findings) if scalar else None

    def choice(self, key: str, choices: tuple[str, ...]) -> str | None:
        """The one of a few words that stands under the key; None where it is missing or faulty."""
        scalar = self.text(key)
        return expect_choice(scalar, key, choices, self.findings) if scalar else None

    def switch(self, key: str, otherwise: bool = False) -> bool:
        """Yes or no under the key; `otherwise` where it is missing or faulty."""
        said = self.choice(key, (*YES, *NO))
        return said in YES if said else otherwise

    def texts(self, key: str) -> tuple[Scalar, ...]:
        """One text or a list of them."""
        node = self.values.get(key)
        if node is None:
            return ()
        items: Iterable[Node] = node.items if isinstance(node, Sequence) else (node,)
        found = (expect_text(item, key, self.findings) for item in items)
        return tuple(scalar for scalar in found if scalar)


def expect_fields(node: Node, what: str, known: tuple[str, ...], findings: Findings) -> Fields | None:
    """The entries of a mapping whose keys are all known; unknown keys become findings. None where it is no mapping."""
    if not isinstance(node, Mapping):
        kind = "a list" if isinstance(node, Sequence) else "a text"
        findings.error("not-a-mapping", node.mark, f"{what} must be lines of 'key: value', but this is {kind}")
        return None
    values: dict[str, Node] = {}
    for entry in node.entries:
        key = plain_key(entry.key.text)
        if key in known:
            values[key] = entry.value
        elif not findings.full:
            hint, near = did_you_mean(key, known)
            message = f"unknown key '{shown(entry.key.text)}' in {what}{hint}"
            findings.error("unknown-key", entry.key.mark, message, near)
    return Fields(node.mark, values, findings)


def expect_text(node: Node, what: str, findings: Findings, bound: Bound = NAME) -> Scalar | None:
    """The scalar, where it is one, is not empty and within its bound."""
    if not isinstance(node, Scalar):
        kind = "a list" if isinstance(node, Sequence) else "a mapping"
        findings.error("not-text", node.mark, f"'{what}' must be a text, but this is {kind}")
        return None
    if not node.text.strip():
        findings.error("value-missing", node.mark, f"'{what}' has no value; write one or delete the key")
        return None
    if len(node.text) > bound.most:
        findings.error("text-too-long", node.mark, bound.words)
        return None
    if len(node.text) > WORD.most and any(len(word) > WORD.most for word in node.text.split()):
        findings.error("text-too-long", node.mark, WORD.words)
        return None
    return node


def expect_number(
    scalar: Scalar, what: str, least: int, most: Bound, unit: str, findings: Findings
) -> int | None:
    """A whole number from least to the bound; the unit may be written after it ('16 bars')."""
    text = scalar.text.strip().removesuffix(unit).removesuffix(unit.rstrip("s")).strip()
    if not text.lstrip("+-").isdecimal() or not text.isascii() or len(text) > 12:
        findings.error("not-a-number", scalar.mark, f"'{what}' must be a whole number of {unit}, not '{shown(text)}'")
        return None
    if int(text) < least:
        findings.error("number-too-small", scalar.mark, f"'{what}' is {text}; it must be at least {least} ({unit})")
        return None
    if int(text) > most.most:
        findings.error("number-too-large", scalar.mark, f"'{what}' is {text}: {most.words}")
        return None
    return int(text)


def expect_choice(scalar: Scalar, what: str, choices: tuple[str, ...], findings: Findings) -> str | None:
    """One of a few words, hyphens and spaces being alike."""
    for choice in choices:
        if plain_key(scalar.text) == plain_key(choice):
            return choice
    hint, near = did_you_mean(plain_key(scalar.text), choices)
    message = f"'{what}' is one of {', '.join(choices)}, not '{shown(scalar.text)}'{hint}"
    findings.error("unknown-choice", scalar.mark, message, near)
    return None


def decimal(text: str) -> Fraction | None:
    """A plain decimal number as an exact fraction.

    >>> decimal("42.5")
    Fraction(85, 2)
    """
    whole, _, part = text.partition(".")
    if not (whole + part).isascii() or not whole.isdecimal() or (part and not part.isdecimal()) or len(text) > 12:
        return None
    return Fraction(text)
