"""Writes what reportlab has gathered as a file with object streams (ISO 32000-1, 7.5.7 and 7.5.8).

A tagged page has hundreds of small objects: packed together they take a tenth of the room, and less time.
"""
from __future__ import annotations

import struct
import zlib
from collections.abc import Mapping, Sequence
from itertools import islice
from typing import Any, TypeAlias

from reportlab.pdfbase.pdfdoc import PDFObject, PDFStream, format

PdfFile: TypeAlias = Any
"""The PDFDocument of reportlab; its published types lack the fields needed here."""

ROW = struct.Struct(">BIH")
PER_STREAM = 250
"""Objects in one object stream: a reader unpacks all of them to get one."""


class Reserved(PDFObject):
    """An object that has a number now and whose body comes with the further objects of `write_file`."""

    __RefOnly__ = 1

    def format(self, document: PdfFile) -> bytes:
        return b""


class Block:
    """Objects with numbers that follow each other, known beforehand; packed as they come, so that they take little
    room until the file is written. first: the number of the first; count: how many there will be."""

    def __init__(self, first: int, count: int) -> None:
        self.first = first
        self.count = count
        self.added = 0
        self.waiting: list[tuple[int, bytes]] = []
        self.streams: list[bytes] = []

    def add(self, body: bytes) -> None:
        """The next object."""
        self.waiting.append((self.first + self.added, body))
        self.added += 1
        if len(self.waiting) == PER_STREAM or self.added == self.count:
            self.streams.append(_object_stream(self.waiting))
            self.waiting = []


def reserved_block(document: PdfFile, count: int) -> Block:
    """A block of so many objects, whose numbers nothing else of the document gets."""
    block = Block(document.objectcounter + 1, count)
    document.objectcounter += count
    return block


def object_number(document: PdfFile, thing: PDFObject) -> int:
    """The number of the indirect object, which it gets now if it has none."""
    name = document.Reference(thing).name
    return int(document.idToObjectNumberAndVersion[name][0])


def write_file(document: PdfFile, blocks: Sequence[Block] = (), bodies: Mapping[int, bytes] | None = None) -> bytes:
    """All objects reachable by number, the catalog and the information dictionary among them.

    blocks: more objects, all of them added; bodies: those of reserved objects by number. ValueError for a block that is
    not full.
    """
    root, info = (document.Reference(thing).format(document) for thing in (document.Catalog, document.info))
    streams, others = _bodies(document)
    others.update(bodies or {})
    first = document.objectcounter + 1
    table = _Table(first + sum(len(block.streams) for block in blocks) + -(-len(others) // PER_STREAM) + 1)
    for block in blocks:
        first += _place_block(block, first, streams, table)
    _place_others(others, first, streams, table)
    parts, offset = [b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"], 15
    for number, body in streams.items():
        table.set(number, 1, offset)
        parts.append(b"%d 0 obj\n%sendobj\n" % (number, body))
        offset += len(parts[-1])
    number = table.size - 1
    table.set(number, 1, offset)
    identifier = document.signature.hexdigest().encode("ascii")
    trailer = b"/Root %s/Info %s/ID[<%s><%s>]" % (root, info, identifier, identifier)
    parts.append(b"%d 0 obj\n%sendobj\n" % (number, table.stream(trailer)))
    parts.append(b"startxref\n%d\n%%%%EOF\n" % offset)
    return b"".join(parts)


class _Table:
    """The rows of the cross-reference stream (7.5.8.3), seven bytes each: a book has millions."""

    def __init__(self, size: int) -> None:
        self.size = size
        self.rows = bytearray(ROW.size * size)
        self.set(0, 0, 0, 65535)

    def set(self, number: int, kind: int, place: int, index: int = 0) -> None:
        ROW.pack_into(self.rows, ROW.size * number, kind, place, index)

    def stream(self, trailer: bytes) -> bytes:
        return stream_object(b"/Type/XRef/W[1 4 2]/Size %d%s" % (self.size, trailer), bytes(self.rows))


def _place_block(block: Block, first: int, streams: dict[int, bytes], table: _Table) -> int:
    """Number the block's streams from `first` on and enter its objects; how many streams there are."""
    if block.added != block.count:
        raise ValueError(f"{block.added} objects where {block.count} were reserved")
    streams.update(enumerate(block.streams, first))
    for number in range(block.count):
        table.set(block.first + number, 2, first + number // PER_STREAM, number % PER_STREAM)
    return len(block.streams)


def _place_others(others: Mapping[int, bytes], first: int, streams: dict[int, bytes], table: _Table) -> None:
    """Pack the other objects into streams from number `first` on and enter them."""
    numbers = sorted(others)
    for start in range(0, len(numbers), PER_STREAM):
        chosen = numbers[start : start + PER_STREAM]
        stream = first + start // PER_STREAM
        streams[stream] = _object_stream([(each, others[each]) for each in chosen])
        for place, each in enumerate(chosen):
            table.set(each, 2, stream, place)


def _bodies(document: PdfFile) -> tuple[dict[int, bytes], dict[int, bytes]]:
    """Streams and other objects by number; formatting one may bring further ones."""
    streams: dict[int, bytes] = {}
    others: dict[int, bytes] = {}
    seen = 0
    while seen < len(document.numberToId):
        for number, name in list(islice(document.numberToId.items(), seen, None)):
            thing = document.idToObject[name]
            body: bytes = format(thing, document, toplevel=1)
            if isinstance(thing, PDFStream):
                # PDF/A wants the end of line that reportlab leaves out (ISO 19005-3, 6.1.7.1).
                streams[number] = body.removesuffix(b"endstream\n") + b"\nendstream\n"
            else:
                others[number] = body
            seen += 1
    return streams, others


def stream_object(dictionary: bytes, data: bytes) -> bytes:
    """A compressed stream with these entries in its dictionary."""
    packed = zlib.compress(data)
    return b"<<%s/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream\n" % (dictionary, len(packed), packed)


def _object_stream(objects: Sequence[tuple[int, bytes]]) -> bytes:
    offset, heads = 0, []
    for number, body in objects:
        heads.append(b"%d %d" % (number, offset))
        offset += len(body) + 1
    head = b" ".join(heads) + b"\n"
    data = head + b"\n".join(body for _, body in objects)
    return stream_object(b"/Type/ObjStm/N %d/First %d" % (len(objects), len(head)), data)
