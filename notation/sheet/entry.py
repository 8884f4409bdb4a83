"""What is handed in to a competition: judges' sheets, the particulars with the names, the checklist."""
from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from notation.dance.entry import IN_THE_DANCE, EntryRules, Requirement, State, dance_particular
from notation.dance.facts import counted, fact
from notation.dance.knowledge import Knowledge
from notation.dance.metre import Tempo
from notation.dance.naming import capital
from notation.dance.script import Worked
from notation.dance.words import Vocabulary
from notation.layout import Layout, Templates
from notation.page.content import (
    Block,
    Cell,
    Column,
    Flow,
    Paper,
    Paragraph,
    Particulars,
    Row,
    Run,
    Running,
    Section,
    Story,
    Table,
)
from notation.page.fonts import Faces
from notation.page.frame import Attachment, Document, Metadata
from notation.page.paginate import set_story
from notation.sheet import set_sheet, sheet_metadata
from notation.sheet.figurewords import figure_speaker
from notation.sheet.pagewords import page_words
from notation.sheet.phrasing import filled
from notation.sheet.script import margins_of, printed_words, script_story, sheet_speaker
from notation.sheet.style import Styles, paragraph, styles
from notation.sheet.telling import rule_words, value_words
from notation.sheet.text import story_text
from notation.sheet.toldwords import EntryWords

ANY_WIDTH = 10**6
SIZE = 10.5  # points


def judges_layout(layout: Layout, rules: EntryRules, words: Vocabulary, number: str = "") -> Layout:
    """The layout of the judges' sheets: the competition at the head, room for the entry's number or the number.

    words: those it is printed with. Names are on it where judges see them, and nowhere else, whatever the layout says;
    the source never is.
    """
    says = page_words(words, EntryWords)
    head = filled(says.number, number=number) if number else says.number_room
    lines = replace(layout.templates, head_left=_literal(rules.competition), head_right=head)
    if rules.named:
        lines = replace(lines, arranger=layout.templates.arranger or Templates().arranger)
    shows = replace(layout.shows, arranger=rules.named, source=False)
    return replace(layout, templates=lines, shows=shows, pages=rules.pages)


def _literal(text: str) -> str:
    """A text that no template takes for a place or an instruction."""
    return text.replace("{", "(").replace("}", ")")


def reference(worked: Worked, knowledge: Knowledge, layout: Layout, rules: EntryRules, paper: Paper) -> str:
    """Eight figures that judges' sheets and particulars share; made from the words of the judges' sheets alone."""
    wanted = judges_layout(layout, rules, printed_words(knowledge, layout))
    text = judges_words(worked, knowledge, wanted, paper)
    digest = hashlib.sha256(text.encode()).hexdigest().upper()
    return f"{digest[:4]}-{digest[4:8]}"


def judges_words(worked: Worked, knowledge: Knowledge, layout: Layout, paper: Paper) -> str:
    """Every word of the judges' sheets, titles and running lines included, without line breaks in a sentence."""
    says = sheet_speaker(worked, knowledge, layout)
    story = script_story(worked, knowledge, layout, paper, layout.sizes_on(paper.name).most, 1.0, None, says)
    lines = [running for running in (story.foot, story.head) if running is not None]
    metadata = sheet_metadata(worked, knowledge, layout)
    return "\n".join((story_text(story, ANY_WIDTH), *(f"{r.left} {r.middle} {r.right}" for r in lines), repr(metadata)))


def judges_sheets(
    worked: Worked, knowledge: Knowledge, layout: Layout, rules: EntryRules, paper: Paper, faces: Faces,
    number: str = "",
) -> Document:
    """The sheets for the judges. number: printed on each page instead of the room for it."""
    mark = reference(worked, knowledge, layout, rules, paper)
    words = printed_words(knowledge, layout)
    wanted = judges_layout(layout, rules, words, number)
    foot = filled(page_words(words, EntryWords).reference, mark=mark)
    wanted = replace(wanted, templates=replace(wanted.templates, foot_middle=foot))
    return set_sheet(worked, knowledge, wanted, paper, faces)


@dataclass(frozen=True, slots=True)
class Sheets:
    """What the sheets besides the judges' are set with. words: those they are printed with; mark: the reference that
    ties them to the judges' sheets."""

    rules: EntryRules
    layout: Layout
    paper: Paper
    faces: Faces
    words: Vocabulary
    mark: str

    @property
    def says(self) -> EntryWords:
        return page_words(self.words, EntryWords)


