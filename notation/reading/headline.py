"""Head lines and alignments in words: 'L', 'fwd', 'DC', 'to partner', 'over LF'; 'facing DW'."""
from __future__ import annotations

from notation.dance.feet import Foot
from notation.dance.mark import Mark
from notation.dance.room import Room, Side
from notation.dance.step import HeadLine
from notation.reading.fields import Findings
from notation.reading.lexing import Lexeme, cut, lexemes
from notation.reading.nodes import Scalar, TextRow
from notation.reading.words import Lexicon


def head_of(found: tuple[Lexeme, ...], mark: Mark, findings: Findings) -> HeadLine | None:
    """The head line that these words say; a finding where they say none."""
    first = found[0] if found else None
    if first is not None:
        if first.named("head") == "over" and len(found) == 2 and (foot := found[1].named("foot")):
            return HeadLine(over=Foot(foot))
        if len(found) == 1 and (line := _single(first)):
            return line
    message = "the head line is not clear; say L, R, fwd, an alignment such as DC, 'to partner' or 'over LF'"
    findings.error("head-unclear", mark, message)
    return None


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
    row = scalar.rows[0]
    return head_of(words_of(row, lexicon, findings), scalar.mark, findings)


def words_of(row: TextRow, lexicon: Lexicon, findings: Findings) -> tuple[Lexeme, ...]:
    """All words of a row that has no count, its segments joined."""
    line = cut(row, findings)
    return tuple(w for segment in line.segments for w in lexemes(segment, row, lexicon, findings))
