"""The reader's rules: what makes a file or a line unreadable, by name, for `lodestep rules`."""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ReadingRule:
    """A rule of the reader. summary: what it finds; wrong: a line that meets it; right: the same mended."""

    name: str
    summary: str
    wrong: str
    right: str


def _row(text: str) -> ReadingRule:
    return ReadingRule(*(part.strip() for part in text.split("|")))


RULES: tuple[ReadingRule, ...] = tuple(
    _row(line)
    for line in r"""
alias-unknown | An alias of YAML that names nothing. | music: *tune | music: any waltz
bars-unclear | Bars that are no bar or range, or run backwards. | bars: 4-3 | bars: 3-4
bracket-open | A round bracket without its partner on the same line. | 1  LF fwd (small | 1  LF fwd (small)
control-character | A control character in the file. | (cannot be shown) | delete it
count-missing | A step line that does not begin with a count. | LF fwd | 1  LF fwd
count-unclear | A bar and a count together where no derived line is replaced. | 2.1  LF fwd | 1  LF fwd
action-missing | A step that names a foot but not what it does. | 1  LF | 1  LF fwd
double-key | A key that stands twice. | title: A, and title: B | title: A
file-empty | A file with nothing in it. | (empty) | lodestep new "My Waltz" --rhythm waltz
file-too-large | A file larger than is read. | (too large) | one dance to a file
foot-and-hold | 'hold', 'clap', 'bow', 'curtsey' or 'turn under' with a foot. | 1  LF hold | 1  hold
foot-missing | A step or a stance that names no foot. | 1  fwd | 1  LF fwd
format-unknown | A format that is not read. | format: 9 | format: 1
head-unclear | A head line that says no direction. | head: small | head: L
key-missing | A key that every dance needs. | (no title) | title: Harbour Bell Waltz
key-not-text | A key that is a list or a mapping. | [a, b]: 1 | notes: 1
metre-unclear | A metre that cannot be danced. | metre: 5/0 | metre: 3/4
not-a-list | The sequence is no list. | sequence: 1-2 | sequence: and below it '- bars: 1-2'
not-a-mapping | A text or a list where keys are wanted. | - a list at the top | title: Harbour Bell Waltz
not-a-number | Text where a whole number is wanted. | length: long | length: 16
not-text | A list or a mapping where a text is wanted. | title: [a, b] | title: a
not-utf-8 | A file that is not UTF-8 text. | (other bytes) | save the file as UTF-8
number-too-large | A number beyond its bound. | length: 10000 | length: 32
number-too-small | A number below its least. | length: 0 | length: 16
repeat-and-steps | A repeat that has steps of its own. | repeat: 1-2, with gent: ... | repeat: 1-2
repeat-missing | 'on' or 'exchange' without 'repeat'. | on: opposite feet | repeat: 1-4, on: opposite feet
said-twice | Something of a step that is said twice. | 1  LF fwd, T, H | 1  LF fwd, HT
several-documents | A second YAML document in the file. | --- in the middle | one dance to a file
tab-indentation | A tab that indents a line. | (a tab) | spaces
tag | A tag of YAML. | title: !!str x | title: x
tempo-unclear | A tempo that is no number of bars a minute. | tempo: fast | tempo: 42
text-too-long | A text beyond its bound. | (a title of 4,000 characters) | the rest under notes
too-deep | More levels inside one another than are read. | [[[[...]]]] | a dance needs four
too-many-lines | More step lines than are read. | (10,000 lines) | several passages
too-many-values | More values than are read, aliases counted each time. | (aliases of aliases) | plain values
turn-not-eighths | A turn that is no number of eighths. | 1  LF fwd, 1/3 L | 1  LF fwd, 3/8 L
turn-sense-missing | A turn without L or R. | 1  LF fwd, 1/4 turn | 1  LF fwd, 1/4 turn to L
turn-unclear | A turn that says neither how far nor which way. | 1  LF fwd, turn L | 1  LF fwd, 1/4 L
unknown-choice | A word that is none of the few allowed. | feet: sideways | feet: parallel
unknown-key | A key that no dance has. | titel: A | title: A
unknown-word | A word that is neither known nor in brackets. | 1  LF frwd | 1  LF fwd
value-missing | A key without a value. | music: | music: any waltz
word-out-of-place | A known word that means nothing where it stands. | 1  LF fwd, LOD | 1  LF fwd, facing LOD
yaml-syntax | A file that is not YAML. | title: [a | title: a
""".strip().splitlines()
)
