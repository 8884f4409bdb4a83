"""Everything that is no table, in any mixture and on any paper: nothing lost, outside or on top of another thing."""
import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_story import (
    COLUMNS,
    FACES,
    MARGIN,
    assert_apart,
    assert_inside,
    assert_on_grid,
    content,
    pages_of,
    set_it,
    story,
    texts,
    width,
    words,
)

from notation.page.content import (
    Align,
    Block,
    Cell,
    Drawing,
    Figure,
    FigureRow,
    Flow,
    Key,
    PageBreak,
    Paragraph,
    Particulars,
    Row,
    Run,
    Section,
    Style,
    Table,
)
from notation.page.frame import Artifact, PlacedShape
from notation.page.paginate import setting_of
from notation.page.path import Path
from notation.plane import Point

PAPERS = ("A3", "A4", "A5", "A6")
letters = st.text("abcdefghijklmnoprstuvwyAVWT½é漢⅜", min_size=1, max_size=11)
phrases = st.lists(st.one_of(letters, letters, letters, st.just("x" * 90)), min_size=1, max_size=9).map(" ".join)
sizes = st.sampled_from([8.0, 9.5, 13.0, 20.0])
paragraphs = st.builds(
    lambda text, size, align, kind, before, after: Paragraph(
        (Run(text, Style("SourceSans3-Regular", size)),), align, kind, before, after),
    phrases, sizes, st.sampled_from(list(Align)), st.sampled_from(["P", "H2"]),
    st.sampled_from([0.0, 0.5, 1.0]), st.sampled_from([0.0, 0.5]))
drawings = st.builds(
    lambda wide, tall, deep, alt: Drawing(wide, tall, deep, (PlacedShape(
        Path.polygon(Point(0, deep), Point(wide, deep), Point(wide, -tall), Point(0, -tall)), 0, fill=0.0),), alt),
    st.floats(4, 300), st.floats(4, 300), st.floats(0, 10), st.sampled_from(["", "a drawing"]))
figures = st.builds(Figure, drawings, st.one_of(st.none(), paragraphs), st.sampled_from(list(Align)))
small = st.builds(lambda d: Drawing(d.width / 20, d.ascent / 20, 0, ()), drawings)
flows: st.SearchStrategy[Flow] = st.one_of(
    paragraphs,
    figures,
    st.builds(FigureRow, st.lists(figures, min_size=1, max_size=4).map(tuple)),
    st.builds(Key, paragraphs, st.lists(st.tuples(st.one_of(small, paragraphs), paragraphs), max_size=5).map(tuple)),
    st.builds(Particulars, st.lists(st.tuples(paragraphs, paragraphs), max_size=6).map(tuple),
              st.lists(st.one_of(paragraphs, figures), max_size=2).map(tuple)),
    st.just(PageBreak()),
)


def said(part: object) -> str:
    """All words of a part of a flow in reading order."""
    if isinstance(part, Paragraph):
        return part.text
    if isinstance(part, tuple):
        return " ".join(said(one) for one in part)
    names = {"Figure": ("caption",), "FigureRow": ("figures",), "Key": ("heading", "entries"),
             "Particulars": ("pairs", "beside")}.get(type(part).__name__, ())
    return " ".join(said(getattr(part, name)) for name in names)


def bare(text: str) -> str:
    return re.sub(r"[\s-]", "", text).replace("漢", "□")


@settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(st.lists(flows, min_size=1, max_size=6), st.sampled_from(["A4", "A5", "A6"]))
def test_any_flow_is_set_whole(parts: list[Flow], name: str) -> None:
    document = set_it(*parts, name=name)
    assert_inside(document)
    assert_apart(document)
    assert_on_grid(document)
    found = content(document)
    assert "".join(found[key] for key in sorted(found)) == bare(said(tuple(parts)))


@settings(max_examples=30, deadline=None)
@given(st.lists(drawings, min_size=1, max_size=5), st.sampled_from(["A5", "A7"]))
def test_drawings_stay_inside_and_apart(listed: list[Drawing], name: str) -> None:
    row = FigureRow(tuple(Figure(drawing, words("caption")) for drawing in listed))
    document = set_it(words("before"), row, Figure(listed[0]), words("after"), name=name)
    for page in document.pages:
        shapes = [item.bounds for item in page.items if isinstance(item, PlacedShape)]
        for number, one in enumerate(shapes):
            assert one.x0 >= MARGIN - 0.01 and one.x1 <= page.width - MARGIN + 6.01
            assert one.y0 >= MARGIN - 0.01 and one.y1 <= page.height - MARGIN - 6 + 0.01
            assert not any(one.inset(0.01).overlaps(two.inset(0.01)) for two in shapes[number + 1 :])
            for text in texts(page):
                if isinstance(text.tag, int):
                    beside = text.x + width(text) <= one.x0 + 0.01 or text.x >= one.x1 - 0.01
                    assert beside or text.y <= one.y0 + 0.01 or text.y - 0.5 * text.size >= one.y1 - 0.01


def test_label_and_value_share_a_baseline() -> None:
    big = Paragraph((Run("Big", Style("SourceSans3-Bold", 20)),))
    page = set_it(Particulars(((big, words("value")),))).pages[0]
    assert len({text.y for text in texts(page)}) == 1


