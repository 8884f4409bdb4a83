"""Measures of faces against the shaping library and reportlab's reading of the same files."""
from pathlib import Path

import pytest
import uharfbuzz as hb
from reportlab.pdfbase.ttfonts import TTFontFile

from notation.page.facetable import KERNED, NO_FEATURE, measured_face, read_face, table_path
from notation.page.fault import LayoutError
from notation.page.fonts import Face, Faces

NAMES = ["SourceSans3-Regular", "SourceSans3-SemiBold", "SourceSans3-Bold", "SourceSans3-Italic",
         "AtkinsonHyperlegibleNext-Regular", "AtkinsonHyperlegibleNext-Bold", "DejaVuSans"]
TEXT = """To AV Waltz, Tango; Two-step DW 1171 Yves. LOD (Lady) P.P. “Tea” for Two’s Ländler Pas-de-Basque ½ turn
Veleta wave, away Ty. r. r, F. Ve La Té"""


def shaped_width(path: Path, text: str) -> float:
    """What harfbuzz makes of the text with kerning only, in thousandths of the size."""
    face = hb.Face(hb.Blob.from_file_path(str(path)))
    font, buffer = hb.Font(face), hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    hb.shape(font, buffer, NO_FEATURE)
    return sum(p.x_advance for p in buffer.glyph_positions) * 1000 / face.upem


@pytest.mark.parametrize("name", NAMES)
def test_stored_table_equals_the_shaping_library(name: str) -> None:
    """Width of whole words by harfbuzz 13 or later, an independent reader of GPOS."""
    faces = Faces(fallbacks=())
    for word in TEXT.split():
        mine = sum(s.width for s in faces.shaped(name, word))
        if all(c in faces.face(name) for c in word):
            assert mine == pytest.approx(shaped_width(faces.path(name), word), abs=0.01), word


@pytest.mark.parametrize("name", NAMES)
def test_stored_table_belongs_to_the_file(name: str) -> None:
    path = Faces().path(name)
    stored, fresh = read_face(path), measured_face(path)
    assert table_path(path).is_file()
    assert stored.advances == {c: pytest.approx(a, abs=0.001) for c, a in fresh.advances.items()}
    for one in KERNED[::7]:
        for two in KERNED[::11]:
            if one in fresh and two in fresh:
                assert stored.kern(one, two) == pytest.approx(fresh.kern(one, two), abs=0.001)


@pytest.mark.parametrize("name", ["SourceSans3-Regular", "DejaVuSans"])
def test_advances_equal_reportlab(name: str) -> None:
    """reportlab's own TrueType parser reads the same file."""
    file, face = TTFontFile(str(Faces().path(name))), Faces().face(name)
    for code, width in file.charWidths.items():
        if chr(code) in face:
            assert face.advances[chr(code)] == pytest.approx(width, abs=1), hex(code)


def test_kerning_is_there_at_all() -> None:
    shaped = Faces().shaped("SourceSans3-Regular", "To")[0]
    assert shaped.adjust[0] < -20 and len(shaped.adjust) == 2


def test_figures_have_one_width() -> None:
    """Counts stand under each other: figures of equal width, and no kerning between them."""
    for name in NAMES:
        face: Face = Faces().face(name)
        if name.startswith("Source"):
            widths = [face.advances[c] for c in "0123456789"]
            assert max(widths) - min(widths) <= 1
            assert all(face.kern(a, b) == 0 for a in "0123456789" for b in "0123456789")


def test_fallback_and_missing_characters() -> None:
    faces = Faces()
    assert [(s.face, s.text) for s in faces.shaped("AtkinsonHyperlegibleNext-Regular", "a⅜b")] == [
        ("AtkinsonHyperlegibleNext-Regular", "a"), ("SourceSans3-Regular", "⅜"),
        ("AtkinsonHyperlegibleNext-Regular", "b")]
    assert not faces.missing
    assert faces.shaped("SourceSans3-Regular", "x漢")[0].text == "x□"
    assert faces.missing == {"漢"}


def test_controls_leave_nothing() -> None:
    faces = Faces()
    assert "".join(s.text for s in faces.shaped("SourceSans3-Regular", "a\x07\u202eb")) in ("ab", "a\u202eb")
    assert not faces.missing


@pytest.mark.parametrize("name", ["Nothing", "../fonts/DejaVuSans", ""])
def test_unknown_face(name: str) -> None:
    with pytest.raises(LayoutError, match="SourceSans3-Regular"):
        Faces().face(name)


def test_measuring_needs_no_shaping_or_pdf_library() -> None:
    import subprocess
    import sys

    code = ("from notation.page.fonts import Faces; Faces().shaped('SourceSans3-Regular', 'Waltz'); import sys; "
            "import notation.page.paginate; "
            "assert not {'uharfbuzz', 'reportlab', 'pyphen', 'fontTools'} & set(sys.modules)")
    subprocess.run([sys.executable, "-c", code], check=True)


def test_face_without_stored_table(tmp_path: Path) -> None:
    copy = tmp_path / "Other.ttf"
    copy.write_bytes(Faces().path("SourceSans3-Regular").read_bytes())
    own, stored = Faces(tmp_path).shaped("Other", "Tova"), Faces().shaped("SourceSans3-Regular", "Tova")
    assert [s.width for s in own] == pytest.approx([s.width for s in stored])
