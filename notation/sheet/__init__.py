"""From a dance that is worked out to a document: the one call that sets a sheet."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked
from notation.layout import Layout
from notation.page.content import Paper
from notation.page.fold import folded, panel_paper
from notation.page.fonts import Faces
from notation.page.frame import Attachment, Document, Metadata
from notation.page.paginate import Paged, paged, placed_on_pages
from notation.sheet.rows import Diagrams
from notation.sheet.script import printed_words, script_story, sheet_speaker
from notation.sheet.wording import filled

SIZE_STEP = 0.5  # points
LEAST_FOLDED = 590.0 * 780.0  # square points; A4 and Letter are larger
AIRY, TIGHT = 1.0, 0.5  # baseline steps above a figure
MOST_FITTED = 30  # pages; more are set at the largest size, since smaller type would spare a reader little


@dataclass(frozen=True, slots=True)
class Fit:
    """How a sheet was set: the size of its steps in points, and baseline steps above a figure."""

    size: float
    space: float


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
    MOST_FITTED pages. diagrams: what to draw under a passage, in a layout that shows
    diagrams. Raises LayoutError where the paper cannot hold the columns,
    TemplateFault where a template of the layout cannot be filled in.
    """
    return fit_sheet(worked, knowledge, layout, paper, faces, source, diagrams)[0]


def fit_sheet(
    worked: Worked,
    knowledge: Knowledge,
    layout: Layout,
    paper: Paper,
    faces: Faces,
    source: Attachment | None = None,
    diagrams: Diagrams | None = None,
) -> tuple[Document, Fit]:
    """The same, and the size that fitted: `sheet_at` sets it so at once while the dance changes little."""
    at = _setting(worked, knowledge, layout, paper, faces, diagrams)
    bounds = layout.sizes_on(_panel(paper, layout).name)
    made, fit = fitted(at, bounds.least, bounds.most, layout.pages)
    return _document(made, worked, knowledge, layout, paper, source), fit


def sheet_at(
    fit: Fit,
    worked: Worked,
    knowledge: Knowledge,
    layout: Layout,
    paper: Paper,
    faces: Faces,
    diagrams: Diagrams | None = None,
) -> Document:
    """The sheet in type of that size, whether or not it is the largest that fits."""
    at = _setting(worked, knowledge, layout, paper, faces, diagrams)
    return _document(at(fit.size, fit.space), worked, knowledge, layout, paper, None)


def _setting(
    worked: Worked, knowledge: Knowledge, layout: Layout, paper: Paper, faces: Faces, diagrams: Diagrams | None
) -> Callable[[float, float], Paged]:
    panel, says = _panel(paper, layout), sheet_speaker(worked, knowledge, layout)

    def at(size: float, space: float) -> Paged:
        return paged(script_story(worked, knowledge, layout, panel, size, space, diagrams, says), faces)

    return at


def _document(
    made: Paged, worked: Worked, knowledge: Knowledge, layout: Layout, paper: Paper, source: Attachment | None
) -> Document:
    document = placed_on_pages(made, sheet_metadata(worked, knowledge, layout))
    if layout.fold and _panel(paper, layout) is not paper:
        document = folded(document, paper, layout.fold)
    return replace(document, attachments=(source,)) if source is not None and layout.shows.source else document


def _panel(paper: Paper, layout: Layout) -> Paper:
    """The paper that is read: a panel of a folded card, where the paper is large enough to be folded."""
    if layout.fold is None or paper.width * paper.height < LEAST_FOLDED:
        return paper
    return panel_paper(paper, layout.fold)


def fitted(
    at: Callable[[float, float], Paged], least: float, most: float, wanted: int | None
) -> tuple[Paged, Fit]:
    """The sheet at the largest size that fills as few pages as can be had, or as many as are wanted.

    at: sets the sheet with that type size in points and that space above figures in baseline steps.
    """
    first = at(most, AIRY)
    if len(first.pages) <= (wanted or 1) or len(first.pages) > MOST_FITTED * (wanted or 1):
        return first, Fit(most, AIRY)
    smallest = at(least, TIGHT)
    goal = max(len(smallest.pages), wanted or 1)
    if len(first.pages) <= goal:
        return first, Fit(most, AIRY)
    size, tight = _largest(at, least, most, goal, smallest)
    airy = at(size, AIRY)
    return (airy, Fit(size, AIRY)) if len(airy.pages) <= goal else (tight, Fit(size, TIGHT))


def _largest(
    at: Callable[[float, float], Paged], least: float, most: float, goal: int, smallest: Paged
) -> tuple[float, Paged]:
    """The largest size whose tight setting fills no more pages than the goal."""
    low, high = 0, round((most - least) / SIZE_STEP) + 1
    while high - low > 1:
        middle = (low + high) // 2
        tried = at(least + middle * SIZE_STEP, TIGHT)
        if len(tried.pages) <= goal:
            low, smallest = middle, tried
        else:
            high = middle
    return least + low * SIZE_STEP, smallest


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
