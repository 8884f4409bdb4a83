"""Whole stories: nothing lost, nothing outside, nothing on top of another thing; what stays together; the tags."""
import re
from collections import defaultdict
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from notation.page.content import (
    Align,
    Block,
    Cell,
    Column,
    Drawing,
    Figure,
    FigureRow,
    Flow,
    Key,
    Margins,
    PageBreak,
    Paragraph,
    Particulars,
    Row,
    Run,
    Running,
    Section,
    Story,
    Style,
    Table,
)
from notation.page.fault import LayoutError
from notation.page.fonts import Faces
from notation.page.frame import Anchor, Artifact, Document, Frame, Metadata, PlacedShape, PlacedText
from notation.page.measure import WIDEST_GAP
from notation.page.paginate import set_story
from notation.page.path import Path
from notation.page.trace import trace
from notation.page.units import paper
from notation.plane import Point

FACES = Faces()
PLAIN, STRONG = Style("SourceSans3-Regular", 9.5), Style("SourceSans3-Bold", 9.5)
STEP = 12.5
MARGIN = 30.0
SOLE = Drawing(8, 8, 1, (PlacedShape(Path.polygon(Point(0, 1), Point(8, 1), Point(4, -8)), 0, fill=0.0),))


def words(text: str, style: Style = PLAIN, **how: object) -> Paragraph:
    return Paragraph((Run(text, style),), **how)  # type: ignore[arg-type]


def story(*flow: Flow, name: str = "A4", mirrored: bool = False, **how: object) -> Story:
    margins = Margins(MARGIN, MARGIN + 6, MARGIN, MARGIN - 6, mirrored)
    return Story(paper(name), margins, STEP, flow, **how)  # type: ignore[arg-type]


def set_it(*flow: Flow, **how: object) -> Document:
    return set_story(story(*flow, **how), Metadata("A sheet"), FACES)  # type: ignore[arg-type]


def texts(page: Frame) -> Iterator[PlacedText]:
    return (item for item in page.items if isinstance(item, PlacedText))


def width(text: PlacedText) -> float:
    advances = FACES.face(text.face).advances
    return (sum(advances[c] for c in text.text) + sum(text.adjust)) * text.size / 1000


def content(document: Document) -> dict[int, str]:
    """The letters of each element over all pages, without spaces and hyphens."""
    found: dict[int, str] = defaultdict(str)
    for page in document.pages:
        for text in texts(page):
            if isinstance(text.tag, int):
                found[text.tag] += re.sub(r"[\s-]", "", text.text)
    return found


def assert_inside(document: Document, margins: tuple[float, float, float] = (MARGIN, MARGIN + 6, MARGIN - 6)) -> None:
    top, bottom, least_side = margins
    for page in document.pages:
        for text in texts(page):
            assert text.x >= least_side - 0.01 and text.x + width(text) <= page.width - least_side + 0.01, text
            if isinstance(text.tag, int) or text.tag is Artifact.HEADER:
                assert text.y - 0.7 * text.size >= top and text.y + 0.2 * text.size <= page.height - bottom, text


def assert_apart(document: Document) -> None:
    """No two texts on one spot: x-height of one never crosses the other's line."""
    for page in document.pages:
        found = sorted(texts(page), key=lambda t: t.y)
        for number, one in enumerate(found):
            for two in found[number + 1 :]:
                if two.y - one.y > 40:
                    break
                close = two.y - 0.6 * two.size < one.y
                beside = one.x + width(one) <= two.x + 0.01 or two.x + width(two) <= one.x + 0.01
                assert beside or not close, (one, two)


def assert_on_grid(document: Document) -> None:
    for page in document.pages:
        for text in texts(page):
            if isinstance(text.tag, int):
                assert (text.y - MARGIN) / STEP * 2 == pytest.approx(round((text.y - MARGIN) / STEP * 2), abs=1e-6)


COLUMNS = (
    Column("bar", words("Bar", STRONG), gap=0),
    Column("count", words("Count", STRONG, align=Align.CENTRE)),
    Column("gent", words("Gent", STRONG), alike="part", slot=12),
    Column("lady", words("Lady", STRONG), alike="part", slot=12),
    Column("hold", words("Hold", STRONG)),
)

