"""The rules of the reader: what keeps a file or a line from being read, by name, each with an example."""
from __future__ import annotations

from notation.dance.checks.rule import Rule
from notation.dance.finding import Severity

DANCE = """\
format: 1
title: Example
arranged by: A. Writer
rhythm: waltz
tempo: 30
introduction: 4
length: 1
music: any waltz
start:
  position: closed
  hold: closed
  gent: LF, facing LOD
  lady: RF, backing LOD
sequence:
  - bars: 1
    gent: |
      1  LF fwd
      2  RF side
      3  hold
    lady: opposite
"""


def _rule(name: str, summary: str, why: str, old: str = "", wrong: str = "", right: str | None = None) -> Rule:
    """A rule whose examples are DANCE with `old` replaced; without `old` the wrong file cannot be shown."""
    assert DANCE.count(old) == 1 or not old, name
    shown = DANCE.replace(old, wrong) if old else ""
    return Rule(name, Severity.ERROR, summary, why, shown, DANCE.replace(old, right) if old and right else DANCE)


FIRST, TITLE, MUSIC, BARS = "1  LF fwd", "title: Example", "music: any waltz", "bars: 1"
PART = "    lady: opposite\n"

FILE_RULES = (
    _rule("not-utf-8", "A file that is not UTF-8 text.", "Save it as UTF-8; other codes lose letters."),
    _rule("control-character", "A control character in the file.", "It cannot be seen or printed; delete it."),
    _rule("file-empty", "A file with nothing in it.", "'lodestep new' writes a file to begin with."),
    _rule("file-too-large", "A file larger than is read.", "A dance takes a few thousand bytes; give each a file."),
    _rule("too-many-values", "More values than are read, aliases counted each time.", "Write plain values."),
    _rule("too-many-lines", "More step lines in one part than are read.", "Share them out among several passages."),
    _rule("too-many-passages", "More passages than are read.", "Join bars into passages, or write two dances."),
    _rule("too-many-findings", "More findings than are shown.", "Mend the first ones and read the file again."),
    _rule("text-too-long", "A text beyond its bound.", "It must fit the page; the rest goes under notes."),
    _rule("too-deep", "More levels inside one another than are read.", "A dance needs four.",
          MUSIC, "music: " + "[" * 30 + "]" * 30),
    _rule("tab-indentation", "A tab that indents a line.", "Tabs are wide or narrow as a program likes; use spaces.",
          "  hold: closed", "\thold: closed"),
    _rule("yaml-syntax", "A file whose lines are no keys and values.", "Look at colons, dashes and quotation marks.",
          MUSIC, "music: [any waltz"),
    _rule("tag", "A tag of YAML.", "Every value is plain text here.", MUSIC, "music: !!str any waltz"),
    _rule("alias-unknown", "An alias that names nothing.", "Write the value itself; quote a text that begins with *.",
          MUSIC, "music: *waltz", "music: '*waltz'"),
    _rule("several-documents", "A second document in the file.", "Give each dance a file of its own.",
          "start:", "---\nstart:"),
)
KEY_RULES = (
    _rule("double-key", "A key that stands twice.", "Only one of them could count; keep one.",
          MUSIC, "music: any waltz\nMusic: a slow one"),
    _rule("key-not-text", "A key that is a list or a mapping.", "Keys are words.", MUSIC, "[a, b]: any waltz"),
    _rule("key-missing", "A key that every dance needs.", "The dance cannot be worked out.", TITLE + "\n", ""),
    _rule("unknown-key", "A key that no dance has.", "It would be lost; often it is a slip.", TITLE, "titel: Example"),
    _rule("value-missing", "A key without a value.", "Write the value or delete the key.", MUSIC, "music:"),
    _rule("format-unknown", "A format that is not read.", "Format 1 is read here.", "format: 1", "format: 9"),
    _rule("not-a-mapping", "A text or a list where keys are wanted.", "Write lines of 'key: value'.",
          "  position: closed\n  hold: closed\n  gent: LF, facing LOD\n  lady: RF, backing LOD\n", "  closed\n"),
    _rule("not-a-list", "The sequence is no list.", "Each passage begins with a dash.",
          DANCE[DANCE.index("  - bars") :], "  bars 1\n"),
    _rule("not-text", "A list or a mapping where a text is wanted.", "Write a text.", TITLE, "title: [a, b]"),
    _rule("not-a-number", "Text where a whole number is wanted.", "Write figures.", "length: 1", "length: short"),
    _rule("number-too-small", "A number below its least.", "There is at least one bar.", "length: 1", "length: 0"),
    _rule("number-too-large", "A number beyond its bound.", "A sequence has 16, 24 or 32 bars.",
          "length: 1", "length: 10000"),
    _rule("unknown-choice", "A word that is none of the few allowed.", "The finding lists them.",
          MUSIC, "feet: sideways", "feet: parallel"),
    _rule("metre-unclear", "A metre that cannot be danced.", "Write 3/4, 4/4, 2/4 or 6/8.",
          MUSIC, "metre: 5/0", "metre: 3/4"),
    _rule("tempo-unclear", "A tempo that is no number of bars a minute.", "Write one number or a range.",
          "tempo: 30", "tempo: brisk", "tempo: 28-30"),
)
PASSAGE_RULES = (
    _rule("bars-unclear", "Bars that are no bar or range, or run backwards.", "Write 3 or 3-4; bars count from 1.",
          BARS, "bars: 0"),
    _rule("repeat-and-steps", "A repeat that has steps of its own.", "Delete one of them.",
          PART, PART + "    repeat: 1\n"),
    _rule("repeat-missing", "'on' or 'exchange' without 'repeat'.", "Say which bars are danced again.",
          PART, PART + "    on: opposite feet\n"),
    _rule("head-unclear", "A head line that says no direction.", "Say L, R, fwd, an alignment or 'to partner'.",
          PART, PART + "    head: small\n", PART + "    head: L\n"),
    _rule("lines-run-together", "Step lines that YAML runs together into one.", "An upright stroke keeps them apart.",
          "gent: |", "gent:"),
)
LINE_RULES = (
    _rule("count-missing", "A step line that does not begin with a count.", "Each step says when it is danced.",
          FIRST, "LF fwd"),
    _rule("count-unclear", "A bar and a count together where no derived line is replaced.",
          "Write 'bar 2' on a line of its own.", FIRST, "1.1  LF fwd"),
    _rule("foot-missing", "A step or a stance that names no foot.", "Write LF, RF or both.", FIRST, "1  fwd"),
    _rule("action-missing", "A step that names a foot but not what it does.", "Write fwd, close, point ...",
          FIRST, "1  LF"),
    _rule("foot-and-hold", "'hold', 'clap', 'bow', 'curtsey' or 'turn under' with a foot.", "They move no foot.",
          "3  hold", "3  LF hold"),
    _rule("said-twice", "Something of a step that is said twice.", "Only one of them can be danced.",
          FIRST, "1  LF fwd, facing LOD, facing wall", "1  LF fwd, facing LOD"),
    _rule("bracket-open", "A round bracket without its partner on the same line.", "Brackets hold words to print.",
          FIRST, "1  LF fwd (slowly", "1  LF fwd (slowly)"),
    _rule("unknown-word", "A word that is neither known nor in brackets.", "Often a slip; free words go in brackets.",
          FIRST, "1  LF frwd"),
    _rule("word-out-of-place", "A known word that means nothing where it stands.", "Say the words around it too.",
          FIRST, "1  LF fwd, LOD", "1  LF fwd, facing LOD"),
    _rule("turn-sense-missing", "A turn without L or R.", "A wrong or missing sense is often corrected.",
          FIRST, "1  LF fwd, 1/4 turn", "1  LF fwd, 1/4 turn to L"),
    _rule("turn-unclear", "A turn that does not say how far and which way.", "Say '1/4 L' or 'commence to turn L'.",
          FIRST, "1  LF fwd, turn L", "1  LF fwd, commence to turn L"),
    _rule("turn-not-eighths", "A turn that is no number of eighths, or more than three whole turns.",
          "Alignments stand an eighth of a turn apart.", FIRST, "1  LF fwd, 1/3 L", "1  LF fwd, 3/8 L"),
)
RULES: tuple[Rule, ...] = tuple(
    sorted((*FILE_RULES, *KEY_RULES, *PASSAGE_RULES, *LINE_RULES), key=lambda rule: rule.name)
)
