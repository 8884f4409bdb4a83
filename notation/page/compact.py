"""Writes what reportlab has gathered as a file with object streams (ISO 32000-1, 7.5.7 and 7.5.8).

A tagged page has hundreds of small objects: packed together they take a tenth of the room, and less time.
"""
from __future__ import annotations

import struct
import zlib
from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeAlias

from reportlab.pdfbase.pdfdoc import PDFObject, PDFStream, format

PdfFile: TypeAlias = Any
"""The PDFDocument of reportlab; its published types lack the fields needed here."""

PER_STREAM = 250
"""Objects in one object stream: a reader unpacks all of them to get one."""

Entry = tuple[int, int, int]
"""A row of the cross-reference stream: its type and two fields (7.5.8.3)."""


class Reserved(PDFObject):
    """An object that has a number now and whose body comes with the further objects of `write_file`."""

    __RefOnly__ = 1

    def format(self, document: PdfFile) -> bytes:
        return b""


def object_number(document: PdfFile, thing: PDFObject) -> int:
    """The number of the indirect object, which it gets now if it has none."""
    name = document.Reference(thing).name
    return int(document.idToObjectNumberAndVersion[name][0])


def write_file(document: PdfFile, further: Callable[[int], Mapping[int, bytes]]) -> bytes:
    """All objects reachable by number, the catalog and the information dictionary among them.

    further: the bodies of more objects by number, from the first number that is free on, and of reserved ones.
    """
    root, info = (document.Reference(thing).format(document) for thing in (document.Catalog, document.info))
    streams, others = _bodies(document)
    others.update(further(len(streams) + len(others) + 1))
    entries: dict[int, Entry] = {0: (0, 0, 65535)}
    parts, offset = [b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"], 15
    streams = {**streams, **_packed(others, len(streams) + len(others) + 1, entries)}
    for number, body in streams.items():
        entries[number] = (1, offset, 0)
        parts.append(b"%d 0 obj\n%sendobj\n" % (number, body))
        offset += len(parts[-1])
    number = len(entries)
    entries[number] = (1, offset, 0)
    identifier = document.signature.hexdigest().encode("ascii")
    trailer = b"/Root %s/Info %s/ID[<%s><%s>]" % (root, info, identifier, identifier)
    parts.append(b"%d 0 obj\n%sendobj\n" % (number, _cross_reference(entries, trailer)))
    parts.append(b"startxref\n%d\n%%%%EOF\n" % offset)
    return b"".join(parts)


def _bodies(document: PdfFile) -> tuple[dict[int, bytes], dict[int, bytes]]:
    """Streams and other objects by number; formatting one may bring further ones."""
    streams: dict[int, bytes] = {}
    others: dict[int, bytes] = {}
    number = 1
    while number in document.numberToId:
        thing = document.idToObject[document.numberToId[number]]
        body: bytes = format(thing, document, toplevel=1)
        if isinstance(thing, PDFStream):
            # PDF/A wants the end of line that reportlab leaves out (ISO 19005-3, 6.1.7.1).
            streams[number] = body.removesuffix(b"endstream\n") + b"\nendstream\n"
        else:
            others[number] = body
        number += 1
    return streams, others


def stream_object(dictionary: bytes, data: bytes) -> bytes:
    """A compressed stream with these entries in its dictionary."""
    packed = zlib.compress(data)
    return b"<<%s/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream\n" % (dictionary, len(packed), packed)


def _packed(others: Mapping[int, bytes], first: int, entries: dict[int, Entry]) -> dict[int, bytes]:
    """The object streams, numbered from `first`; the place of each object goes into the entries."""
    numbers = sorted(others)
    streams: dict[int, bytes] = {}
    for start in range(0, len(numbers), PER_STREAM):
        chosen = numbers[start : start + PER_STREAM]
        number = first + len(streams)
        streams[number] = _object_stream([(each, others[each]) for each in chosen])
        entries.update((each, (2, number, place)) for place, each in enumerate(chosen))
    return streams


def _object_stream(objects: Sequence[tuple[int, bytes]]) -> bytes:
    offset, heads = 0, []
    for number, body in objects:
        heads.append(b"%d %d" % (number, offset))
        offset += len(body) + 1
    head = b" ".join(heads) + b"\n"
    data = head + b"\n".join(body for _, body in objects)
    return stream_object(b"/Type/ObjStm/N %d/First %d" % (len(objects), len(head)), data)


def _cross_reference(entries: Mapping[int, Entry], trailer: bytes) -> bytes:
    rows = b"".join(struct.pack(">BIH", *entries[number]) for number in range(len(entries)))
    return stream_object(b"/Type/XRef/W[1 4 2]/Size %d%s" % (len(entries), trailer), rows)