letters = st.text("abcdefghijklmnopqrstuvwxyzAVWTYé½&", min_size=1, max_size=12)
long_letters = st.integers(40, 300).map(lambda n: ("twirlabout" * 30)[:n])
phrases = st.lists(st.one_of(letters, letters, letters, letters, long_letters), max_size=12).map(" ".join)
short = st.lists(letters, min_size=1, max_size=2).map(" ".join)


@st.composite
def rows(draw: st.DrawFn, first: bool) -> Row:
    cells = [
        Cell("count", words(draw(letters), align=Align.CENTRE)),
        Cell("gent", words(draw(phrases)), SOLE),
        Cell("lady", words(draw(phrases)), SOLE),
    ]
    if first:
        cells.insert(0, Cell("bar", words(draw(letters), Style("SourceSans3-Bold", 12)), header=True))
    if draw(st.booleans()):
        cells.append(Cell("hold", words(draw(short))))
    return Row(tuple(cells), draw(st.sampled_from([0.0, 0.5])))


@st.composite
def tables(draw: st.DrawFn) -> Table:
    sections = []
    for _ in range(draw(st.integers(1, 3))):
        blocks = []
        for _ in range(draw(st.integers(1, 3))):
            count = draw(st.integers(1, 3))
            blocks.append(Block(tuple(draw(rows(k == 0)) for k in range(count)), draw(st.booleans())))
        heading = words(draw(phrases), STRONG, kind="H2") if draw(st.booleans()) else None
        sections.append(Section(heading, tuple(blocks)))
    return Table(COLUMNS, tuple(sections))


def table_texts(table: Table) -> list[str]:
    found = [column.head.text for column in table.columns]
    order = [column.key for column in table.columns]
    for section in table.sections:
        found += [section.heading.text] if section.heading else []
        for block in section.blocks:
            for row in block.rows:
                found += [cell.content.text for cell in sorted(row.cells, key=lambda c: order.index(c.column))]
    return [re.sub(r"[\s-]", "", text) for text in found if text.strip()]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(tables(), st.sampled_from(["A4", "A5", "A6", "A7"]))
def test_any_table_is_set_whole(table: Table, name: str) -> None:
    document = set_it(words("A title", kind="H1"), table, name=name)
    assert_inside(document)
    assert_apart(document)
    assert_on_grid(document)
    found = content(document)
    kept = [found[key] for key in sorted(found)]
    assert kept == ["Atitle", *table_texts(table)]


@settings(max_examples=30, deadline=None)
@given(st.lists(phrases, min_size=1, max_size=8), st.sampled_from(["A5", "A7"]), st.sampled_from([0.0, 0.5, 1.0]))
def test_any_paragraphs_are_set_whole(listed: list[str], name: str, space: float) -> None:
    document = set_it(*(words(text, space_after=space) for text in listed), name=name)
    assert_inside(document)
    assert_apart(document)
    assert_on_grid(document)
    whole = "".join(re.sub(r"[\s-]", "", t.text) for page in document.pages for t in texts(page))
    assert whole == re.sub(r"[\s-]", "", "".join(listed))


def bars(count: int, rows_each: int = 3, long: bool = False) -> tuple[Block, ...]:
    words_of = "forward along the line of dance, turning to face the wall; heel" if long else "forward; heel"
    made = []
    for bar in range(1, count + 1):
        first = (Cell("bar", words(f"bar{bar}", STRONG), header=True),)
        listed = [
            Row(((*first,) if k == 0 else ()) + (Cell("count", words(str(k + 1))), Cell("gent", words(words_of), SOLE)))
            for k in range(rows_each)
        ]
        made.append(Block(tuple(listed)))
    return tuple(made)


def sheet(sections: int = 4, each: int = 4) -> Table:
    listed = (Section(words(f"Figure {k}", STRONG, kind="H2"), bars(each)) for k in range(1, sections + 1))
    return Table(COLUMNS, tuple(listed))


def pages_of(document: Document) -> list[list[str]]:
    return [[t.text for t in texts(page) if isinstance(t.tag, int)] for page in document.pages]


