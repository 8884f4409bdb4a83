"""Reading a layout: the shipped files of the folder `layouts`, or a writer's own, with findings as for a dance.

A layout says only what differs from its `base` (the standard sheet where it names none).
"""
from __future__ import annotations

import dataclasses
import enum
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from notation.bounds import WANTED_PAGES
from notation.dance.finding import Finding
from notation.dance.suggest import did_you_mean
from notation.installed import data_folder
from notation.layout import Borders, Calls, ColumnKey, Layout, Phrases, Repeats, Rows, Segment, Sizes
from notation.reading.fields import Fields, Findings, decimal, expect_choice, expect_fields, expect_text
from notation.reading.keyed import read_keyed
from notation.reading.nodes import Node, Scalar
from notation.reading.words import FILES

KEYS = ("format", "layout", "summary", "base", "paper", "orientation", "language", "columns", "rows", "repeats",
        "calls", "fold", "pages", "sizes", "faces", "margins", "wording", "templates", "phrases", "show", "glyph",
        "small", "grey")
WORDING_KEYS = ("form", "gent", "lady", "order", "tied", "separator")
PAPERS = ("A3", "A4", "A5", "A6", "A7", "Letter", "Legal")
ANY_PAPER = "other"
FOLDS = ("4", "8", "none")
RATIOS = {"glyph": (0.5, 3.0), "small": (0.6, 1.0), "grey": (0.0, 0.46)}
"""Bounds of numbers; the lightest grey has a contrast of 4.5:1 against white (WCAG 2.2, 1.4.3)."""

Made = TypeVar("Made")
Named = TypeVar("Named", bound=enum.Enum)


@dataclass(frozen=True, slots=True)
class LayoutReading:
    """layout: None only where the file is unusable. lines: of the file, for showing findings."""

    layout: Layout | None
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]


def layout_names() -> tuple[str, ...]:
    """The names of the shipped layouts."""
    return tuple(sorted(path.stem for path in data_folder("layouts").glob("*.yaml")))


@cache
def load_layout(name: str) -> Layout:
    """A shipped layout. Raises KeyError where there is none of that name, ValueError where its file is faulty."""
    if name not in layout_names():
        raise KeyError(name)
    path = data_folder("layouts") / f"{name}.yaml"
    reading = read_layout(path.read_bytes(), str(path))
    if reading.layout is None or reading.findings:
        raise ValueError(f"the layout '{name}' that belongs to this program is faulty; install it again")
    return reading.layout


def unknown_layout(name: str) -> str:
    """The message for a name that no shipped layout has."""
    hint, _ = did_you_mean(name, layout_names())
    return f"there is no layout '{name}'{hint or '; there are ' + ', '.join(layout_names())}"


def read_layout(source: bytes, file: str) -> LayoutReading:
    """A layout file. file: its name for marks."""
    stem = Path(file).stem
    return LayoutReading(*read_keyed(source, file, "a layout", KEYS, lambda fields: _layout(fields, stem)))


def _layout(fields: Fields, stem: str) -> Layout:
    base = _base(fields)
    changed: dict[str, Any] = {"name": fields.words("layout") or stem, "summary": fields.words("summary")}
    changed |= dict(_plain(fields))
    changed |= {key: made for key, made in _parts(fields, base) if made is not None}
    return replace(base, **changed)


def _base(fields: Fields) -> Layout:
    said = fields.text("base")
    if said is None:
        return Layout()
    name = said.text.strip()
    if name not in layout_names():
        hint, near = did_you_mean(name, layout_names())
        fields.findings.error("unknown-layout", said.mark, f"there is no layout '{name}' to start from{hint}", near)
        return Layout()
    return load_layout(name)


def _plain(fields: Fields) -> Iterator[tuple[str, Any]]:
    """What stands by itself, where it is said and right."""
    paper = fields.choice("paper", PAPERS)
    if paper:
        yield "paper", paper
    language = fields.choice("language", tuple(FILES))
    if language:
        yield "language", language
    held = fields.choice("orientation", ("portrait", "landscape"))
    if held:
        yield "landscape", held == "landscape"
    for key, kind in (("rows", Rows), ("repeats", Repeats), ("calls", Calls)):
        chosen = fields.choice(key, tuple(str(one.value) for one in kind))
        if chosen:
            yield key, kind(chosen)
    pages = fields.number("pages", 1, WANTED_PAGES, "pages")
    if pages:
        yield "pages", pages
    fold = fields.choice("fold", FOLDS)
    if fold:
        yield "fold", int(fold) if fold.isdigit() else None
    for key, (least, most) in RATIOS.items():
        value = _length(fields, key, least, most)
        if value is not None:
            yield key, value


def _parts(fields: Fields, base: Layout) -> Iterator[tuple[str, Any]]:
    findings = fields.findings
    yield "columns", _columns(fields)
    yield "sizes", _sizes(fields.values.get("sizes"), base, findings)
    yield "faces", _texts(fields.values.get("faces"), "faces", base.faces, findings)
    yield "borders", _borders(fields.values.get("margins"), base.borders, findings)
    yield "wording", _wording(fields.values.get("wording"), base, findings)
    yield "templates", _texts(fields.values.get("templates"), "templates", base.templates, findings)
    yield "phrases", _phrases(fields.values.get("phrases"), base, findings)
    yield "shows", _switches(fields.values.get("show"), base, findings)


