"""The sources carried inside a PDF, given back byte for byte.

The file may come from anyone: size, number, depth and time are bounded, and any damage ends in a RecoverError.
"""
from __future__ import annotations

import io
import time
import zlib
from collections.abc import Iterator
from hashlib import md5

from pypdf import PdfReader
from pypdf.generic import DictionaryObject, EncodedStreamObject, StreamObject

from notation import bounds
from notation.filenames import harmless

NAMELESS = "source.yaml"


class RecoverError(ValueError):
    """No sources can be had from this file; the message says why."""


class TimedBytes(io.BytesIO):
    """Bytes that can be read for so many seconds, so that no loop in a hostile file runs for ever."""

    def __init__(self, data: bytes, seconds: float, bound: bounds.Bound) -> None:
        super().__init__(data)
        self.until, self.bound = time.monotonic() + seconds, bound

    def read(self, size: int | None = -1, /) -> bytes:
        """As of any stream. Raises RecoverError once the moment has passed."""
        if time.monotonic() > self.until:
            raise RecoverError(self.bound.words)
        return super().read(size)


def recover_sources(pdf: bytes, seconds: float = bounds.PDF_SECONDS.most) -> tuple[tuple[str, bytes], ...]:
    """The embedded files as (name, bytes) in the order of the file's name tree; names are bare file names.

    RecoverError: no PDF, damaged, locked by a password, nothing embedded, or one of the bounds above is passed.
    """
    if len(pdf) > bounds.PDF_BYTES.most:
        raise RecoverError(bounds.PDF_BYTES.words)
    if b"%PDF-" not in pdf[:1024]:
        raise RecoverError("this is no PDF file")
    try:
        found = tuple(_embedded(TimedBytes(pdf, seconds, bounds.PDF_SECONDS)))
    except RecoverError:
        raise
    # A damaged file can make the parser fail in any way whatever.
    except Exception as fault:
        raise RecoverError("the PDF is damaged, its sources cannot be read") from fault
    if not found:
        raise RecoverError("no source is inside this PDF; it was not made by this program, or another one rewrote it")
    return found


def _embedded(stream: TimedBytes) -> Iterator[tuple[str, bytes]]:
    reader = PdfReader(stream, strict=False)
    if reader.is_encrypted:
        raise RecoverError("the PDF is locked by a password; save it without one first")
    root = _dictionary(reader.trailer.get("/Root"))
    tree = _dictionary(_dictionary(root.get("/Names")).get("/EmbeddedFiles"))
    for count, (name, entry) in enumerate(_name_tree(tree, set(), 0)):
        if count >= bounds.PDF_FILES.most:
            raise RecoverError(bounds.PDF_FILES.words)
        files, said = _dictionary(_dictionary(entry).get("/EF")), str(_dictionary(entry).get("/UF") or name)
        yield harmless(said, NAMELESS), _content(files.get("/UF") or files.get("/F"))


def _resolved(thing: object) -> object:
    return thing.get_object() if hasattr(thing, "get_object") else thing


def _dictionary(thing: object) -> DictionaryObject:
    found = _resolved(thing)
    return found if isinstance(found, DictionaryObject) else DictionaryObject()


def _items(thing: object) -> list[object]:
    found = _resolved(thing)
    return list(found) if isinstance(found, list) else []


def _name_tree(node: DictionaryObject, seen: set[int], depth: int) -> Iterator[tuple[object, object]]:
    """Name and value of each leaf (ISO 32000-1, 7.9.6)."""
    if id(node) in seen or depth > bounds.PDF_DEPTH.most:
        raise RecoverError(bounds.PDF_DEPTH.words)
    seen.add(id(node))
    names = _items(node.get("/Names"))
    yield from zip(map(_resolved, names[::2]), names[1::2], strict=False)
    for kid in _items(node.get("/Kids")):
        yield from _name_tree(_dictionary(kid), seen, depth + 1)


def _content(thing: object) -> bytes:
    stream = _resolved(thing)
    if not isinstance(stream, StreamObject):
        raise RecoverError("a file inside the PDF has no content")
    packed = _items(stream.get("/Filter")) or [_resolved(stream.get("/Filter"))]
    data = stream._data if isinstance(stream, EncodedStreamObject) else stream.get_data()
    if packed == ["/FlateDecode"] and "/DecodeParms" not in stream:
        data = _unpacked(data)
    elif packed != [None]:
        raise RecoverError("a file inside the PDF is packed in an unknown way")
    return _unharmed(_within(data), _dictionary(stream.get("/Params")))


def _unpacked(data: bytes) -> bytes:
    unpacker = zlib.decompressobj()
    found = _within(unpacker.decompress(data, bounds.PDF_FILE_BYTES.most + 1))
    if not unpacker.eof:
        raise RecoverError("a file inside the PDF is cut short")
    return found


def _unharmed(data: bytes, params: DictionaryObject) -> bytes:
    """The data if size and checksum, where the file states them, agree (ISO 32000-1, 7.11.4.1)."""
    size, checksum = _resolved(params.get("/Size")), _resolved(params.get("/CheckSum"))
    digest = getattr(checksum, "original_bytes", None)
    if size not in (None, len(data)) or digest not in (None, md5(data, usedforsecurity=False).digest()):
        raise RecoverError("a file inside the PDF is damaged: it is not what its checksum says")
    return data


def _within(data: bytes) -> bytes:
    if len(data) > bounds.PDF_FILE_BYTES.most:
        raise RecoverError(bounds.PDF_FILE_BYTES.words)
    return data