def test_particulars_read_down() -> None:
    pairs = tuple((words(f"L{k}"), words(f"v{k}")) for k in range(5))
    page = set_it(Particulars(pairs), name="A4").pages[0]
    assert [text.text for text in texts(page)] == [part for k in range(5) for part in (f"L{k}", f"v{k}")]
    assert len({text.y for text in texts(page)}) == 1


def test_particulars_take_as_many_columns_as_fit() -> None:
    pairs = tuple((words(f"Label {k}"), words(f"a value of some length {k}")) for k in range(6))
    lines = {name: len({t.y for t in texts(set_it(Particulars(pairs), name=name).pages[0])}) for name in PAPERS}
    assert lines["A3"] <= lines["A4"] < lines["A5"] < lines["A6"] == 6


def test_spanning_cell_uses_its_columns() -> None:
    long = "as bars 1 to 4, with the other foot and the other way round, ending in closed hold"
    narrow = Row((Cell("bar", words("1"), header=True), Cell("gent", words("fwd")), Cell("lady", words("back"))))
    wide = Row((Cell("bar", words("5-8"), header=True), Cell("gent", words(long), span=3)))
    table = Table(COLUMNS, (Section(None, (Block((narrow,)), Block((wide,)))),))
    document = set_it(table, name="A4")
    assert any(text.text == long for text in texts(document.pages[0]))
    spans = [element.columns for element in document.elements if element.columns > 1]
    assert spans == [3]


def test_lines_end_where_a_reader_pauses() -> None:
    """Where one would pause when reading aloud: Inclusion Europe, 'Information for all' (2009); from memory."""
    step = "Right foot forward, commence to turn right, facing diagonal to wall, heel then toe, contrary body movement"
    setting = setting_of(story(words(step)), FACES)
    wall, toe = (setting.lines(words(step[: step.index(end)]), 1000.0)[0].width for end in (" heel", " contrary"))
    for room in (wall, (wall + toe) / 2, toe - 1.0):
        first, second = setting.lines(words(step), room)
        assert "".join(piece.text for piece in first.pieces).endswith("wall,") and second.width < room


def test_a_figure_is_not_parted_to_fill_pages_evenly() -> None:
    """Figures of 8 and of 2 x 16 rows on pages of 42: 24 and 16 would be more even than 8 and 32."""
    def block(rows: int) -> Block:
        return Block(tuple(Row((Cell("bar", words("1")), Cell("gent", words("step")))) for _ in range(rows)))

    table = Table(COLUMNS, (Section(None, (block(8),)), Section(None, (block(16), block(16)))))
    pages = pages_of(set_it(words("word"), words("word"), table, name="A5"))
    assert [page.count("step") for page in pages] == [8, 32]


def test_fallback_face_takes_over_within_a_line() -> None:
    style = Style("AtkinsonHyperlegibleNext-Regular", 16)
    document = set_it(Paragraph((Run("turn ⅜ to R", style),), line_steps=2))
    faces = [(text.face, text.text) for text in texts(document.pages[0])]
    assert [face for face, _ in faces] == [style.face, "SourceSans3-Regular", style.face]
    assert "".join(text for _, text in faces) == "turn ⅜ to R"


def test_missing_characters_are_reported() -> None:
    FACES.missing.clear()
    set_it(words("name 漢字"))
    assert "漢" in FACES.missing or FACES.shaped("SourceSans3-Regular", "漢字")[0].text == "□□"


def test_large_type_on_a_fine_grid_takes_more_steps() -> None:
    style = Style("SourceSans3-Regular", 20)
    document = set_it(Paragraph((Run("word " * 40, style),)), name="A6")
    assert_apart(document)
    lines = sorted({t.y for t in texts(document.pages[0])})
    assert lines[1] - lines[0] >= 20


def test_page_break_at_the_ends_makes_no_empty_page() -> None:
    assert len(set_it(PageBreak(), words("a"), PageBreak()).pages) == 1


def test_drawing_of_a_cell_is_an_artifact_unless_it_has_words() -> None:
    plain, told = Drawing(8, 8, 0, (PlacedShape(Path.line(Point(0, 0), Point(8, -8)), 0, stroke=0.0),)), "left foot"
    drawn = Drawing(8, 8, 0, plain.items, told)
    row = Row((Cell("bar", words("1"), header=True), Cell("gent", words("a"), plain), Cell("lady", words("b"), drawn)))
    document = set_it(Table(COLUMNS, (Section(None, (Block((row,), ruled=False),)),)))
    tags = [item.tag for item in document.pages[0].items if isinstance(item, PlacedShape)]
    figures = [element for element in document.elements if element.kind == "Figure"]
    assert tags == [Artifact.LAYOUT, figures[0].key] and [f.alt for f in figures] == [told]


@pytest.mark.parametrize("name", ["A4", "A6"])
def test_below_stands_under_the_blocks(name: str) -> None:
    row = Row((Cell("bar", words("1"), header=True), Cell("gent", words("step"))))
    section = Section(words("Figure 1", kind="H2"), (Block((row,)),), (words("caution"),))
    order = [text for page in pages_of(set_it(Table(COLUMNS, (section,)), name=name)) for text in page]
    assert order[-1] == "caution" and order.index("step") < order.index("caution")
