"""The search of a finished PDF finds a text wherever it stands (ISO 32000-1: 7.9.2 text strings, 14.3 metadata,
14.9 text beside what is drawn, 7.11.4 embedded files)."""
from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import DecodedStreamObject, NameObject, TextStringObject

from notation.page.frame import Artifact, Attachment, Document, Frame, Metadata, PlacedText
from notation.page.pdf import paint_pdf
from notation.page.revealed import texts_of

FONTS = Path(__file__).parents[2] / "fonts"


def sheet(text: str = "Sheet", metadata: Metadata | None = None, files: tuple[Attachment, ...] = ()) -> bytes:
    placed = PlacedText(40, 40, text, "SourceSans3-Regular", 12, Artifact.LAYOUT)
    metadata = metadata or Metadata("Sheet")
    return paint_pdf(Document((Frame(300, 100, (placed,), "1"),), metadata, tagged=False, attachments=files), FONTS)


@pytest.mark.parametrize("name", ["Marlow", "Ångström", "Løvstrøm", "Κωστής"])
@pytest.mark.parametrize("place", ["page", "title", "author", "keyword", "file", "file name"])
def test_a_name_is_found(name: str, place: str) -> None:
    made = {
        "page": lambda: sheet(f"by {name}"),
        "title": lambda: sheet(metadata=Metadata(f"By {name}")),
        "author": lambda: sheet(metadata=Metadata("Sheet", author=name)),
        "keyword": lambda: sheet(metadata=Metadata("Sheet", keywords=(name,))),
        "file": lambda: sheet(files=(Attachment("d.yaml", f"# {name}".encode()),)),
        "file name": lambda: sheet(files=(Attachment(f"{name}.yaml", b"x"),)),
    }[place]()
    assert any(name in text for text in texts_of(made))


def changed(change: str, name: str) -> bytes:
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(sheet())))
    page = writer.pages[0]
    if change == "beside":
        for form in (f"({name})".encode(), b"<" + (b"\xfe\xff" + name.encode("utf-16-be")).hex().encode() + b">"):
            stream = DecodedStreamObject()
            stream.set_data(b"/Span <</ActualText " + form + b">> BDC EMC")
            writer._add_object(stream)
    else:
        page[NameObject("/PieceInfo")] = TextStringObject(name)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


@pytest.mark.parametrize("change", ["beside", "string"])
def test_a_name_unseen_is_found(change: str) -> None:
    assert any("Marlow" in text for text in texts_of(changed(change, "Marlow")))


def test_what_made_the_file_is_no_text_of_it() -> None:
    words = " ".join(texts_of(sheet())).lower()
    assert "sheet" in words
    assert not [word for word in ("adobe", "reportlab", "library", "lodestep", "sourcesans") if word in words]
