"""The rules of files that are no dances: layouts, programmes, books, entries; and of what can be done with a file."""
from __future__ import annotations

from notation.dance.checks.rule import Rule
from notation.dance.finding import Severity


def _told(name: str, summary: str, why: str, severity: Severity = Severity.ERROR) -> Rule:
    """A rule that is told of without an example: a dance cannot show it."""
    return Rule(name, severity, summary, why, "", "")


LAYOUT_RULES = (
    _told("unknown-layout", "A layout that there is not.", "'lodestep layouts' lists them."),
    _told("no-columns", "A layout without columns.", "Name at least one of those that the finding lists."),
    _told("number-out-of-range", "A size, margin or grey beyond what can be printed or read.",
          "The finding says from where to where."),
    _told("order-incomplete", "An order of a step's parts that leaves some out.",
          "What is not in the order would be lost on the sheet."),
    _told("layout-template", "A line of a layout that cannot be filled in.",
          "Plain names in braces do for most lines; the finding says what is not for templates."),
    _told("page-too-small", "A paper that cannot hold the columns.", "Take larger paper or fewer columns."),
)
PROGRAMME_RULES = (
    _told("dance-missing", "A line of a programme that names no dance.",
          "Without a file, say what the dance is called and how long it lasts."),
    _told("interval-and-dance", "An interval that is said to be danced.", "Give each a line of its own."),
    _told("duration-unclear", "A length of time that is none.", "Write 20 min, 90 s or 3:10."),
    _told("time-unclear", "A time of day that is none.", "Write 19:30."),
    _told("too-many-items", "More lines than a programme may have.", "An evening has some thirty."),
    _told("tempo-taken", "A dance with a range of tempi.", "The evening is timed at the middle of it.", Severity.NOTE),
    _told("running-time-unknown", "A dance that cannot be timed.", "Give it a tempo, or say how long it lasts."),
    _told("dance-outside", "A dance outside the folder of the file that names it.",
          "A file that was sent to you could have others read; copy the dance beside it."),
    _told("dance-unusable", "A dance that cannot be worked out.", "'lodestep check' says what is wrong with it."),
    _told("dance-faulty", "A dance in which something cannot be danced.", "'lodestep check' says what.",
          Severity.WARNING),
)
BOOK_RULES = (
    _told("not-a-book", "A dance in place of a book.", "A book lists the files of its dances."),
    _told("book-empty", "A book without dances.", "Name dances, or mend those that have errors."),
    _told("file-missing", "A file that a book names and that is not there.", "Look at its name and folder."),
    _told("file-outside", "A file outside the folder of the book that names it.",
          "Nothing outside a book's folder is read: a book can be handed on with its folder."),
    _told("picture-unusable", "A picture that cannot be printed.", "PNG and JPEG can be."),
    _told("too-many-dances", "More dances than one book takes.", "Make several books."),
)
ENTRY_RULES = (
    _told("date-unclear", "A closing date that is no day.", "Write 2027-03-31 or 31 March 2027."),
    _told("rhythm-unknown", "A rhythm in the rules of a competition that the table has not.",
          "'lodestep terms' lists them."),
    _told("entry-rule-not-met", "A rule of the competition that an entry does not meet.",
          "The checklist says what is asked and what is there; --draft writes the entry all the same."),
    _told("entry-name-told", "Words that give the arranger away to the judges.",
          "Say it otherwise; --allow-word where the word is no name there."),
    _told("entry-received", "An entry that is not as it was made, or not all there.",
          "Ask for it again; what is wrong with it is said."),
)
COMMAND_RULES = (
    _told("language-unknown", "A language that no words are there for.", "The finding lists those that are."),
    _told("layout-unknown", "A layout of a book that there is not.", "'lodestep layouts' lists them."),
    _told("paper-unknown", "A paper that there is not.", "A3 to A7, Letter or Legal."),
    _told("file-unreadable", "A file that is not there or cannot be read.", "Look at its name and folder."),
    _told("output", "A file that cannot be written.", "What stood there is as it was."),
)
OTHER_RULES: tuple[Rule, ...] = tuple(
    sorted((*LAYOUT_RULES, *PROGRAMME_RULES, *BOOK_RULES, *ENTRY_RULES, *COMMAND_RULES), key=lambda rule: rule.name)
)
