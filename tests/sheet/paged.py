"""One page of every kind besides the sheet, in any language, made from data that hold no English word."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from fractions import Fraction
from functools import cache

from notation.dance.book import Book, IndexOf, Order
from notation.dance.catalogue import Entry
from notation.dance.compare import compare
from notation.dance.entry import Allowance, EntryRules, checklist
from notation.dance.entry import Entry as Entered
from notation.dance.figure import Figure
from notation.dance.floor import dance_floor
from notation.dance.hall import Hall
from notation.dance.mark import Said
from notation.dance.metre import Tempo
from notation.dance.programme import Item, Programme, timetable
from notation.page.content import Story
from notation.page.forme import Plan, make_forme
from notation.page.frame import Attachment, Document, Metadata, PlacedText
from notation.page.marks import SheetWords, proof_document
from notation.page.paginate import set_story
from notation.page.units import paper
from notation.reading.figures import read_figure
from notation.reading.layout import load_layout
from notation.sheet.booked import book_dance, book_layout
from notation.sheet.bookfront import setup
from notation.sheet.booklet import parts, prospect
from notation.sheet.bookplan import in_book_order, planned
from notation.sheet.card import MARGIN, card, card_story
from notation.sheet.catalogue import set_catalogue
from notation.sheet.entry import Sheets, checklist_sheet, judges_sheets, particulars_sheet
from notation.sheet.errata import errata as marked_up
from notation.sheet.feetchart import positions_story
from notation.sheet.floor import floor_story
from notation.sheet.pagewords import ImposedWords, page_words
from notation.sheet.programme import set_programme
from notation.sheet.speakers import words_in
from tests.sheet.setting import Faces, knowledge, worked

A4 = paper("A4")
FACES = Faces()
DANCE = """format: 1
title: Laternenufer
arranged by: [Maud Ferrier, Tom Askew]
rhythm: waltz
tempo: 28.3-30
introduction: 4
length: 4
notes: Klein halten.
music: beliebig
start: {position: side by side, hold: open, gent: "LF 3rd front, facing DW", lady: "RF 3rd front, facing DC"}
sequence:
  - bars: 1
    figure: Anfang
    gent: |
      1 LF fwd, small, facing LOD, CBM, HT, commence to rise
      2 RF side, past LF, 1/8 L, facing DC, T, sway L, head L
      3 LF close to RF 3rd rear, TH, lower, body turns less
    lady: mirror
    head: {gent: DC, lady: over LF}
    arms: gerundet
  - bars: 2
    figure: Mitte
    position: facing
    hold: double
    gent: |
      1 RF back, long, moving ALOD, no turn, T, OP
      2 LF point side 5th front, without weight
      3 LF kick fwd low aerial
    lady: opposite
  - bars: 3
    figure: Schluss
    gent: |
      1 LF cross behind, commence to turn R, IE, bend
      2 RF hop
      3 clap
    lady: opposite
    note: leise
  - bars: 4
    repeat: 3
    on: opposite feet
"""
"""Every kind of word; what the writer typed is German."""
FIGURES = (b"""format: 1
name: Flutschritt
also: [Ebbschritt]
family: modern
rhythms: [waltz]
metre: 3/4
bars: 1
start: {gent: "LF, facing LOD", lady: "RF, backing LOD"}
position: closed
gent: |
  1  LF fwd, CBM, HT, commence to rise
  2  RF side, small, 1/4 R, facing WALL, T, continue to rise
  3  LF close, TH, up, lower
lady: |
  1  RF back, TH, no foot rise
  2  LF side, small, T, rise
  3  RF close, TH, bend, down
turn: {gent: 1/4 R, lady: no turn}
free: {gent: RF, lady: LF}
cautions: Kleine Schritte auf voller Fl\xc3\xa4che.
faults: Zu hastig.
sources: {all: eigene}
""", b"""format: 1
name: Ankertritt
family: turned-out
rhythms: [veleta, old-time waltz]
metre: 3/4
bars: 1
foot: either
start: LF 3rd front, facing LOD
head: {gent: DC, lady: DW}
steps: |
  1  LF fwd
  2  RF side 2nd, T, rise
  3  LF close 3rd front, lower
