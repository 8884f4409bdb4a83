"""What is handed in to a competition: judges' sheets, the particulars with the names, the checklist."""
from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import replace

from notation.dance.entry import IN_THE_DANCE, EntryRules, Requirement, State, dance_particular
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked
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
from notation.sheet.script import margins_of, script_story, sheet_speaker
from notation.sheet.style import Styles, paragraph, styles
from notation.sheet.text import story_text

ANY_WIDTH = 10**6
SIZE = 10.5  # points
STATES = {State.MET: "met", State.NOT_MET: "NOT MET", State.BY_HAND: "see to it"}


def judges_layout(layout: Layout, rules: EntryRules, number: str = "") -> Layout:
    """The layout of the judges' sheets: the competition at the head, room for the entry's number or the number.

    Names are on it where judges see them, and nowhere else, whatever the layout says; the source never is.
    """
    head = f"Entry {number}" if number else "Entry no. ............"
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
    text = judges_words(worked, knowledge, judges_layout(layout, rules), paper)
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
    wanted = judges_layout(layout, rules, number)
    wanted = replace(wanted, templates=replace(wanted.templates, foot_middle=f"Reference {mark}"))
    return set_sheet(worked, knowledge, wanted, paper, faces)


def _page(
    layout: Layout, paper: Paper, flow: Sequence[Flow], title: str, of: str, faces: Faces, foot: str
) -> Document:
    """title: of the sheet; of: the dance it belongs to."""
    to = _styles(layout)
    running = Running(title, foot, "page {page} of {pages}", to.running)
    story = Story(paper, margins_of(layout), to.step, tuple(flow), running)
    return set_story(story, Metadata(title=f"{title}: {of}", subject="Entry of a new dance"), faces)


def _styles(layout: Layout) -> Styles:
    return styles(layout, SIZE, 1.35)


def _title(text: str, to: Styles) -> Paragraph:
    return Paragraph((Run(text, to.title),), kind="H1", anchor="top", outline_level=0)


def _pairs(pairs: Sequence[tuple[str, str]], to: Styles) -> Table:
    """Labels and values in two columns, so that a long value stays beside its label."""
    heads = paragraph("Particular", to.label), paragraph("Entry", to.label)
    columns = (Column("label", heads[0]), Column("value", heads[1], gap=18.0))
    rows = (Row((Cell("label", paragraph(label, to.strong)), Cell("value", paragraph(value, to.body))))
            for label, value in pairs)
    return Table(columns, (Section(None, tuple(Block((row,)) for row in rows)),))


def particulars_sheet(
    worked: Worked, entrant: Mapping[str, str], rules: EntryRules, layout: Layout, paper: Paper, faces: Faces,
    mark: str, sources: tuple[Attachment, ...],
) -> Document:
    """The sheet with the names; it carries the dance file. mark: the reference that ties it to the judges' sheets."""
    to = _styles(layout)
    dance = worked.dance
    keys = dict.fromkeys(("title", "arranged by", "rhythm", "tempo", "introduction", "music", *rules.particulars))
    pairs = [("competition", rules.competition), ("section", rules.section), ("length", f"{dance.length} bars")]
    pairs += [(key, _value(worked, key) if key in IN_THE_DANCE else entrant.get(key, "")) for key in keys]
    pairs += [("reference", mark)]
    shown = [(label[:1].upper() + label[1:], " ".join(value.split())) for label, value in pairs if value.strip()]
    flow: list[Flow] = [_title("Particulars of an entry", to)]
    flow.append(paragraph("For the organiser only: not for the judges.", to.italic, before=0.5, after=1.0))
    flow.append(_pairs(shown, to))
    if rules.declaration:
        flow.append(paragraph(rules.declaration, to.body, before=2.0))
        lines = tuple((paragraph(label, to.label), paragraph("." * 60, to.body)) for label in ("Signed", "Date"))
        flow.append(Particulars(lines, space_before=2.0))
    made = _page(layout, paper, flow, "Particulars", dance.title, faces, f"Reference {mark}")
    names = replace(made.metadata, author=", ".join(dance.arrangers))
    return replace(made, metadata=names, attachments=sources)


def _value(worked: Worked, key: str) -> str:
    """A particular of the dance with its unit."""
    said = dance_particular(worked, key)
    return f"{said} bars a minute" if said and key == "tempo" else said


def checklist_sheet(
    lines: Sequence[Requirement], title: str, rules: EntryRules, layout: Layout, paper: Paper, faces: Faces, mark: str
) -> Document:
    """What is met and what is not, in a table."""
    to = _styles(layout)
    heads = ("Rule", "Asked", "Here", "Met")
    columns = tuple(Column(head.lower(), paragraph(head, to.label), gap=14.0) for head in heads)
    rows = []
    for line in lines:
        style = to.strong if line.state is State.NOT_MET else to.body
        cells = zip(heads, (line.rule, line.asked, line.found, STATES[line.state]), strict=True)
        rows.append(Block((Row(tuple(Cell(head.lower(), paragraph(text, style), header=head == "Rule")
                                     for head, text in cells)),)))
    flow: list[Flow] = [_title("Checklist", to)]
    flow.append(paragraph(f"{title}: entry to {rules.competition}", to.body, after=1.0))
    flow.append(Table(columns, (Section(None, tuple(rows)),)))
    return _page(layout, paper, flow, "Checklist", title, faces, f"Reference {mark}")
