"""How a partner begins: 'LF 3rd front, facing DW'."""
from __future__ import annotations

from notation.dance.feet import Foot
from notation.dance.room import Alignment, Mode, Room
from notation.dance.script import Stance
from notation.reading.draft import Draft
from notation.reading.fields import Findings
from notation.reading.headline import report, words_of
from notation.reading.lexing import Lexeme
from notation.reading.nodes import Scalar
from notation.reading.rows import TextRow
from notation.reading.segment import PLACES
from notation.reading.words import Lexicon


def read_stance(scalar: Scalar, lexicon: Lexicon, findings: Findings) -> Stance | None:
    """The stance, or None with a finding where no foot is named."""
    making = Draft()
    for row in scalar.rows:
        _take_row(row, lexicon, making, findings)
    if "foot" not in making.values:
        if not making.guessed:
            message = "name the foot that is free, for example 'LF 3rd front, facing DW'"
            findings.error("foot-missing", scalar.mark, message)
        return None
    return Stance(making.values["foot"], making.place_said(), making.values.get("alignment"), scalar.mark)


def _take_row(row: TextRow, lexicon: Lexicon, making: Draft, findings: Findings) -> None:
    words = words_of(row, lexicon, findings)
    making.guessed = making.guessed or any(word.trouble for word in words)
    at = 0
    while at < len(words):
        at += _take(words, at, making)
    report(tuple(making.troubles), row, findings)
    making.troubles.clear()


def _take(words: tuple[Lexeme, ...], at: int, making: Draft) -> int:
    word, sure = words[at], words[at].trouble is None
    room = words[at + 1].named("room") if at + 1 < len(words) else None
    if (mode := word.named("mode")) and room:
        making.say("alignment", Alignment(Mode(mode), Room[room]), word.start, words[at + 1].end, sure)
        return 2
    if foot := word.named("foot"):
        making.say("foot", Foot(foot), word.start, word.end, sure)
    elif place := word.named("place"):
        making.say("place", PLACES[place], word.start, word.end, sure)
    elif sure:
        message = "only the free foot, its place and the alignment stand here: 'LF 3rd front, facing DW'"
        making.trouble("word-out-of-place", message, (word.start, word.end))
    return 1