def _choices(fields: Fields, key: str, kind: type[Named]) -> tuple[Named, ...] | None:
    """A list of words, each once."""
    if key not in fields.values:
        return None
    words = tuple(str(one.value) for one in kind)
    said = [expect_choice(scalar, key, words, fields.findings) for scalar in fields.texts(key)]
    return tuple(dict.fromkeys(kind(word) for word in said if word))


def _columns(fields: Fields) -> tuple[ColumnKey, ...] | None:
    found = _choices(fields, "columns", ColumnKey)
    if found is not None and not found:
        fields.findings.error("no-columns", fields.values["columns"].mark, "a layout needs at least one column")
        return None
    return found


def _length(fields: Fields, key: str, least: float, most: float) -> float | None:
    """A number within bounds; None where it is missing or faulty."""
    scalar = fields.text(key)
    value = decimal(scalar.text.strip()) if scalar else None
    if scalar is None:
        return None
    if value is None or not least <= value <= most:
        message = f"'{key}' must be a number from {least:g} to {most:g}, not '{scalar.text[:40]}'"
        fields.findings.error("number-out-of-range", scalar.mark, message)
        return None
    return float(value)


def _sizes(node: Node | None, base: Layout, findings: Findings) -> tuple[tuple[str, Sizes], ...] | None:
    fields = expect_fields(node, "sizes", (ANY_PAPER, *(p.lower() for p in PAPERS)), findings) if node else None
    if fields is None:
        return None
    papers = {p.lower(): p for p in PAPERS} | {ANY_PAPER: ""}
    said = {}
    for key, value in fields.values.items():
        said[papers[key]] = _size(value, key, base.sizes_on(papers[key]), findings)
    kept = {} if "" in said else dict(base.sizes)
    return tuple((kept | said).items())


def _size(node: Node, what: str, base: Sizes, findings: Findings) -> Sizes:
    fields = expect_fields(node, what, ("least", "most", "leading"), findings)
    if fields is None:
        return base
    least = _length(fields, "least", 4.0, 72.0) or base.least
    most = _length(fields, "most", 4.0, 72.0) or max(base.most, least)
    if least > most:
        message = f"the least size, {least:g}, is larger than the most, {most:g}; exchange them"
        findings.error("number-out-of-range", fields.mark, message)
        return base
    return Sizes(least, most, _length(fields, "leading", 1.0, 2.5) or base.leading)


def _texts(node: Node | None, what: str, base: Made, findings: Findings) -> Made | None:
    """A value whose fields are all texts, with those that are said changed."""
    names = {field.name: field.name.replace("_", " ").strip() for field in dataclasses.fields(base)}  # type: ignore[arg-type]
    fields = expect_fields(node, what, tuple(names.values()), findings) if node else None
    if fields is None:
        return None
    changed: dict[str, Any] = {}
    for name, key in names.items():
        value = fields.values.get(key)
        if isinstance(value, Scalar):
            changed[name] = value.text
        elif value is not None:
            expect_text(value, key, findings)
    return replace(base, **changed)  # type: ignore[type-var]


def _phrases(node: Node | None, base: Layout, findings: Findings) -> tuple[tuple[str, str], ...] | None:
    """What a layout says in other words than its language, with what its base says so."""
    keys = tuple(field.name.replace("_", " ").strip() for field in dataclasses.fields(Phrases))
    fields = expect_fields(node, "phrases", keys, findings) if node else None
    if fields is None:
        return None
    said = {key: expect_text(value, key, findings) for key, value in fields.values.items()}
    return tuple((dict(base.phrases) | {key: text.text for key, text in said.items() if text}).items())


def _borders(node: Node | None, base: Borders, findings: Findings) -> Borders | None:
    fields = expect_fields(node, "margins", ("top", "bottom", "inner", "outer"), findings) if node else None
    if fields is None:
        return None
    said = {key: _length(fields, key, 5.0, 80.0) for key in fields.values}
    return replace(base, **{key: value for key, value in said.items() if value is not None})


def _wording(node: Node | None, base: Layout, findings: Findings) -> Any:
    fields = expect_fields(node, "wording", WORDING_KEYS, findings) if node else None
    if fields is None:
        return None
    form = fields.choice("form", ("words", "shorthand"))
    changed: dict[str, Any] = {key: fields.words(key) for key in ("gent", "lady") if fields.words(key)}
    changed |= {} if form is None else {"shorthand": form == "shorthand"}
    for key in ("order", "tied"):
        listed = _choices(fields, key, Segment)
        changed |= {} if listed is None else {key: listed}
    separator = fields.values.get("separator")
    if isinstance(separator, Scalar):
        changed["separator"] = separator.text
    made = replace(base.wording, **changed)
    _refuse_loss(made.order, fields)
    return made


def _refuse_loss(order: tuple[Segment, ...], fields: Fields) -> None:
    """A layout may order the parts of a step but must not drop any, else a sheet would lose words of the dance."""
    missing = [segment.value for segment in Segment if segment not in order]
    if missing and "order" in fields.values:
        message = f"the order of a step leaves out {', '.join(missing)}; add them, or words of the dance would be lost"
        fields.findings.error("order-incomplete", fields.values["order"].mark, message)


def _switches(node: Node | None, base: Layout, findings: Findings) -> Any:
    names = tuple(field.name for field in dataclasses.fields(base.shows))
    fields = expect_fields(node, "show", names, findings) if node else None
    if fields is None:
        return None
    return replace(base.shows, **{key: fields.switch(key, getattr(base.shows, key)) for key in fields.values})

