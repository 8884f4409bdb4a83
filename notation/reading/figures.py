"""The library of figures: one file a figure, read only when it is called for.

A writer's own figures, in the folder `figures` beside the dance, come before those of the library.
"""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from pathlib import Path

from notation import bounds
from notation.dance.feet import TurnOut
from notation.dance.figure import FAMILIES, Figure, Half, Unusable, Variant, plain_name
from notation.dance.mark import Mark
from notation.dance.metre import Metre
from notation.dance.room import Room
from notation.dance.script import LADY, Derivation
from notation.reading.fields import Fields, Findings, decimal, expect_choice, expect_fields, shown
from notation.reading.figureparts import read_head_of, read_lady, read_steps, replacements
from notation.reading.nodes import Mapping, Scalar, Sequence, Unreadable, read_nodes
from notation.reading.rhythms import parse_metre
from notation.reading.stepline import Reader
from notation.reading.words import lexicon

FOLDER = Path(__file__).parent.parent / "figures"
OWN = "figures"
KEYS = (
    "format", "name", "also", "family", "rhythms", "metre", "bars", "feet", "foot", "on other foot", "start", "from",
    "position", "steps", "gent", "lady", "opposite", "halves", "variants", "turn", "free", "follows", "head", "arms",
    "note", "hints", "cautions", "faults", "sources",
)
NAME_LINE = re.compile(r"^name: *([\w' -]+?) *$", re.MULTILINE)
ALSO_LINE = re.compile(r"^also: *\[([\w', -]*)\] *$", re.MULTILINE)
HINT = re.compile(r"\s*(?:(\d{1,2})\.)?(\S{1,6})\s+(\S.*)")
TURNED_OUT = ("turned-out", "old-time")
ANY_FOOT = "either"


@dataclass(slots=True, eq=False)
class FigureFolder:
    """The figures of one folder. The names are looked up in the files' first lines; a file is read when called for."""

    folder: Path
    language: str = "en"
    index: dict[str, list[Path]] | None = None
    read: dict[Path, Figure] = field(default_factory=dict)
    shown: dict[str, str] = field(default_factory=dict)

    def names(self) -> tuple[str, ...]:
        self._indexed()
        return tuple(self.shown.values())

    def named(self, name: str) -> tuple[Figure, ...]:
        return tuple(self._figure(path) for path in self._indexed().get(plain_name(name), ()))

    def figures(self) -> tuple[Figure, ...]:
        return tuple(self._figure(path) for path in self._paths())

    def _paths(self) -> list[Path]:
        """The folder's files in order. Raises Unusable where they are more than can be read in a moment."""
        paths = sorted(filter(self._own, self.folder.glob("*.yaml"))) if self.folder.is_dir() else []
        if len(paths) > bounds.FIGURE_FILES.most:
            raise Unusable(bounds.FIGURE_FILES.words)
        return paths

    def _own(self, path: Path) -> bool:
        """A plain file of this folder's parent, or below: no link leads out, no pipe keeps the reader waiting."""
        return path.is_file() and path.resolve().is_relative_to(self.folder.parent.resolve())

    def _indexed(self) -> dict[str, list[Path]]:
        if self.index is None:
            shown: dict[str, str] = {}
            index: dict[str, list[Path]] = {}
            for path in self._paths():
                for name in _names(path):
                    shown.setdefault(plain_name(name), name)
                    paths = index.setdefault(plain_name(name), [])
                    paths += [path] if path not in paths else []
            self.shown, self.index = shown, index  # whole before another thread sees it
        return self.index

    def _figure(self, path: Path) -> Figure:
        if path not in self.read:
            self.read[path] = load_figure(path, self.language)
        return self.read[path]


def _names(path: Path) -> Iterator[str]:
    """The names a file gives its figure; its own file name where it cannot be read, so that a call says why."""
    text = _text(path)
    name, also = NAME_LINE.search(text), ALSO_LINE.search(text)
    if name and (also or "\nalso:" not in text):
        yield name[1]
        yield from (word.strip() for word in (also[1].split(",") if also else ()) if word.strip())
        return
    try:
        root = read_nodes(text.encode(), path.name)
    except Unreadable:
        yield path.stem
        return
    fields = expect_fields(root, "a figure", KEYS, Findings())
    yield from (scalar.text for key in ("name", "also") for scalar in (fields.texts(key) if fields else ()))


