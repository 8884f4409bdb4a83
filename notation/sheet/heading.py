"""Everything above the first bar: title, arranger, particulars, start and notes."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from notation.dance.knowledge import Knowledge
from notation.dance.naming import named
from notation.dance.script import GENT, LADY, Dance, Stance, Worked
from notation.layout import Layout
from notation.page.content import Align, Figure, Flow, Paragraph, Particulars, Run
from notation.sheet.phrasing import TIE, filled, tied, with_units
from notation.sheet.running import running_words
from notation.sheet.sayings import bars_words, listed, person, stance_words, tempo_words
from notation.sheet.stance import start_drawing
from notation.sheet.style import Styles, paragraph
from notation.sheet.templates import fill
from notation.sheet.wording import Speaker, bare_hold

LONG_TITLE, SMALLER_TITLE = 60, 0.78  # letters; share of the size


def template_values(dance: Dance, layout: Layout, speaker: Speaker) -> dict[str, object]:
    """What the lines of a layout may name."""
    arranger = ""
    if dance.arrangers and layout.shows.arranger:
        arranger = filled(speaker.phrases.arrangers, names=listed(speaker, dance.arrangers))
    return {
        "title": dance.title,
        "arranger": arranger,
        "arrangers": ", ".join(dance.arrangers) if layout.shows.arranger else "",
        "rhythm": speaker.name(dance.rhythm_said, "rhythm"),
        "paging": speaker.phrases.paging,
        "bars": dance.length,
        "year": dance.year or "",
    }


def heading(worked: Worked, knowledge: Knowledge, layout: Layout, to: Styles, speaker: Speaker) -> Iterator[Flow]:
    """The blocks above the table."""
    dance = worked.dance
    values = template_values(dance, layout, speaker)
    yield _title(fill(layout.templates.title, values), to)
    arranger = fill(layout.templates.arranger, values).strip()
    if arranger:
        yield paragraph(arranger, to.arranger, after=0.5)
    pairs = tuple(_pairs(worked, speaker, layout, to))
    beside = tuple(_start(worked, knowledge, speaker, to)) if layout.shows.start else ()
    if pairs or beside:
        yield Particulars(pairs, beside, space_before=0.5)
    running = running_words(dance, speaker)
    if running and layout.shows.particulars:
        yield replace(_labelled(speaker.phrases.running, running, to), space_after=0.5)
    if layout.shows.notes and dance.notes.strip():
        yield from _notes(dance.notes, to)


def _title(words: str, to: Styles) -> Paragraph:
    """The title; one that would take three lines at its full size is set smaller."""
    size = to.title.size * (1.0 if len(words) <= LONG_TITLE else SMALLER_TITLE)
    style = replace(to.title, size=max(size, 1.2 * to.body.size))
    return Paragraph((Run(words, style),), kind="H1", anchor="top", outline_level=0)


def _labelled(label: str, value: str, to: Styles) -> Paragraph:
    """A label and its value on a line."""
    return Paragraph((Run(tied(f"{label}:"), to.label), Run(" " + value, to.body)))


def _notes(notes: str, to: Styles) -> Iterator[Paragraph]:
    for number, block in enumerate(notes.strip().split("\n\n")):
        yield paragraph(with_units(" ".join(block.split())), to.body, before=0.5 if number == 0 else 0.0, after=0.5)


def _pairs(worked: Worked, speaker: Speaker, layout: Layout, to: Styles) -> Iterator[tuple[Paragraph, Paragraph]]:
    """The particulars, then the start."""
    shown = [*particulars(worked, speaker)] if layout.shows.particulars else []
    shown += [*start_lines(worked, speaker)] if layout.shows.start else []
    for label, value in shown:
        yield paragraph(label, to.label), paragraph(value, to.body)


def particulars(worked: Worked, speaker: Speaker) -> Iterator[tuple[str, str]]:
    """Label and value of each particular that is known."""
    dance, phrases = worked.dance, speaker.phrases
    found = (
        (phrases.rhythm, speaker.name(dance.rhythm_said, "rhythm")),
        (phrases.time, str(worked.metre)),
        (phrases.tempo, tempo_words(speaker, dance.tempo) if dance.tempo else ""),
        (phrases.length, bars_words(speaker, dance.length)),
        (phrases.introduction, bars_words(speaker, dance.introduction) if dance.introduction else ""),
        (phrases.music, dance.music),
    )
    return ((label, value) for label, value in found if value)


def start_lines(worked: Worked, speaker: Speaker) -> Iterator[tuple[str, str]]:
    """The start in words: what it is of, and how."""
    start = worked.start
    if start.position or start.hold:
        yield speaker.phrases.start, bare_hold(speaker, start.position, start.hold)
    for part, stance in ((GENT, start.gent), (LADY, start.lady)):
        if stance is not None:
            yield person(speaker, part), stance_words(speaker, stance)


def _start(worked: Worked, knowledge: Knowledge, speaker: Speaker, to: Styles) -> Iterator[Figure]:
    lines = list(start_lines(worked, speaker))
    alt = "; ".join(f"{label} {value}" for label, value in lines).replace(TIE, " ")
    stances: dict[str, Stance] = {p: s for p, s in ((GENT, worked.start.gent), (LADY, worked.start.lady)) if s}
    names = {part: speaker.within(person(speaker, part)) for part in (GENT, LADY)}
    position = named(worked.start.position, knowledge.positions)
    drawing = start_drawing(stances, position, worked.dance.feet, names, speaker.phrases.line_of_dance, to, alt)
    if drawing is not None:
        yield Figure(drawing, align=Align.LEFT, space_before=0.5)
