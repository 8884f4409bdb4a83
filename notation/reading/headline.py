"""Head lines in words: 'L', 'fwd', 'DC', 'to partner', 'over LF'."""
from __future__ import annotations

from notation.dance.feet import Foot
from notation.dance.room import Room, Side
from notation.dance.step import HeadLine
from notation.reading.fields import Findings
from notation.reading.lexing import Lexeme, Trouble, cut, lexemes
from notation.reading.nodes import Scalar
from notation.reading.rows import TextRow
from notation.reading.words import Lexicon

HEAD_UNCLEAR = "the head line is not clear; say L, R, fwd, an alignment such as DC, 'to partner' or 'over LF'"


def head_line(found: tuple[Lexeme, ...]) -> HeadLine | None:
    """The head line that these words say, or None."""
    if len(found) == 2 and found[0].named("head") == "over" and (foot := found[1].named("foot")):
        return HeadLine(over=Foot(foot))
    if len(found) == 2 and any(found[0].named(kind) for kind in ("joined", "mode", "travel")):
        found = found[1:]
    return _single(found[0]) if len(found) == 1 else None


def _single(word: Lexeme) -> HeadLine | None:
    if side := word.named("side"):
        return HeadLine(side=Side[side])
    if room := word.named("room"):
        return HeadLine(room=Room[room])
    if (name := word.named("head")) in ("partner", "forward"):
        return HeadLine(words=name)
    return None


def read_head(scalar: Scalar, lexicon: Lexicon, findings: Findings) -> HeadLine | None:
    """A head line that stands by itself. In quotation marks it is printed as it stands."""
    if scalar.quoted:
        return HeadLine(words=scalar.text.strip())
    words = tuple(word for row in scalar.rows for word in words_of(row, lexicon, findings))
    head = head_line(words)
    if head is None and not any(word.trouble for word in words):
        findings.error("head-unclear", scalar.mark, HEAD_UNCLEAR)
    return head


def words_of(row: TextRow, lexicon: Lexicon, findings: Findings) -> tuple[Lexeme, ...]:
    """All words of a row that has no count, its segments joined; places are those of the row."""
    line = cut(row.text)
    text = " ".join(segment.text for segment in line.segments)
    words = lexemes(text, lexicon)
    report((*line.troubles, *(word.trouble for word in words if word.trouble)), row, findings)
    return words


def report(troubles: tuple[Trouble, ...], row: TextRow, findings: Findings) -> None:
    """Findings of what is wrong in a row."""
    for trouble in troubles:
        findings.error(trouble.rule, row.mark(trouble.start, trouble.end), trouble.message, trouble.suggestion)