def _text(path: Path) -> str:
    with path.open("rb") as file:
        return file.read(bounds.FILE_BYTES.most + 1).decode("utf-8-sig", "replace")


@dataclass(frozen=True, slots=True)
class FigureShelves:
    """Folders of figures, in the order in which they are asked."""

    folders: tuple[FigureFolder, ...]

    def names(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name for folder in self.folders for name in folder.names()))

    def named(self, name: str) -> tuple[Figure, ...]:
        for folder in self.folders:
            found = folder.named(name)
            if found:
                return found
        return ()

    def figures(self) -> tuple[Figure, ...]:
        return tuple(figure for folder in self.folders for figure in folder.figures())


@cache
def installed_figures(language: str = "en") -> FigureFolder:
    """The figures that belong to the program."""
    return FigureFolder(FOLDER, language)


def figures_beside(folder: Path, language: str = "en") -> FigureShelves:
    """The figures for a dance in that folder: its own `figures` first, then the library's."""
    own = FigureFolder(folder / OWN, language)
    return FigureShelves((own, installed_figures(language)) if own.folder.is_dir() else (installed_figures(language),))


def load_figure(path: Path, language: str = "en") -> Figure:
    """The figure in that file. Raises Unusable with the first thing that is wrong with it, and where."""
    try:
        with path.open("rb") as file:
            return read_figure(file.read(bounds.FILE_BYTES.most + 1), path.name, language)
    except OSError as fault:
        raise Unusable(f"{path.name} cannot be read: {fault.strerror}") from fault


def read_figure(source: bytes, file: str, language: str = "en") -> Figure:
    """The figure in these bytes. file: its name for messages. Raises Unusable."""
    findings = Findings()
    try:
        root = read_nodes(source, file)
    except Unreadable as fault:
        raise _unusable(fault.finding.mark, fault.finding.message) from None
    fields = expect_fields(root, "a figure", KEYS, findings)
    figure = _figure(fields, Reader(lexicon(language), findings)) if fields else None
    if findings.found:
        raise _unusable(findings.found[0].mark, findings.found[0].message)
    assert figure is not None
    return figure


def _unusable(mark: Mark, message: str) -> Unusable:
    return Unusable(f"{mark.file}:{mark.line}:{mark.column}: {message}")


def _figure(fields: Fields, reader: Reader) -> Figure | None:
    for key in ("name", "family", "metre", "bars", "start", "turn", "free"):
        if key not in fields.values:
            fields.findings.error("key-missing", fields.mark, f"the figure has no '{key}'; write one")
    family, metre, bars = _choice(fields, "family", FAMILIES), _metre(fields), _bars(fields)
    feet = _choice(fields, "feet", tuple(t.value for t in TurnOut))
    out = TurnOut(feet) if feet else TurnOut.TURNED_OUT if family in TURNED_OUT else TurnOut.PARALLEL
    gent = read_steps(fields, reader)
    if gent is None or family is None or metre is None or bars is None:
        return None
    lady = read_lady(fields, gent, out, reader)
    name = fields.line("name")
    return Figure(
        name, _list(fields, "also"), family, _list(fields, "rhythms"), metre, bars, out, gent, lady,
        opposite=_opposite(fields),
        lady_head=read_head_of(fields, LADY, reader),
        either=fields.words("foot").lower() == ANY_FOOT,
        mirror_name=fields.words("on other foot"),
        ways=tuple(_room(text, fields) for text in fields.texts("from")),
        positions=_list(fields, "position"),
        halves=tuple(_halves(fields)),
        variants=tuple(_variants(fields, reader, lady is not None)),
        joins=_list(fields, "follows"),
        arms=fields.words("arms", bounds.SCALAR),
        note=fields.words("note", bounds.SCALAR),
        cautions=_list(fields, "cautions"),
        faults=_list(fields, "faults"),
        hints=tuple(_hints(fields)),
        sources=tuple(_sources(fields)),
        mark=fields.mark,
    )


