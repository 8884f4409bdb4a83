"""Every text that a PDF made here holds: what its pages show, and what stands beside them unseen.

For the search for names that must not be told. It is for files of our own making; those of strangers are opened only
in a process of their own (apart.py).
"""
from __future__ import annotations

import io
import re
from collections.abc import Iterator
from html import unescape
from itertools import chain

from pypdf import PdfReader
from pypdf.generic import (
    ArrayObject,
    ByteStringObject,
    DictionaryObject,
    IndirectObject,
    StreamObject,
    TextStringObject,
)

BESIDE = re.compile(rb"/(?:ActualText|Alt|E|Lang)\s*(?:\(((?:\\.|[^\\)])*)\)|<([0-9A-Fa-f\s]*)>)", re.DOTALL)
"""Text that stands beside what a page draws (ISO 32000-1, 14.9)."""
SCHEMAS = re.compile(r"<pdfaExtension:schemas>.*?</pdfaExtension:schemas>", re.DOTALL)
"""What a packet says of its own form (ISO 19005-3, 6.6.2.3)."""
UTF_16 = b"\xfe\xff"
UNREAD = frozenset(("/XRef", "/ObjStm", "/XObject"))
"""Streams that are structure or drawings; the objects within are looked at by themselves, the pages are read whole."""


def texts_of(pdf: bytes) -> Iterator[str]:
    """All texts: pages, descriptions, outline, metadata, embedded files and their names.

    Left out: names of faces, and the programs that made the file.
    """
    return pages_and_texts(pdf)[1]


def pages_and_texts(pdf: bytes) -> tuple[list[str], Iterator[str]]:
    """What each page shows, in the order it is drawn; and all texts, those of the pages among them."""
    reader = PdfReader(io.BytesIO(pdf))
    made_by = (reader.metadata.producer, reader.metadata.creator) if reader.metadata else ()
    pages = [page.extract_text() for page in reader.pages]
    return pages, (text for text in chain(pages, _beside(reader)) if text not in made_by)


def _beside(reader: PdfReader) -> Iterator[str]:
    """What stands beside the pages, unseen."""
    for number in range(1, int(str(reader.trailer["/Size"]))):
        thing = IndirectObject(number, 0, reader).get_object()
        yield from _texts(thing)
        if isinstance(thing, StreamObject):
            yield from _stream_texts(thing)


def _texts(thing: object) -> Iterator[str]:
    """The text strings of an object; what it refers to is looked at by itself."""
    if isinstance(thing, TextStringObject):
        yield str(thing)
    elif isinstance(thing, ByteStringObject):
        yield thing.decode("latin-1")
    elif isinstance(thing, ArrayObject):
        for one in thing:
            yield from _texts(one)
    elif isinstance(thing, DictionaryObject) and thing.get("/Type") not in UNREAD:
        for key in thing:
            yield from _texts(thing.raw_get(key))


def _stream_texts(stream: StreamObject) -> Iterator[str]:
    kind = stream.get("/Type")
    if kind in UNREAD or "/Length1" in stream or "/Alternate" in stream or "/Subtype" in stream and kind is None:
        return
    data = stream.get_data()
    if kind == "/Metadata":
        packet = SCHEMAS.sub("", data.decode("utf-8", "replace"))
        yield from filter(str.strip, map(unescape, re.split(r"<[^>]*>", packet)))
    elif kind == "/EmbeddedFile":
        yield data.decode("utf-8", "replace")
    else:
        yield from (_decoded(found[1], found[2]) for found in BESIDE.finditer(data))


def _decoded(literal: bytes | None, digits: bytes | None) -> str:
    """A string of a content stream, as text."""
    plain = re.sub(rb"\\(.)", rb"\1", literal, flags=re.DOTALL) if literal is not None else bytes.fromhex(
        (digits or b"").decode("ascii"))
    return plain[2:].decode("utf-16-be", "replace") if plain.startswith(UTF_16) else plain.decode("latin-1")