@pytest.mark.parametrize("name", ["A4", "A5", "A6"])
def test_headings_stay_with_their_rows_and_bars_whole(name: str) -> None:
    document = set_it(sheet(), name=name)
    assert len(document.pages) > 1 or name == "A4"
    for page in pages_of(document):
        assert not page[-1].startswith("Figure")
        assert page[-2] == "3"
        rest = [text for text in page if text not in ("Bar", "Count", "Gent", "Lady", "Hold")]
        assert rest[0].startswith(("Figure", "bar"))


def test_heads_repeat_as_artifacts() -> None:
    document = set_it(sheet(), name="A6")
    kinds = {element.key: element.kind for element in document.elements}
    for number, page in enumerate(document.pages):
        heads = [text for text in texts(page) if text.text == "Gent"]
        assert len(heads) == 1
        tag = heads[0].tag
        assert tag is Artifact.HEADER if number else isinstance(tag, int) and kinds[tag] == "TH"


def test_a_bar_taller_than_the_page_is_split_and_whole() -> None:
    table = Table(COLUMNS, (Section(words("Long", STRONG, kind="H2"), bars(1, 60)),))
    document = set_it(table, name="A6")
    assert len(document.pages) > 1
    assert_inside(document)
    counts = [t.text for page in document.pages for t in texts(page) if t.text.isdigit() and isinstance(t.tag, int)]
    assert counts == [str(k + 1) for k in range(60)]


def test_a_row_taller_than_the_page_is_split_between_lines() -> None:
    long = " ".join(f"w{k}" for k in range(900))
    row = Row((Cell("bar", words("1"), header=True), Cell("gent", words(long), SOLE), Cell("lady", words(long), SOLE)))
    document = set_it(Table(COLUMNS, (Section(None, (Block((row,)),)),)), name="A6")
    assert_inside(document)
    assert_apart(document)
    assert list(content(document).values()).count(long.replace(" ", "")) == 2


def test_pages_are_balanced() -> None:
    """A story a little longer than a page: both pages about half full, the break before a heading."""
    document = set_it(sheet(4, 5), name="A4")
    lowest = [max(t.y for t in texts(page) if isinstance(t.tag, int)) for page in document.pages]
    assert len(lowest) == 2 and abs(lowest[0] - lowest[1]) < 60
    assert pages_of(document)[1][0].startswith("Figure")


def test_long_paragraph_has_no_lone_line() -> None:
    long = " ".join(f"word{k}" for k in range(700))
    document = set_it(words(long), name="A6")
    assert len(document.pages) > 2
    assert all(len(page) >= 2 for page in pages_of(document))


def test_no_break_space_ties() -> None:
    text = " ".join(["turn 1/4\u00a0right"] * 30)
    for page in pages_of(set_it(words(text), name="A6")):
        assert not any(line.endswith("1/4") for line in page)


def test_soft_hyphen_shows_only_at_a_break() -> None:
    lines = pages_of(set_it(words("promenade prome\u00adnade " * 20), name="A7"))[0]
    whole = "".join(lines)
    assert "\u00ad" not in whole
    assert all(line.endswith("prome-") or "-" not in line for line in lines)


def test_word_of_300_letters() -> None:
    document = set_it(words("x" * 300, kind="H1"), name="A7")
    assert_inside(document)
    assert "".join(content(document).values()) == "x" * 300


def test_title_of_4000_letters() -> None:
    foot = Running("long title " * 400, "", "page {page} of {pages}")
    document = set_it(words("word " * 800, kind="H1"), name="A5", foot=foot)
    assert_inside(document)
    feet = [t.text for t in texts(document.pages[0]) if t.tag is Artifact.FOOTER]
    assert feet[0].endswith("\u2026") and feet[1].startswith("page 1 of ")


def test_running_foot_counts_pages() -> None:
    document = set_it(*[words("a"), PageBreak(), words("b")], foot=Running("L", "{page}", "{page}/{pages}"))
    feet = [[t.text for t in texts(page) if t.tag is Artifact.FOOTER] for page in document.pages]
    assert feet == [["L", "1", "1/2"], ["L", "2", "2/2"]]
    assert [page.label for page in document.pages] == ["1", "2"]


def test_mirrored_margins_change_sides() -> None:
    document = set_it(words("a"), PageBreak(), words("b"), PageBreak(), words("c"), mirrored=True)
    assert [next(texts(page)).x for page in document.pages] == [MARGIN, MARGIN - 6, MARGIN]