def _list(fields: Fields, key: str) -> tuple[str, ...]:
    return tuple(" ".join(scalar.text.split()) for scalar in fields.texts(key))


def _choice(fields: Fields, key: str, choices: tuple[str, ...]) -> str | None:
    scalar = fields.text(key)
    return expect_choice(scalar, key, choices, fields.findings) if scalar else None


def _metre(fields: Fields) -> Metre | None:
    scalar = fields.text("metre")
    metre = parse_metre(scalar.text) if scalar else None
    if scalar and metre is None:
        fields.findings.error("metre-unclear", scalar.mark, f"'{shown(scalar.text)}' is no metre; write 3/4 or 4/4")
    return metre


def _bars(fields: Fields) -> Fraction | None:
    scalar = fields.text("bars")
    if scalar is None:
        return None
    bars = decimal(scalar.text.strip())
    if bars is None or bars <= 0 or bars * 2 % 1 or bars > bounds.BARS.most:
        message = f"'bars' is how many bars the figure lasts, such as 2 or 1.5, not '{shown(scalar.text)}'"
        fields.findings.error("bars-unclear", scalar.mark, message)
        return None
    return bars


def _room(scalar: Scalar, fields: Fields) -> Room:
    rooms = {room.name.lower(): room for room in Room}
    found = rooms.get(scalar.text.strip().lower())
    if found is None:
        message = f"'{shown(scalar.text)}' is no alignment; write LOD, DC, centre, DCA, ALOD, DWA, wall or DW"
        fields.findings.error("unknown-choice", scalar.mark, message)
    return found or Room.LOD


def _opposite(fields: Fields) -> Derivation | str:
    text = " ".join(fields.words("opposite").lower().split()) or Derivation.OPPOSITE.value
    return Derivation(text) if text in {d.value for d in Derivation} else text.removeprefix("from ")


def _halves(fields: Fields) -> Iterator[Half]:
    node = fields.values.get("halves")
    for entry in node.entries if isinstance(node, Mapping) else ():
        first, _, last = entry.value.text.partition("-") if isinstance(entry.value, Scalar) else ("", "", "")
        if first.strip().isdecimal() and (last or first).strip().isdecimal():
            yield Half(" ".join(entry.key.text.lower().split()), int(first), int(last or first))
        else:
            fields.findings.error("bars-unclear", entry.value.mark, "a half is a bar or a range such as 1-2")


def _variants(fields: Fields, reader: Reader, two_parts: bool) -> Iterator[Variant]:
    node = fields.values.get("variants")
    for entry in node.entries if isinstance(node, Mapping) else ():
        name = " ".join(entry.key.text.lower().split())
        if isinstance(entry.value, Mapping):
            parts = {part.key.text: part.value for part in entry.value.entries}
            gent, lady = (replacements(parts.get(key), reader) for key in ("gent", "lady"))
            yield Variant(name, gent, lady)
        else:
            lines = replacements(entry.value, reader)
            yield Variant(name, lines, () if two_parts else lines)


def _hints(fields: Fields) -> Iterator[tuple[int, str, str]]:
    scalar = fields.text("hints", bounds.SCALAR)
    for row in scalar.rows if scalar else ():
        found = HINT.fullmatch(row.text)
        if found:
            yield int(found[1] or 1), found[2], found[3]
        elif row.text.strip():
            fields.findings.error("count-missing", row.mark(), "a hint begins with its count: '2.3  Rise.'")


def _sources(fields: Fields) -> Iterator[tuple[str, str]]:
    node = fields.values.get("sources")
    if isinstance(node, Mapping):
        for entry in node.entries:
            if isinstance(entry.value, Scalar):
                yield entry.key.text, " ".join(entry.value.text.split())
    elif isinstance(node, Scalar):
        yield "all", " ".join(node.text.split())
    elif isinstance(node, Sequence):
        yield from (("all", item.text) for item in node.items if isinstance(item, Scalar))
