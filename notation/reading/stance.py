"""How a partner begins: 'LF 3rd front, facing DW'."""
from __future__ import annotations

from notation.dance.feet import Foot
from notation.dance.script import Stance
from notation.reading import draft
from notation.reading.draft import Draft
from notation.reading.fields import Findings
from notation.reading.headline import words_of
from notation.reading.lexing import Lexeme
from notation.reading.nodes import Scalar
from notation.reading.words import Lexicon


def read_stance(scalar: Scalar, lexicon: Lexicon, findings: Findings) -> Stance | None:
    """The stance, or None with a finding where no foot is named."""
    words = words_of(scalar.rows[0], lexicon, findings)
    making = Draft(findings)
    at = 0
    while at < len(words):
        at += _take(words, at, making)
    if "foot" not in making.values:
        findings.error("foot-missing", scalar.mark, "name the foot that is free, for example 'LF 3rd front, facing DW'")
        return None
    return Stance(making.values["foot"], making.place_said(), making.values.get("alignment"), scalar.mark)


def _take(words: tuple[Lexeme, ...], at: int, making: Draft) -> int:
    word = words[at]
    room = words[at + 1].named("room") if at + 1 < len(words) else None
    if (mode := word.named("mode")) and room:
        making.say("alignment", draft.alignment(mode, room), word.mark)
        return 2
    if foot := word.named("foot"):
        making.say("foot", Foot(foot), word.mark)
    elif place := word.named("place"):
        making.say_place(place, word.mark)
    else:
        message = "only the free foot, its place and the alignment stand here: 'LF 3rd front, facing DW'"
        making.findings.error("word-out-of-place", word.mark, message)
    return 1