turn: no turn
free: RF
sources: {all: eigene}
""")


def figures() -> list[Figure]:
    made = [read_figure(source, "figur.yaml") for source in FIGURES]
    return made


def _set(story: Story, language: str, subject: str = "") -> Document:
    words = words_in(knowledge(), language)
    return set_story(story, Metadata("Laternenufer", subject=subject, language=words.tag), FACES)


def cards(language: str) -> Document:
    words = words_in(knowledge(), language)
    made = [card(figure, knowledge(), A4.width - 2 * MARGIN, words) for figure in figures()]
    return _set(card_story(made, A4, [False, False], words), language)


def chart(language: str) -> Document:
    return _set(positions_story(A4, words_in(knowledge(), language)), language)


def floor(language: str) -> Document:
    of, hall = worked(DANCE), Hall(20_000.0, 12_500.0)
    story = floor_story(of, dance_floor(of, knowledge()), range(1, 5), ("gent", "lady"), A4,
                        words_in(knowledge(), language), hall)
    return _set(story, language)


def programme(language: str) -> Document:
    tea = Item(None, "Tee", 1, Fraction(1200), Fraction(0), interval=True)
    items = (Item(Said("a"), "", 5, None, Fraction(60)), tea)
    evening = Programme("Herbst", "Klub", "14. Herbstmond", "Saal", Fraction(19 * 3600 + 30 * 60), items)
    table = timetable(evening, {"a": worked(DANCE).dance})
    return set_programme(table, A4, FACES, Attachment("a", b""), words_in(knowledge(), language))


def catalogue(language: str) -> Document:
    entries = (Entry("a.yaml", "Ufer", ("Maud Ferrier",), "waltz", "3/4", 16, "28.5", ("Anfang",), 2, 1, 3),
               Entry("b.yaml", "", (), "two step", "2/4", None, "", (), 1, 2, 1))
    return set_catalogue(entries, "Saison", A4, FACES, words_in(knowledge(), language))


def book(language: str) -> Document:
    """A dance with a rhythm, and one without."""
    layout = book_layout(replace(load_layout("script"), language=language), with_key=False)
    wanted = Book("Saison", "2026", "Klub", (), order=Order.RHYTHM, contents=True, abbreviations=True,
                  indexes=tuple(IndexOf), section_pages=True, notes_pages=1)
    to = setup(wanted, layout, paper("A5"), knowledge(), FACES)
    one = book_dance(worked(DANCE), knowledge(), layout, paper("A5"), FACES)
    plan = planned(to, in_book_order(wanted, [one, replace(one, title="Mole", rhythm="", rank=99)]))
    made, ahead = list(parts(plan)), prospect(plan)
    pages = tuple(frame for part in made for frame in part.pages)
    return Document(pages, ahead.metadata, tuple(e for part in made for e in part.elements), ahead.outline)


def entry(language: str) -> Document:
    """The judges' sheets, the particulars and the checklist, one after the other."""
    layout = replace(load_layout("entry"), language=language)
    words, of = words_in(knowledge(), language), worked(DANCE)
    sheets = Sheets(RULES, load_layout("script"), A4, FACES, words, "ABCD-1234")
    lines = checklist(Entered(of, {"klub": "Klub"}, 2, date(2027, 4, 1), 2), RULES, knowledge())
    made = (judges_sheets(of, knowledge(), layout, RULES, A4, FACES), checklist_sheet(lines, "Ufer", sheets),
            particulars_sheet(of, {"klub": "Klub"}, sheets, ()))
    return replace(
        made[1], pages=tuple(frame for one in made for frame in one.pages),
        elements=tuple(element for one in made for element in one.elements))


CHANGES = (
    ("tempo: 28.3-30", "tempo: 29.5"), ("hold: double", "hold: crossed"), ("position: facing", "position: tandem"),
    ("head: {gent: DC, lady: over LF}", "head: to partner"), ("LF 3rd front, facing DW", "LF 5th front, facing wall"),
    ("2 RF side, past LF, 1/8 L", "2& RF side, small, 1/4 L"), ("3 LF kick fwd low aerial\n", ""), ("leise", "laut"),
    ("length: 4", "length: 5"), ("LF cross behind", "LF cross in front"), ("figure: Schluss", "figure: Ende"),
)


def errata(language: str) -> Document:
    """The whole dance marked up, forth and back, so that there are bars and steps put in and left out."""
    text = DANCE
    for old, new in CHANGES:
        assert old in text
        text = text.replace(old, new)
    text += "  - bars: 5\n    figure: Neu\n    gent: |\n      1 LF fwd\n      2-3 RF fwd\n    lady: mirror\n"
    one, two, words = worked(DANCE), worked(text), words_in(knowledge(), language)
    forth = marked_up(compare(one, two, knowledge()), two, words, A4, True, FACES)
    back = marked_up(compare(two, one, knowledge()), one, words, A4, True, FACES)
    none = marked_up(compare(one, one, knowledge()), one, words, A4, False, FACES)
    return replace(forth, pages=(*forth.pages, *back.pages, *none.pages), elements=(*forth.elements, *back.elements))


def imposed(language: str) -> Document:
    """The proof of six pages on sheets for eight."""
    says = page_words(words_in(knowledge(), language), ImposedWords)
    words = SheetWords(says.front, says.back, says.blank, says.imposed, says.untitled)
    order = Plan().order(6)
    made = proof_document(order, make_forme(order, 400.0, 600.0, Plan()), FACES, words)
    title, tag = words.imposed.replace("{title}", ""), words_in(knowledge(), language).tag
    about = Metadata(words.untitled, subject=title, language=tag)
    return replace(made, metadata=about)


RULES = EntryRules(
    "Pokal", "Verband", "Klasse", date(2027, 3, 31), (16, 24), ("waltz", "two-step"),
    (("", Tempo(Fraction(28), Fraction(59, 2))),), 6, ("music", "klub", "nummer"), Allowance(("closed",), ("double",)),
    Allowance((), ("facing",)), Allowance(("Flutschritt",), ()), pages=1, copies=5, declaration="Selbst verfasst.",
)
PAGES: dict[str, Callable[[str], Document]] = {
    "card": cards, "chart": chart, "floor": floor, "programme": programme, "catalogue": catalogue,
    "book": book, "entry": entry, "errata": errata, "imposed": imposed,
}
"""Pages by their kind."""


@cache
def page(kind: str, language: str) -> Document:
    return PAGES[kind](language)


def said(document: Document) -> str:
    """All that is printed or told to who does not see it, and what stands in the document's particulars."""
    texts = [item.text for frame in document.pages for item in frame.items if isinstance(item, PlacedText)]
    about = document.metadata
    return " ".join((*texts, *(element.alt for element in document.elements), about.title, about.subject,
                     *about.keywords, *(entry.text for entry in document.outline)))
