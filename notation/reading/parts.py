"""A part of a passage: step lines, a derivation from the partner's, or a call of a library figure."""
from __future__ import annotations

from notation import bounds
from notation.dance.mark import Said
from notation.dance.script import Call, Derivation, Derived, Part, Replacement, Written
from notation.dance.suggest import nearest
from notation.reading.counts import leading_count
from notation.reading.lexing import cut, words_in
from notation.reading.nodes import Scalar
from notation.reading.rows import TextRow
from notation.reading.stepline import Reader, read_line, read_replacement
from notation.reading.words import Lexicon


def read_part(scalar: Scalar, what: str, reader: Reader) -> Part | None:
    """The part a text says; None with a finding where it has too many lines or none. what: its key."""
    rows = tuple(row for row in scalar.rows if row.text.strip() and not row.text.lstrip().startswith("#"))
    if not rows:
        reader.findings.error("value-missing", scalar.mark, "this part has no lines")
        return None
    if len(rows) > bounds.STEP_LINES.most:
        reader.findings.error("too-many-lines", scalar.mark, bounds.STEP_LINES.words)
        return None
    if len(rows[0].text) > bounds.LINE.most:
        reader.findings.error("text-too-long", scalar.mark, bounds.LINE.words)
        return None
    how = _derivation(rows[0], reader)
    steps = how is not None or len(rows) > 1 or is_step_line(rows[0].text, reader.lexicon)
    if scalar.folded and steps:
        message = f"these lines run together into one; write '{what}: |' with an upright stroke before them"
        reader.findings.error("lines-run-together", scalar.mark, message, f"{what}: |")
        return None
    if how is not None:
        return _derived(how, rows[1:], scalar, reader)
    return _written(rows, scalar, reader) if steps else _call(rows[0], scalar, reader)


def _derivation(row: TextRow, reader: Reader) -> Derivation | None:
    """The derivation that a row names; a slip of the fingers in its word is a finding."""
    text = cut(row.text).segments[0].text
    word = text.strip().rstrip(".:").lower()
    how = _named(word, reader.lexicon)
    if how is not None or " " in word:
        return how
    spellings = [w.words for words in reader.lexicon.phrases.values() for w in words if w.kind == "derivation"]
    near = nearest(word, spellings)
    if near is None:
        return None
    begun = len(text) - len(text.lstrip())
    message = f"unknown word '{word}': did you mean '{near}'?"
    reader.findings.error("unknown-word", row.mark(begun, begun + len(text.strip())), message, near)
    return _named(near, reader.lexicon)


def _named(word: str, lexicon: Lexicon) -> Derivation | None:
    named = lexicon.phrases.get((word,), ())
    return next((Derivation(w.name) for w in named if w.kind == "derivation"), None)


def _derived(how: Derivation, rows: tuple[TextRow, ...], scalar: Scalar, reader: Reader) -> Derived:
    read = (read_replacement(row, reader) for row in rows if not reader.findings.full)
    return Derived(how, tuple(Replacement(bar, step) for bar, step in filter(None, read)), scalar.mark)


def _written(rows: tuple[TextRow, ...], scalar: Scalar, reader: Reader) -> Written:
    lines = (read_line(row, reader) for row in rows if not reader.findings.full)
    return Written(tuple(line for line in lines if line is not None), scalar.mark)


def is_step_line(text: str, lexicon: Lexicon) -> bool:
    """Whether a line is a step rather than the name of a figure: it begins with a count, or names a foot and no more
    than known words before its first comma.

    >>> from notation.reading.words import lexicon
    >>> [is_step_line(t, lexicon()) for t in ("1 LF frwd", "LF fwd, T", "natural turn, twice", "RF closed change")]
    [True, True, False, False]
    """
    segment = cut(text).segments[0].text
    leading = leading_count(segment)
    if leading is not None:
        return leading.text[0].isdigit() or leading.text == "&" or _names_foot(segment[leading.after :], lexicon)
    words = segment.split()
    if not words or words[0].lower().rstrip(":.") == "bar":
        return bool(words)
    return _names_foot(segment, lexicon) or (words[0][0] in "&0123456789" and _names_foot(segment[1:], lexicon))


def _names_foot(text: str, lexicon: Lexicon) -> bool:
    """Whether a foot, or what stands in its place, is named among known words only, but for one word before them."""
    words = tuple(words_in(text, lexicon))
    return all(w.known for w in words[1:]) and any(w.named("foot") or w.named("footless") for w in words)


def _call(row: TextRow, scalar: Scalar, reader: Reader) -> Call | None:
    said = tuple(
        Said(s.text.strip(), row.mark(s.start + len(s.text) - len(s.text.lstrip()), s.start + len(s.text.rstrip())))
        for s in cut(row.text).segments
    )
    if not said[0].text:
        reader.findings.error("value-missing", scalar.mark, "this part names no figure")
        return None
    return Call(said[0], tuple(s for s in said[1:] if s.text), scalar.mark)
