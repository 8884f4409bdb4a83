"""From a dance that is worked out to a document: the one call that sets a sheet."""
from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked
from notation.layout import Layout, Sizes
from notation.page.content import Paper, Story
from notation.page.fold import folded, panel_paper
from notation.page.fonts import Faces
from notation.page.frame import Attachment, Document, Metadata
from notation.page.paginate import Paged, paged, placed_on_pages
from notation.sheet.phrasing import filled
from notation.sheet.rows import Diagrams
from notation.sheet.script import printed_words, script_story, sheet_speaker
from notation.sheet.wording import Speaker

SIZE_STEP = 0.5  # points
LEAST_FOLDED = 590.0 * 780.0  # square points; A4 and Letter are larger
AIRY, TIGHT = 1.0, 0.5  # baseline steps above a figure
MOST_FITTED = 30  # pages; more are set at the largest size, since smaller type would spare a reader little


@dataclass(frozen=True, slots=True)
class Fit:
    """How a sheet was set: the size of its steps in points, and baseline steps above a figure."""

    size: float
    space: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """What is set: a dance in a layout on a paper. diagrams: what to draw under a passage, in a layout that shows
    diagrams."""

    worked: Worked
    knowledge: Knowledge
    layout: Layout
    paper: Paper
    faces: Faces
    diagrams: Diagrams | None = None

    @property
    def panels(self) -> int:
        """Pages on one piece of paper: panels of a folded card, where the paper is large enough to be folded."""
        large = self.paper.width * self.paper.height >= LEAST_FOLDED
        return self.layout.fold if self.layout.fold and large else 1

    @property
    def panel(self) -> Paper:
        """The paper that is read."""
        return panel_paper(self.paper, self.panels) if self.panels > 1 else self.paper

    @property
    def bounds(self) -> Sizes:
        """Of the size of its type."""
        return self.layout.sizes_on(self.panel.name)


def diagrams_of(worked: Worked, knowledge: Knowledge, layout: Layout) -> Diagrams | None:
    """What the layout draws under each passage; None where it shows no floor diagrams."""
    if not layout.shows.diagrams:
        return None
    from notation.dance.checks.places import floor_of
    from notation.sheet.floor import passage_figures

    return passage_figures(worked, floor_of(worked, knowledge), sheet_speaker(worked, knowledge, layout))


def set_sheet(
    worked: Worked,
    knowledge: Knowledge,
    layout: Layout,
    paper: Paper,
    faces: Faces,
    source: Attachment | None = None,
    diagrams: Diagrams | None = None,
) -> Document:
    """The sheet of a dance. Characters that no face has are noted in `faces.missing`.

    The type is the largest within the layout's bounds that fills no more pages than the layout wants, or, where it
    wants none or too few, than the smallest type fills; it is the largest of all where a dance goes on for more than
    MOST_FITTED pages. Raises LayoutError where the paper cannot hold the columns,
    TemplateFault where a template of the layout cannot be filled in.
    """
    return fit_sheet(Sheet(worked, knowledge, layout, paper, faces, diagrams), source)[0]


def fit_sheet(
    sheet: Sheet, source: Attachment | None = None, before_each: Callable[[], object] = bool
) -> tuple[Document, Fit]:
    """The same, and the size that fitted: `sheet_at` sets it so at once while the dance changes little.

    before_each: called before the sheet is set at another size; what it raises ends the search.
    """
    story = stories(sheet, speaker_of(sheet))

    def at(size: float, space: float) -> Paged:
        before_each()
        return paged(story(size, space), sheet.faces)

    made, fit = fitted(at, sheet.bounds.least, sheet.bounds.most, sheet.layout.pages, sheet.panels)
    return _document(made, sheet, source), fit


def sheet_at(fit: Fit, sheet: Sheet) -> Document:
    """The sheet in type of that size, whether or not it is the largest that fits."""
    return _document(paged(stories(sheet, speaker_of(sheet))(fit.size, fit.space), sheet.faces), sheet, None)


def speaker_of(sheet: Sheet) -> Speaker:
    """The speaker that puts the sheet into words."""
    return sheet_speaker(sheet.worked, sheet.knowledge, sheet.layout)


def stories(sheet: Sheet, says: Speaker) -> Callable[[float, float], Story]:
    """The sheet's story by the size of its type in points and the space above figures in baseline steps. says: its
    speaker, which remembers the words used."""
    worked, knowledge, layout, panel = sheet.worked, sheet.knowledge, sheet.layout, sheet.panel
    return lambda size, space: script_story(worked, knowledge, layout, panel, size, space, sheet.diagrams, says)


def _document(made: Paged, sheet: Sheet, source: Attachment | None) -> Document:
    document = placed_on_pages(made, sheet_metadata(sheet.worked, sheet.knowledge, sheet.layout))
    if sheet.panels > 1:
        document = folded(document, sheet.paper, sheet.panels)
    return replace(document, attachments=(source,)) if source is not None and sheet.layout.shows.source else document


def fitted(
    at: Callable[[float, float], Paged], least: float, most: float, wanted: int | None, panels: int = 1
) -> tuple[Paged, Fit]:
    """The sheet at the largest size that fills as few pages as can be had, or as many as are wanted.

    at: sets the sheet with that type size in points and that space above figures in baseline steps. panels: pages on
    one piece of paper; as few pieces as can be had are filled.
    """
    first = at(most, AIRY)
    if len(first.pages) <= (wanted or 1) or len(first.pages) > MOST_FITTED * (wanted or 1):
        return first, Fit(most, AIRY)
    smallest = at(least, TIGHT)
    goal = panels * -(-max(len(smallest.pages), wanted or 1) // panels)
    if len(first.pages) <= goal:
        return first, Fit(most, AIRY)
    size, tight = _largest(at, _sizes(least, most), goal, smallest)
    airy = at(size, AIRY) if size < most else first
    return (airy, Fit(size, AIRY)) if len(airy.pages) <= goal else (tight, Fit(size, TIGHT))


def _sizes(least: float, most: float) -> list[float]:
    """The sizes that are tried, rising."""
    return [*(least + k * SIZE_STEP for k in range(math.ceil((most - least) / SIZE_STEP - 0.001))), most]


def _largest(
    at: Callable[[float, float], Paged], sizes: Sequence[float], goal: int, smallest: Paged
) -> tuple[float, Paged]:
    """The largest size whose tight setting fills no more pages than the goal. That is tried first which would fill them
    if lines were broken as they are at the least size."""
    low, high = 0, len(sizes)
    guess = sizes[0] * goal / max(smallest.filled, 0.01)
    tried = min(max(bisect_right(sizes, guess) - 1, 1), high - 1)
    while high - low > 1:
        made = at(sizes[tried], TIGHT)
        if len(made.pages) <= goal:
            low, smallest = tried, made
        else:
            high = tried
        tried = (low + high) // 2
    return sizes[low], smallest


def sheet_metadata(worked: Worked, knowledge: Knowledge, layout: Layout) -> Metadata:
    """Title, author, subject and keywords of the document; the author only where the sheet names the arranger."""
    dance = worked.dance
    says = sheet_speaker(worked, knowledge, layout)
    rhythm = says.name(dance.rhythm_said, "rhythm")
    subject = ", ".join(filter(None, (filled(says.phrases.subject, bars=dance.length), rhythm, str(worked.metre))))
    return Metadata(
        title=dance.title,
        author=", ".join(dance.arrangers) if layout.shows.arranger else "",
        subject=subject,
        keywords=tuple(word for word in (rhythm, says.phrases.keyword) if word),
        language=printed_words(knowledge, layout).tag,
    )