def _page(to: Sheets, flow: Sequence[Flow], title: str, of: str) -> Document:
    """title: of the sheet; of: the dance it belongs to."""
    style, says = _styles(to.layout), to.says
    paging = figure_speaker(to.words, False).phrases.paging
    running = Running(title, filled(says.reference, mark=to.mark), paging, style.running)
    story = Story(to.paper, margins_of(to.layout), style.step, tuple(flow), running, language=to.words.tag)
    about = Metadata(filled(says.paper_title, paper=title, title=of), subject=says.subject, language=to.words.tag)
    return set_story(story, about, to.faces)


def _styles(layout: Layout) -> Styles:
    return styles(layout, SIZE, 1.35)


def _title(text: str, to: Styles) -> Paragraph:
    return Paragraph((Run(text, to.title),), kind="H1", anchor="top", outline_level=0)


def _pairs(pairs: Sequence[tuple[str, str]], to: Styles, says: EntryWords) -> Table:
    """Labels and values in two columns, so that a long value stays beside its label."""
    heads = paragraph(says.column_particular, to.label), paragraph(says.column_value, to.label)
    columns = (Column("label", heads[0]), Column("value", heads[1], gap=18.0))
    rows = (Row((Cell("label", paragraph(label, to.strong)), Cell("value", paragraph(value, to.body))))
            for label, value in pairs)
    return Table(columns, (Section(None, tuple(Block((row,)) for row in rows)),))


def particulars_sheet(
    worked: Worked, entrant: Mapping[str, str], to: Sheets, sources: tuple[Attachment, ...]
) -> Document:
    """The sheet with the names; it carries the dance file. entrant: particulars that are not in it."""
    style, says, rules = _styles(to.layout), to.says, to.rules
    flow: list[Flow] = [_title(says.particulars_title, style)]
    flow.append(paragraph(says.organiser_only, style.italic, before=0.5, after=1.0))
    flow.append(_pairs(list(_shown(worked, entrant, to)), style, says))
    if rules.declaration:
        flow.append(paragraph(rules.declaration, style.body, before=2.0))
        lines = tuple((paragraph(label, style.label), paragraph("." * 60, style.body))
                      for label in (says.signed_by, says.signed_on))
        flow.append(Particulars(lines, space_before=2.0))
    made = _page(to, flow, says.particulars, worked.dance.title)
    names = replace(made.metadata, author=", ".join(worked.dance.arrangers))
    return replace(made, metadata=names, attachments=sources)


def _shown(worked: Worked, entrant: Mapping[str, str], to: Sheets) -> Iterator[tuple[str, str]]:
    """Label and value of each particular that is known."""
    rules, speaker = to.rules, figure_speaker(to.words, False)
    keys = dict.fromkeys(("title", "arranged by", "rhythm", "tempo", "introduction", "music", *rules.particulars))
    pairs = [("competition", rules.competition), ("section", rules.section),
             ("length", value_words(counted("bar", worked.dance.length), to.words))]
    pairs += [(key, _value(worked, key, to.words) if key in IN_THE_DANCE else entrant.get(key, "")) for key in keys]
    for key, value in (*pairs, ("reference", to.mark)):
        if value.strip():
            yield capital(speaker.called(key, "particular")), " ".join(value.split())


def _value(worked: Worked, key: str, words: Vocabulary) -> str:
    """A particular of the dance with its unit."""
    said = dance_particular(worked, key)
    if isinstance(said, Tempo):
        return value_words(fact("bars_a_minute", tempo=said), words)
    return value_words(said, words)


STATES = {State.MET: "met", State.NOT_MET: "not_met", State.BY_HAND: "by_hand"}
COLUMNS = ("rule", "asked", "found", "state")


def checklist_sheet(lines: Sequence[Requirement], title: str, to: Sheets) -> Document:
    """What is met and what is not, in a table. title: of the dance."""
    style, says = _styles(to.layout), to.says
    heads = ((key, str(getattr(says, f"column_{key}"))) for key in COLUMNS)
    columns = tuple(Column(key, paragraph(head, style.label), gap=14.0) for key, head in heads)
    flow: list[Flow] = [_title(says.checklist, style)]
    entered = filled(says.entry_to, title=title, competition=to.rules.competition)
    flow.append(paragraph(entered, style.body, after=1.0))
    flow.append(Table(columns, (Section(None, tuple(_line(line, to, style) for line in lines)),)))
    return _page(to, flow, says.checklist, title)


def _line(line: Requirement, to: Sheets, style: Styles) -> Block:
    looks = style.strong if line.state is State.NOT_MET else style.body
    texts = (*rule_words(line, to.words), str(getattr(to.says, STATES[line.state])))
    cells = (Cell(key, paragraph(text, looks), header=key == "rule") for key, text in zip(COLUMNS, texts, strict=True))
    return Block((Row(tuple(cells)),))
