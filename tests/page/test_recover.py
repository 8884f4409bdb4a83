"""Sources out of PDFs: from our own files, from files other programs rewrote, and from damaged and hostile ones."""
from __future__ import annotations

import io
import random
import re
import time
import zlib
from dataclasses import replace
from hashlib import md5

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    ByteStringObject,
    DecodedStreamObject,
    DictionaryObject,
    NameObject,
    TextStringObject,
)
from sample_sheet import FONTS, SOURCE, sample

from notation import bounds
from notation.filenames import harmless
from notation.page.frame import Attachment, Document, Frame, Metadata
from notation.page.pdf import paint_pdf
from notation.page.recover import NAMELESS, RecoverError, recover_sources


def carrying(*attachments: Attachment) -> bytes:
    return paint_pdf(Document((Frame(50, 50, ()),), Metadata("T"), attachments=attachments), FONTS)


@pytest.mark.parametrize("tagged", [True, False])
def test_source_comes_back_byte_for_byte(tagged: bool) -> None:
    assert recover_sources(paint_pdf(sample(tagged), FONTS)) == (("harbour-lights.yaml", SOURCE),)


def test_any_bytes_and_many_files() -> None:
    files = [(f"{n:03} Wälzer.yaml", bytes(range(256)) * n) for n in range(120)]
    found = recover_sources(carrying(*(Attachment(name, data) for name, data in files)))
    assert sorted(found) == files


def test_after_another_program_wrote_it() -> None:
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(paint_pdf(sample(), FONTS))))
    out = io.BytesIO()
    writer.write(out)
    assert recover_sources(out.getvalue()) == (("harbour-lights.yaml", SOURCE),)


def test_attached_by_another_program() -> None:
    writer = PdfWriter()
    writer.add_blank_page(9, 9)
    writer.add_attachment("../../home/waltz.yaml", SOURCE)
    out = io.BytesIO()
    writer.write(out)
    assert recover_sources(out.getvalue()) == (("waltz.yaml", SOURCE),)


@pytest.mark.parametrize("name", ["..", "", "/", "a/..", "\u202e", "\x00"])
def test_names_that_are_none(name: str) -> None:
    assert harmless(name, NAMELESS) == NAMELESS


@pytest.mark.parametrize(
    "pdf", [b"", b"title: x\n", b"%PDF-1.7\n", b"%PDF-1.7\n%%EOF\n", b"%PDF-1.7\ntrailer<</Root 1 0 R>>"]
)
def test_what_is_no_pdf(pdf: bytes) -> None:
    with pytest.raises(RecoverError):
        recover_sources(pdf)


def test_nothing_inside() -> None:
    with pytest.raises(RecoverError, match="no source"):
        recover_sources(carrying())


def test_locked_by_a_password() -> None:
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(paint_pdf(sample(), FONTS))))
    writer.encrypt("secret", algorithm="RC4-128")
    out = io.BytesIO()
    writer.write(out)
    with pytest.raises(RecoverError, match="password"):
        recover_sources(out.getvalue())


def test_damaged_anywhere() -> None:
    """Cut short or with bytes changed it gives the source, or a RecoverError, and never anything else."""
    whole, chance = paint_pdf(sample(bars=1), FONTS), random.Random(3)
    for _ in range(60):
        pdf = bytearray(whole[: chance.randrange(len(whole))] if chance.random() < 0.3 else whole)
        for _ in range(chance.choice((1, 5, 40, 400))):
            if pdf:
                pdf[chance.randrange(len(pdf))] = chance.randrange(256)
        try:
            found = recover_sources(bytes(pdf), seconds=5)
        except RecoverError:
            continue
        assert [data for _, data in found] == [SOURCE]


def test_damage_that_still_unpacks_is_noticed() -> None:
    """Stored without compression, no unpacker can notice a changed letter: the checksum does."""
    stream = DecodedStreamObject()
    stream.set_data(SOURCE)
    digest = ByteStringObject(md5(SOURCE.replace(b"16", b"17")).digest())
    stream[NameObject("/Params")] = DictionaryObject({NameObject("/CheckSum"): digest})
    entry = DictionaryObject({NameObject("/EF"): DictionaryObject({NameObject("/F"): stream})})
    tree = DictionaryObject({NameObject("/Names"): ArrayObject([TextStringObject("a"), entry])})
    with pytest.raises(RecoverError, match="checksum"):
        recover_sources(hostile(tree))


def hostile(tree: DictionaryObject) -> bytes:
    writer = PdfWriter()
    writer.add_blank_page(9, 9)
    names = DictionaryObject({NameObject("/EmbeddedFiles"): tree})
    writer.root_object[NameObject("/Names")] = names
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def test_a_bomb_is_not_unpacked() -> None:
    """50 MB of zeros in 50 kB."""
    bomb = DecodedStreamObject()
    bomb.set_data(zlib.compress(bytes(50_000_000)))
    bomb[NameObject("/Filter")] = NameObject("/FlateDecode")
    entry = DictionaryObject({NameObject("/EF"): DictionaryObject({NameObject("/F"): bomb})})
    tree = DictionaryObject({NameObject("/Names"): ArrayObject([TextStringObject("a"), entry])})
    with pytest.raises(RecoverError):
        recover_sources(hostile(tree))


def test_a_circle_of_names() -> None:
    pdf = hostile(DictionaryObject({NameObject("/Kids"): ArrayObject()}))
    reader = PdfReader(io.BytesIO(pdf))
    writer = PdfWriter(clone_from=reader)
    names = writer.root_object["/Names"]
    assert isinstance(names, DictionaryObject)
    node = writer._add_object(DictionaryObject())
    node.get_object()[NameObject("/Kids")] = ArrayObject([node, node])  # type: ignore[index]
    names[NameObject("/EmbeddedFiles")] = node
    out = io.BytesIO()
    writer.write(out)
    with pytest.raises(RecoverError, match=bounds.PDF_DEPTH.words):
        recover_sources(out.getvalue())


@pytest.mark.parametrize(("name", "most"), [("PDF_FILE_BYTES", 4999), ("PDF_FILES", 1), ("PDF_BYTES", 100)])
def test_bounds_on_size_and_number(name: str, most: int, monkeypatch: pytest.MonkeyPatch) -> None:
    pdf = carrying(Attachment("a", bytes(5000)), Attachment("b", b""))
    lower = replace(getattr(bounds, name), most=most)
    monkeypatch.setattr(bounds, name, lower)
    with pytest.raises(RecoverError, match=re.escape(lower.words)):
        recover_sources(pdf)


def test_bound_on_time() -> None:
    begun = time.monotonic()
    with pytest.raises(RecoverError, match=bounds.PDF_SECONDS.words):
        recover_sources(paint_pdf(sample(), FONTS), seconds=-1)
    assert time.monotonic() - begun < 5
