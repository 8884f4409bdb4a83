"""The bounds of what is read and made, all in one place, each with the words that name it when it is met.

No file, however strange, may take all memory or time: what comes from a user or a stranger is held to these.
"""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Bound:
    """most: the greatest value allowed. message: for the writer; '{most}' is filled in."""

    most: int
    message: str

    @property
    def words(self) -> str:
        return self.message.format(most=f"{self.most:,}")


FILE_BYTES = Bound(300_000, "the file is larger than {most} bytes; a dance takes a few thousand")
DEPTH = Bound(20, "more than {most} levels inside one another; a dance needs four")
VALUES = Bound(20_000, "more than {most} values in one file (aliases counted each time); split it")
SCALAR = Bound(30_000, "one text of more than {most} characters; shorten it")
WORD = Bound(300, "a word of more than {most} letters; put spaces between the words")
LINE = Bound(1_000, "a step line of more than {most} characters; shorten it")
TITLE = Bound(200, "the title has more than {most} characters; shorten it and put the rest under 'notes'")
NAME = Bound(300, "more than {most} characters here; shorten it")
BARS = Bound(128, "more than {most} bars; a sequence has 16, 24 or 32")
STEP_LINES = Bound(500, "more than {most} step lines in one part; split the passage")
PASSAGES = Bound(128, "more than {most} passages; a dance of 32 bars has some ten")
STEPS = Bound(1_500, "more than {most} steps of both partners once all repeats are danced; shorten the dance")
TURN = Bound(24, "more than {most} eighths of a turn on one step, three whole turns; share it out")
FINDINGS = Bound(200, "more than {most} findings; mend these first and read the file again")
TEMPO = Bound(400, "more than {most} bars a minute; give the tempo in bars, not in beats")
YEAR = Bound(9999, "a year has four figures, at most {most}")
BOOK_DANCES = Bound(25_000, "more than {most} dances in one book; make several books")
NOTES_PAGES = Bound(200, "more than {most} notes pages; a booklet needs a few")
FILL = Bound(64, "the pages are a multiple of at most {most}; a folded sheet has 4, 8 or 16")
PICTURE_BYTES = Bound(30_000_000, "the picture is larger than {most} bytes; save it smaller")
ITEMS = Bound(500, "more than {most} lines in one programme; an evening has some thirty")
TIMES = Bound(100, "more than {most} times through; five or six are usual")
LASTING = Bound(24 * 60, "longer than {most} minutes; write minutes and seconds like 3:10, or 20 min")
FOLDER_FILES = Bound(100_000, "more than {most} files in one folder; name a smaller one")
FIGURE_FILES = Bound(2_000, "more than {most} files in the folder of figures; keep those that the dances call")
TEMPLATE = Bound(4_000, "more than {most} characters in a template or in what it makes; a line of a sheet is short")
LOOP = Bound(1_000, "a loop goes over a name or over range(n), n at most {most}")
PICTURE_PIXELS = Bound(40_000_000, "a picture of more than {most} pixels; a full A3 page at 400 dots an inch has fewer")
PAGE_PIXELS = Bound(60_000_000, "a page of more than {most} pixels; take fewer dots an inch")
PDF_BYTES = Bound(300_000_000, "the PDF is larger than {most} bytes")
PDF_FILES = Bound(25_001, "more than {most} files are inside the PDF")
PDF_FILE_BYTES = Bound(8_000_000, "a file inside the PDF is larger than {most} bytes")
PDF_DEPTH = Bound(30, "the PDF's list of embedded files runs in a circle or more than {most} levels deep")
PDF_SECONDS = Bound(30, "reading the PDF took longer than {most} s; it is probably damaged")
IMPOSED_SECONDS = Bound(120, "imposing the PDF took longer than {most} s; it is probably damaged")
IMPOSED_PAGES = Bound(20_000, "a booklet has 1 to {most} pages")
ENTRY_PAGES = Bound(200, "more than {most} pages of judges' sheets; one or two are usual")
COPIES = Bound(100, "more than {most} copies or entries; a panel has some five judges")
ENTRY_FILES = Bound(100, "more than {most} files in one folder of an entry; an entry has seven and its figures")
ENTRY_FILE_BYTES = Bound(5_000_000, "the file is larger than {most} bytes; a sheet takes some forty thousand")
PDF_MEMORY = Bound(600_000_000, "reading the PDF took more than {most} bytes of memory; it is probably damaged")
WANTED_PAGES = Bound(200, "more than {most} pages wanted")
DESK_NAME = Bound(200, "a name of more than {most} letters; give the file a shorter one")
DESK_FILES = Bound(2_000, "the desk lists {most} dances; open it on a smaller folder to see the others")
DESK_DEPTH = Bound(4, "folders more than {most} levels down are not listed; open the desk on a folder further down")
