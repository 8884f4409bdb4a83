"""Imposed files read back: each page's words on its panel, the way up, at its size; boxes, marks, bytes."""
from __future__ import annotations

import contextlib
import io
import random
import shutil
import subprocess
from pathlib import Path

import pypdfium2
import pytest
from pypdf import PdfReader, PdfWriter, Transformation
from pypdf.generic import RectangleObject

from notation.installed import data_folder
from notation.page.fault import LayoutError
from notation.page.forme import Plan, make_forme
from notation.page.frame import Artifact, Document, Frame, Metadata, PlacedText
from notation.page.impose import Imposed, ImposeError, impose
from notation.page.imposition import Edge, Panel
from notation.page.marks import SheetWords
from notation.page.pdf import paint_pdf
from notation.page.units import paper, points
from notation.plane import Rect

FONTS = data_folder("fonts")


def booklet(pages: int, size: str = "A5") -> bytes:
    """A reading version that says its page number in the upper left corner of each page."""
    sheet = paper(size)
    frames = tuple(
        Frame(sheet.width, sheet.height, (
            PlacedText(40, 60, f"Page-{n}-", "SourceSans3-SemiBold", 20, Artifact.LAYOUT),
            PlacedText(sheet.width - 60, sheet.height - 30, "foot", "SourceSans3-Regular", 9, Artifact.LAYOUT),
        ), str(n))
        for n in range(1, pages + 1)
    )  # fmt: skip
    return paint_pdf(Document(frames, Metadata("Season"), tagged=False), FONTS)


WORDS = SheetWords("sheet {sheet}, front", "sheet {sheet}, back", "blank", "{title}, imposed", "Imposed sheets")


def made(pages: int, plan: Plan, size: str = "A5") -> Imposed:
    return impose(booklet(pages, size), plan, FONTS, WORDS)


def words_in(document: pypdfium2.PdfDocument, page: int, box: Rect, height: float) -> tuple[str, float, float, float]:
    """The words whose middle lies in a box (y down), the angle of the first letter in degrees, and its left and top."""
    text = document[page].get_textpage()
    inside = []
    for k in range(text.count_chars()):
        left, bottom, right, top = text.get_charbox(k)
        if box.x0 <= (left + right) / 2 <= box.x1 and box.y0 <= height - (top + bottom) / 2 <= box.y1:
            inside.append((text.get_text_range(k, 1), k, left, height - top))
    said = "".join(letter for letter, *_ in inside if letter.strip())
    if not inside:
        return "", 0.0, 0.0, 0.0
    angle = pypdfium2.raw.FPDFText_GetCharAngle(text, inside[0][1])
    return said, round(angle * 57.29578) % 360, inside[0][2], inside[0][3]


@pytest.mark.parametrize("plan", [
    Plan(), Plan(up=4), Plan(signature=2), Plan(edge=Edge.LONG), Plan(up=4, edge=Edge.SHORT), Plan(paper=paper("A4")),
    Plan(up=4, bleed=points(3), crop_marks=True, fold_marks=True), Plan(paper=paper("A5"), crop_marks=True),
], ids=lambda p: f"{p.up}up")  # fmt: skip
@pytest.mark.parametrize("pages", [4, 8, 20])
def test_each_page_stands_on_its_panel_the_way_up_it_should(pages: int, plan: Plan) -> None:
    """Read back by pdfium, which shares nothing with what drew it."""
    result = made(pages, plan)
    document = pypdfium2.PdfDocument(result.data)
    assert len(document) == len(result.order.sides)
    seen = set()
    for number, side in enumerate(result.order.sides):
        for panel in side.panels:
            box = result.forme.panel_box(panel)
            said, angle, *_ = words_in(document, number, box, result.forme.paper.height)
            assert said == (f"Page-{panel.page}-foot" if panel.page else "")
            assert panel.page is None or angle == (180 if panel.turned else 0)
            seen.add(panel.page)
    assert set(range(1, pages + 1)) <= seen


def test_words_stand_where_the_panel_says() -> None:
    """Two A5 pages on A4 lying: the fold in the middle, so the left page begins half a millimetre in."""
    result = made(4, Plan())
    document = pypdfium2.PdfDocument(result.data)
    boxes = [result.forme.panel_box(panel) for panel in result.order.sides[0].panels]
    lefts = [words_in(document, 0, box, result.forme.paper.height)[2] for box in boxes]
    # A5 is 148 mm wide, A4 lying 297 mm.
    assert lefts[1] - lefts[0] == pytest.approx(points(148), abs=0.01)
    assert lefts[0] == pytest.approx(points(0.5) + 40, abs=2.5)