def test_first_lines_share_a_baseline() -> None:
    row = Row((Cell("bar", words("7", Style("SourceSans3-Bold", 14)), header=True), Cell("count", words("1")),
               Cell("gent", words("forward " * 20), SOLE), Cell("lady", words("back"), SOLE)))
    page = set_it(Table(COLUMNS, (Section(None, (Block((row,)),)),)), name="A5").pages[0]
    at = {text.text.split()[0]: text.y for text in reversed(list(texts(page)))}
    assert at["7"] == at["1"] == at["back"] == at["forward"]
    soles = [item.bounds.y1 - 1 for item in page.items if isinstance(item, PlacedShape) and item.fill is not None]
    assert soles == [at["7"], at["7"]]


def test_alike_columns_are_equal_and_none_wider_than_needed() -> None:
    row = Row((Cell("gent", words("forward along the line of dance " * 4)), Cell("lady", words("back"))))
    page = set_it(Table(COLUMNS, (Section(None, (Block((row,)),)),)), name="A4").pages[0]
    at = {text.text: text.x for text in texts(page)}
    widest = max(width(text) for text in texts(page) if text.x == at["Gent"])
    gap = 8 * WIDEST_GAP
    assert at["Hold"] - at["Lady"] == pytest.approx(widest + gap)
    assert at["Lady"] - at["Gent"] == pytest.approx(widest + gap + 12)


def test_space_around_a_section_heading_is_two_to_one() -> None:
    page = set_it(sheet(2, 2)).pages[0]
    lines = sorted({t.y for t in texts(page) if isinstance(t.tag, int)})
    heading = next(t.y for t in texts(page) if t.text == "Figure 2")
    at = lines.index(heading)
    above, below = lines[at] - lines[at - 1] - STEP, lines[at + 1] - lines[at] - STEP
    assert above == pytest.approx(2 * below) and below > 0


def test_structure_of_a_sheet() -> None:
    """Standard structure types nested as ISO 32000-1, 14.8.4 has them; every row of a table as wide as the table."""
    pairs = ((words("Rhythm", STRONG), words("Waltz")),)
    below = (FigureRow((Figure(Drawing(40, 20, 0, SOLE.items, alt="the floor"), words("Bar 1")),)),)
    table = Table(COLUMNS, (Section(words("Figure 1", kind="H2"), bars(2), below),))
    document = set_it(words("Title", kind="H1", outline_level=0), Particulars(pairs), table,
                      Key(words("Key", kind="H2"), ((SOLE, words("weight")),)))
    by_key = {element.key: element for element in document.elements}
    nesting = {(by_key[e.parent].kind if e.parent else "Document", e.kind) for e in document.elements}
    assert nesting == {
        ("Document", "H1"), ("Document", "L"), ("L", "LI"), ("LI", "Lbl"), ("LI", "LBody"), ("Document", "Table"),
        ("Table", "THead"), ("Table", "TBody"), ("THead", "TR"), ("TBody", "TR"), ("TR", "TH"), ("TR", "TD"),
        ("TD", "H2"), ("TD", "Figure"), ("TD", "P"), ("Document", "H2")}
    spans: dict[int, int] = defaultdict(int)
    for element in document.elements:
        assert element.parent is None or element.parent < element.key
        if element.kind in ("TH", "TD") and element.parent:
            spans[element.parent] += element.columns
    assert set(spans.values()) == {len(COLUMNS)}
    assert {e.scope for e in document.elements if e.kind == "TH"} == {"Column", "Row"}
    assert [entry.text for entry in document.outline] == ["Title"]
    anchors = [item.name for item in document.pages[0].items if isinstance(item, Anchor)]
    assert anchors == [document.outline[0].anchor]


def test_reading_order_is_the_order_of_items() -> None:
    document = set_it(words("Title", kind="H1"), sheet(), name="A4")
    tags = [t.tag for page in document.pages for t in page.items if isinstance(getattr(t, "tag", None), int)]
    assert tags == sorted(tags)


def test_key_stays_together_with_its_heading() -> None:
    entries = tuple((words(f"A{k}", STRONG), words(f"means {k}")) for k in range(12))
    for filling in range(10, 40):
        flow = [words("line", space_after=0) for _ in range(filling)]
        document = set_it(*flow, Key(words("Key", STRONG, kind="H2"), entries), name="A6")
        holding = [page for page in pages_of(document) if any(t == "Key" or t.startswith("means") for t in page)]
        assert len(holding) == 1


