"""The files of a book: found below its folder, and nothing outside of it read."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from notation.bounds import BOOK_DANCES, FILE_BYTES, PICTURE_BYTES, Bound
from notation.cli.folder import KEY, OF_A_DANCE, PASSED_OVER
from notation.dance.finding import Finding, Severity
from notation.dance.mark import Said

WILD = frozenset("*?[")
ENDINGS = (".yaml", ".yml")


@dataclass(frozen=True, slots=True)
class BookFile:
    """A file of a book. name: below the book's folder, as it is shown and attached; said: where the book names it."""

    path: Path
    name: str
    said: Said


class OutsideFault(ValueError):
    """A name that leads out of the book's folder; the words say so."""


def error(said: Said, rule: str, message: str) -> Finding:
    return Finding(rule, Severity.ERROR, said.mark, message)


def dance_files(named: tuple[Said, ...], book: Path) -> tuple[tuple[BookFile, ...], tuple[Finding, ...]]:
    """The dance files that the names and patterns of a book mean, each once, and what is wrong with them.

    book: the book's own file. Dances a pattern means are sorted by name; other YAML files there are passed over.
    """
    found: dict[Path, BookFile] = {}
    faults: list[Finding] = []
    for said in named:
        try:
            meant = list(_meant(said, book))
        except OutsideFault as fault:
            faults.append(error(said, "file-outside", str(fault)))
            continue
        if not meant:
            faults.append(error(said, "file-missing", _nothing(said)))
        for one in meant:
            found.setdefault(one.path.resolve(), one)
        if len(found) > BOOK_DANCES.most:
            return (), (error(said, "too-many-dances", BOOK_DANCES.words),)
    return tuple(found.values()), tuple(faults)


def _nothing(said: Said) -> str:
    if WILD & set(said.text):
        return f"'{said.text}' means no dance; look at the pattern and the folder"
    return f"there is no file '{said.text}' beside the book; look at its name and folder"


def _meant(said: Said, book: Path) -> Iterator[BookFile]:
    folder = book.parent
    refuse_outside(said.text)
    wild = bool(WILD & set(said.text))
    paths = sorted(folder.glob(said.text)) if wild else [folder / said.text]
    for path in paths:
        if not path.is_file() or (wild and not _plain(path, book)):
            continue
        inside(path, folder, said.text)
        if not wild or _is_dance(path):
            yield BookFile(path, path.relative_to(folder).as_posix(), said)


def refuse_outside(text: str) -> None:
    """OutsideFault for a name that is absolute or goes up, before anything is looked for."""
    parts = PurePosixPath(text.replace("\\", "/"))
    if parts.is_absolute() or ".." in parts.parts or ":" in text or text.startswith("~") or "\0" in text:
        raise OutsideFault(f"'{text}' leads out of the book's folder; put the file beside the book or below")


def inside(path: Path, folder: Path, text: str) -> None:
    """OutsideFault where a link leads out of the folder."""
    if not path.resolve().is_relative_to(folder.resolve()):
        raise OutsideFault(f"'{text}' is a link that leads out of the book's folder; put the file itself there")


def _plain(path: Path, book: Path) -> bool:
    """Whether a pattern means this file: YAML, not hidden, not the book, no figure and no layout."""
    parts = path.relative_to(book.parent).parts
    hidden = any(part.startswith(".") or part in PASSED_OVER for part in parts)
    return path.suffix in ENDINGS and not hidden and not path.samefile(book)


def _is_dance(path: Path) -> bool:
    """Files whose keys are those of something else are passed over; unreadable ones are kept, to be told of."""
    with path.open("rb") as file:
        data = file.read(FILE_BYTES.most)
    return bool(OF_A_DANCE.search(data)) or not KEY.search(data)


def file_beside(said: Said, book: Path, bound: Bound) -> bytes:
    """The bytes of a file below the book's folder. Raises OutsideFault, OSError, ValueError with the bound's words."""
    refuse_outside(said.text)
    path = book.parent / said.text
    inside(path, book.parent, said.text)
    if path.exists() and not path.is_file():
        raise ValueError(f"'{said.text}' is no file")
    with path.open("rb") as file:
        data = file.read(bound.most + 1)
    if len(data) > bound.most:
        raise ValueError(bound.words)
    return data


def picture_of(said: Said, book: Path) -> tuple[bytes | None, tuple[Finding, ...]]:
    """The bytes of the cover's picture, or why there are none."""
    from notation.page.raster import PictureError, read_picture

    try:
        data = file_beside(said, book, PICTURE_BYTES)
        read_picture(data)
    except OutsideFault as fault:
        return None, (error(said, "file-outside", str(fault)),)
    except OSError as fault:
        return None, (error(said, "file-missing", f"the picture '{said.text}' cannot be read: {fault.strerror}"),)
    except (PictureError, ValueError) as fault:
        return None, (error(said, "picture-unusable", f"'{said.text}': {fault}; save it as PNG or JPEG"),)
    return data, ()