def test_creep_moves_inner_leaves_towards_the_fold() -> None:
    """Four sheets and 3 mm: the second moves by 1 mm, the third by 2, the innermost by 3."""
    still, moved = made(16, Plan()), made(16, Plan(creep=points(3)))
    one, two = pypdfium2.PdfDocument(still.data), pypdfium2.PdfDocument(moved.data)
    for number, side in enumerate(still.order.sides):
        for panel in side.panels:
            box, height = still.forme.panel_box(panel), still.forme.paper.height
            by = words_in(two, number, box, height)[2] - words_in(one, number, box, height)[2]
            away = points(number // 2) * (1 if panel.column == 0 else -1)
            assert by == pytest.approx(away, abs=0.01)


def test_boxes_and_wishes_of_the_print() -> None:
    """ISO 32000-1, 14.11.2: the bleed box holds the trim box, the media box holds both. Table 150: Duplex."""
    result = made(8, Plan(bleed=points(3), crop_marks=True))
    reader = PdfReader(io.BytesIO(result.data))
    page = reader.pages[0]
    assert float(page.trimbox.width) == pytest.approx(points(296), abs=0.01)
    assert float(page.trimbox.height) == pytest.approx(points(210), abs=0.01)
    assert float(page.bleedbox.width) == pytest.approx(points(302), abs=0.01)
    assert float(page.mediabox.width) == pytest.approx(points(296 + 2 * 8), abs=0.01)
    wishes = reader.trailer["/Root"]["/ViewerPreferences"]
    assert wishes == {"/PrintScaling": "/None", "/Duplex": "/DuplexFlipShortEdge"}
    tall = PdfReader(io.BytesIO(made(8, Plan(up=4)).data))
    assert tall.trailer["/Root"]["/ViewerPreferences"]["/Duplex"] == "/DuplexFlipLongEdge"
    assert "/MarkInfo" not in reader.trailer["/Root"] and "/Metadata" not in reader.trailer["/Root"]


def strokes(result: Imposed) -> list[Rect]:
    page = pypdfium2.PdfDocument(result.data)[0]
    kinds = pypdfium2.raw
    return [Rect(*o.get_bounds()) for o in page.get_objects(max_depth=1) if o.type == kinds.FPDF_PAGEOBJ_PATH]


def test_crop_marks_stand_clear_of_the_bleed_in_line_with_the_trim() -> None:
    result = made(4, Plan(bleed=points(4), crop_marks=True))
    found, block = strokes(result), result.forme.block
    assert len(found) == 8
    bled = block.inset(-result.forme.bleed + 0.5)
    assert not any(stroke.overlaps(bled) for stroke in found)
    upright = {round(stroke.centre.x, 1) for stroke in found if stroke.height > stroke.width}
    assert upright == {round(block.x0, 1), round(block.x1, 1)}


def test_fold_marks_stand_on_the_folds() -> None:
    middle = made(4, Plan(fold_marks=True))
    assert {round(s.centre.x, 1) for s in strokes(middle)} == {round(middle.forme.paper.width / 2, 1)}
    both = made(8, Plan(up=4, fold_marks=True))
    assert len(strokes(both)) == 4
    card = made(8, Plan(card=8, fold_marks=True), "A7")
    slit = max(strokes(card), key=lambda stroke: stroke.width)
    assert slit.width == pytest.approx(2 * points(74), abs=1.5)


def test_pages_too_large_for_the_paper_are_made_smaller() -> None:
    """A4 pages side by side on A4: by the root of a half, 210 to 148.5 mm."""
    result = made(4, Plan(paper=paper("A4")), "A4")
    assert result.forme.scale == pytest.approx(0.7071, abs=0.002)
    assert result.forme.paper.width > result.forme.paper.height
    assert made(4, Plan(paper=paper("A3")), "A5").forme.scale == 1.0


def test_a_proof_numbers_each_panel() -> None:
    result = made(6, Plan(proof=True))
    document = pypdfium2.PdfDocument(result.data)
    for number, side in enumerate(result.order.sides):
        for panel in side.panels:
            said = words_in(document, number, result.forme.panel_box(panel), result.forme.paper.height)[0]
            assert f"{panel.page or 'blank'}sheet{side.sheet},{side.face.value}" in said


def test_a_proof_is_as_large_as_the_panel_where_pages_are_made_smaller() -> None:
    result = made(4, Plan(paper=paper("A5"), proof=True), "A4")
    document = pypdfium2.PdfDocument(result.data)
    height = result.forme.paper.height
    for panel in result.order.sides[0].panels:
        box = result.forme.panel_box(panel)
        text = document[0].get_textpage()
        tall = [text.get_charbox(k) for k in range(text.count_chars()) if text.get_text_range(k, 1) == str(panel.page)]
        sizes = [top - bottom for _, bottom, _, top in tall]
        assert max(sizes) > 0.1 * box.height and box.y1 <= height


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_page_that_is_stored_turned_comes_out_as_it_is_seen(turn: int) -> None:
    """Its content turned back by hand and /Rotate set: what a reader shows is the same page."""
    source = PdfReader(io.BytesIO(booklet(4, "A4")))
    writer = PdfWriter()
    sheet = paper("A4")
    for page in source.pages:
        moves = {
            90: Transformation().rotate(90).translate(sheet.height, 0),
            180: Transformation().rotate(180).translate(sheet.width, sheet.height),
            270: Transformation().rotate(270).translate(0, sheet.width),
        }
        size = (sheet.width, sheet.height) if turn == 180 else (sheet.height, sheet.width)
        new = writer.add_blank_page(*size)
        new.merge_transformed_page(page, moves[turn], expand=False)
        new.rotate(turn)
    out = io.BytesIO()
    writer.write(out)
    plain, turned = made(4, Plan(), "A4"), impose(out.getvalue(), Plan(), FONTS, WORDS)
    one, two = pypdfium2.PdfDocument(plain.data), pypdfium2.PdfDocument(turned.data)
    for number, side in enumerate(plain.order.sides):
        for panel in side.panels:
            box, height = plain.forme.panel_box(panel), plain.forme.paper.height
            a, b = words_in(one, number, box, height), words_in(two, number, box, height)
            assert a[:2] == b[:2] and a[2:] == pytest.approx(b[2:], abs=0.1)


def test_trimmed_pages_keep_their_bleed_and_no_more() -> None:
    """A page of A5 within a sheet 10 mm larger all round, 3 mm of which is asked for as bleed."""
    source = PdfReader(io.BytesIO(booklet(4)))
    writer = PdfWriter()
    a5, more = paper("A5"), points(10)
    for page in source.pages:
        new = writer.add_blank_page(a5.width + 2 * more, a5.height + 2 * more)
        new.merge_transformed_page(page, Transformation().translate(more, more), expand=False)
        new.trimbox = RectangleObject((more, more, more + a5.width, more + a5.height))
    out = io.BytesIO()
    writer.write(out)
    result = impose(out.getvalue(), Plan(bleed=points(3)), FONTS, WORDS)
    assert result.forme.width == pytest.approx(a5.width, abs=0.01)
    outer = result.forme.printed_box(Panel(1, 1, 0))
    assert outer.x1 - result.forme.block.x1 == pytest.approx(points(3)) and outer.x0 == result.forme.paper.width / 2
    document = pypdfium2.PdfDocument(result.data)
    box = result.forme.panel_box(result.order.sides[0].panels[1])
    assert words_in(document, 0, box, result.forme.paper.height)[0] == "Page-1-foot"


def test_the_same_bytes_each_time() -> None:
    plan = Plan(up=4, proof=True, fold_marks=True)
    assert made(8, plan).data == made(8, plan).data


def test_what_is_no_file_to_impose() -> None:
    for wrong in (b"", b"hello", b"%PDF-1.7 and nothing", booklet(4)[:900]):
        with pytest.raises(ImposeError):
            impose(wrong, Plan(), FONTS, WORDS)
    locked = PdfWriter(io.BytesIO(booklet(4)))
    locked.encrypt("secret")
    out = io.BytesIO()
    locked.write(out)
    with pytest.raises(ImposeError, match="password"):
        impose(out.getvalue(), Plan(), FONTS, WORDS)


def test_plans_that_do_not_suit_the_pages() -> None:
    order = Plan().order(8)
    with pytest.raises(LayoutError, match="creep"):
        make_forme(order, 400, 600, Plan(creep=200))
    with pytest.raises(LayoutError, match="no room"):
        make_forme(order, 4000, 6000, Plan(paper=paper("A7")))


@pytest.mark.skipif(not shutil.which("qpdf"), reason="qpdf is absent")
@pytest.mark.parametrize("plan", [Plan(proof=True, fold_marks=True), Plan(up=4, crop_marks=True, bleed=9.0)])
def test_qpdf_finds_nothing(plan: Plan, tmp_path: Path) -> None:
    path = tmp_path / "imposed.pdf"
    path.write_bytes(made(20, plan).data)
    done = subprocess.run(["qpdf", "--check", path], capture_output=True, text=True)
    assert done.returncode == 0 and "No syntax or stream encoding errors" in done.stdout


def test_damaged_files_end_in_one_message() -> None:
    """A finished file with bytes changed, lost and put in: imposed or refused, never anything else."""
    chance = random.Random(7)
    source = booklet(4)
    for _ in range(60):
        data = bytearray(source)
        for _ in range(chance.randint(1, 20)):
            at = chance.randrange(len(data))
            if chance.random() < 0.7:
                data[at] = chance.randrange(256)
            else:
                data[at : at + chance.randint(0, 100)] = chance.choice((b"", b"/Kids[2 0 R]", b"<<", b"9" * 30))
        with contextlib.suppress(ImposeError, LayoutError):
            assert impose(bytes(data), Plan(), FONTS, WORDS).data.startswith(b"%PDF-")