def test_particulars_with_something_beside() -> None:
    pairs = tuple((words(f"Label{k}", STRONG), words(f"value {k}")) for k in range(6))
    picture = Figure(Drawing(60, 40, 0, SOLE.items, alt="start"), words("Closed hold"))
    document = set_it(Particulars(pairs, (picture,)), words("after"), name="A5")
    assert_inside(document)
    assert_apart(document)
    assert [e.kind for e in document.elements if e.kind == "Figure"] == ["Figure"]


def test_large_drawing_is_scaled_to_the_page() -> None:
    huge = Drawing(2000, 3000, 0, (PlacedShape(Path.polygon(Point(0, 0), Point(2000, 0), Point(0, -3000)), 0, fill=0),))
    page = set_it(Figure(huge), name="A6").pages[0]
    shape = next(item for item in page.items if isinstance(item, PlacedShape))
    box = shape.bounds
    assert box.x1 <= page.width - MARGIN + 6.01 and box.y0 >= MARGIN - 0.01 and box.y1 <= page.height - MARGIN - 5.99


@pytest.mark.parametrize(
    ("flow", "margin", "message"),
    [
        ((words("a"),), 200.0, "no room"),
        ((words("tall", Style("SourceSans3-Regular", 300)),), 30.0, "lower than a single line|narrower than"),
        ((sheet(1, 1),), 130.0, "columns do not fit"),
    ],
)
def test_impossible_pages_are_clear_errors(flow: tuple[Flow, ...], margin: float, message: str) -> None:
    tiny = Story(paper("A7"), Margins(20, 20, margin, 5), STEP, flow)
    with pytest.raises(LayoutError, match=message):
        set_story(tiny, Metadata("t"), FACES)


def test_page_lower_than_a_line() -> None:
    with pytest.raises(LayoutError, match="lower than a single line"):
        set_story(Story(paper("A7"), Margins(143, 143, 10, 10), STEP, (words("a"),)), Metadata("t"), FACES)


def test_page_of_one_line_ends() -> None:
    height = paper("A7").height
    low = Story(paper("A7"), Margins(20, height - 20 - 1.4 * STEP, 10, 10), STEP, (words("one two " * 30), sheet(2, 2)))
    document = set_story(low, Metadata("t"), FACES)
    assert all(len({t.y for t in texts(page) if isinstance(t.tag, int)}) <= 1 for page in document.pages)
    assert sum(text == "bar1" for page in pages_of(document) for text in page) == 2


def test_empty_story_has_a_page() -> None:
    document = set_it(foot=Running("", "{page}", ""))
    assert len(document.pages) == 1


def test_trace_is_stable() -> None:
    first = trace(set_it(words("Title", kind="H1", outline_level=0), sheet(1, 1)))
    again = trace(set_story(story(words("Title", kind="H1", outline_level=0), sheet(1, 1)), Metadata("x"), Faces()))
    assert first == again
    assert first.splitlines()[:3] == [
        "page 1 595.28 841.89", "  anchor 30 30 place-1", "  text 30 42.5 SourceSans3-Regular 9.5 #1 'Title'"]


def test_a_deep_cell_runs_down_beside_the_rows_below_it() -> None:
    """Four short lines beside three rows: only the last row grows, by one line."""
    rows = [Row((Cell("count", words(str(k))), Cell("gent", words("forward"))), 0.0) for k in range(3)]
    hold = Cell("hold", words("one two three four".replace(" ", "\u00a0side "), PLAIN), deep=3)
    narrow = (*COLUMNS[:4], Column("hold", words("Hold", STRONG), most=45.0))
    first = Row((*rows[0].cells, hold))
    page = set_it(Table(narrow, (Section(None, (Block((first, *rows[1:])), Block((rows[0],)))),))).pages[0]
    beats = [t.y for t in texts(page) if t.text in "012"]
    lines = [t.y for t in texts(page) if "side" in t.text or t.text == "four"]
    assert len(lines) == 4 and lines[:3] == beats[:3]
    assert beats[3] - beats[2] == pytest.approx(2 * STEP)
