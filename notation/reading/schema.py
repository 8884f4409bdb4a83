"""JSON Schemas of the files that are read, for editors that complete and check (draft 2020-12).

Keys come from the key tables of the readers, words from their enumerations and tables, sizes from the bounds, so that
reader and schema cannot come apart unnoticed: a key without a shape is an error here. What takes knowledge of the
trade (step lines, whether bars fill) is for `lodestep check`.
"""
from __future__ import annotations

import dataclasses
from collections.abc import Callable

from notation import bounds
from notation.dance.book import FillWith, IndexOf, Order
from notation.dance.feet import TurnOut
from notation.dance.figure import FAMILIES
from notation.dance.hold import Hold, Position
from notation.layout import Calls, ColumnKey, FaceNames, Phrases, Repeats, Rows, Segment, Shows, Templates
from notation.reading import book as book_file
from notation.reading import dance, figures, layout, passage, programme
from notation.reading.fields import NO
from notation.reading.figures import installed_figures
from notation.reading.layout import ANY_PAPER, PAPERS, RATIOS, WORDING_KEYS, layout_names
from notation.reading.positions import load_holds, load_positions
from notation.reading.rhythms import MOST_BEATS, UNITS, load_rhythms
from notation.reading.shapes import (
    Shape,
    any_text,
    choice,
    choice_of,
    decimals,
    free_mapping,
    has,
    mapping,
    matching,
    offered,
    one_or_list,
    prose,
    switch,
    text,
    whole,
)
from notation.reading.words import FILES

DRAFT = "https://json-schema.org/draft/2020-12/schema"
FORMAT = {"anyOf": [{"const": 1}, matching("1")]}
NUMBER = r"\d+(?:\.\d*)?"
BAR_RANGE = r"\d{1,6}(?:\s*[-–]\s*\d{1,6})?"


def _bars() -> Shape:
    return {"anyOf": [{"type": "integer", "minimum": 1, "maximum": bounds.BARS.most}, matching(BAR_RANGE)]}


def _metre() -> Shape:
    beats = "|".join(map(str, range(1, MOST_BEATS + 1)))
    return matching(rf"0?(?:{beats})\s*/\s*0?(?:{'|'.join(map(str, UNITS))})")


def _tempo() -> Shape:
    bars = {"type": "number", "exclusiveMinimum": 0, "maximum": bounds.TEMPO.most}
    return {"anyOf": [bars, matching(rf"{NUMBER}(?:\s*(?:[-–]|to)\s*{NUMBER})?(?:\s*[A-Za-z ]+)?")]}


def _rows(rows: tuple[Position, ...] | tuple[Hold, ...]) -> Shape:
    return offered(row.name for row in rows)


def _rhythm() -> Shape:
    return offered(row.name for row in load_rhythms())


def _head() -> Shape:
    return {"anyOf": [*text()["anyOf"], mapping({"gent": text(), "lady": text()})]}


def _part() -> Shape:
    """A call of a figure, a derivation, or step lines; an editor offers what is one word or a figure's name."""
    return offered(("opposite", "mirror", "same", *sorted(set(installed_figures().names()))), bounds.SCALAR)


def _keyed(keys: tuple[str, ...], shapes: dict[str, Shape], needed: tuple[str, ...] = ()) -> Shape:
    """A mapping of exactly the reader's keys. Raises ValueError where a key has no shape, or a shape no key."""
    if set(keys) != set(shapes):
        raise ValueError(f"keys and shapes differ: {sorted(set(keys) ^ set(shapes))}")
    return mapping({key: shapes[key] for key in keys}, needed)


def _passage() -> Shape:
    made = _keyed(passage.KEYS, {
        "bars": _bars(), "figure": text(), "gent": _part(), "lady": _part(), "position": _rows(load_positions()),
        "hold": _rows(load_holds()), "head": _head(), "arms": text(), "note": text(), "repeat": _bars(),
        "on": choice(("opposite feet",)), "exchange": choice(("parts",)),
    }, ("bars",))
    made["dependentSchemas"] = {"repeat": {"properties": {"gent": False, "lady": False}}}
    made["dependentRequired"] = {"on": ["repeat"], "exchange": ["repeat"]}
    return made


def dance_schema() -> Shape:
    """A dance file."""
    start = _keyed(dance.START_KEYS, {
        "position": _rows(load_positions()), "hold": _rows(load_holds()), "gent": text(), "lady": text()})
    made = _keyed(dance.KEYS, {
        "format": FORMAT, "title": text(bounds.TITLE), "arranged by": one_or_list(text()),
        "year": whole(1, bounds.YEAR), "rhythm": _rhythm(), "metre": _metre(), "tempo": _tempo(),
        "introduction": whole(0, bounds.BARS, "bars"), "length": whole(1, bounds.BARS, "bars"),
        "feet": choice_of(TurnOut), "music": text(), "notes": prose(), "start": start,
        "sequence": {"type": "array", "minItems": 1, "items": _passage()},
    }, ("title", "length", "sequence"))
    made["anyOf"] = [has("rhythm"), has("metre")]
    return made


def book_schema() -> Shape:
    """A book of dances."""
    return _keyed(book_file.KEYS, {
        "format": FORMAT, "title": text(bounds.TITLE), "club": text(), "season": text(), "picture": text(),
        "picture words": text(), "dances": one_or_list(text()), "order": choice_of(Order), "cover": switch(),
        "contents": switch(), "abbreviations": switch(), "indexes": _indexes(), "section pages": switch(),
        "run together": switch(), "notes pages": whole(0, bounds.NOTES_PAGES, "pages"),
        "fill": whole(1, bounds.FILL, "pages"), "fill with": choice_of(FillWith),
        "layout": offered(layout_names()), "paper": choice(PAPERS), "orientation": _orientation(),
    }, ("title", "dances"))


def _indexes() -> Shape:
    return one_or_list({"anyOf": [*choice((*(one.value for one in IndexOf), *NO))["anyOf"], {"const": False}]})


def _orientation() -> Shape:
    return choice(("portrait", "landscape"))


def layout_schema() -> Shape:
    """A layout."""
    size = mapping({"least": decimals(4, 72), "most": decimals(4, 72), "leading": decimals(1, 2.5)})
    papers = (ANY_PAPER, *(paper.lower() for paper in PAPERS))
    margins = mapping({side: decimals(5, 80) for side in ("top", "bottom", "inner", "outer")})
    return _keyed(layout.KEYS, {
        "format": any_text(), "layout": text(), "summary": text(), "base": choice(layout_names()),
        "paper": choice(PAPERS), "orientation": _orientation(), "language": choice(FILES),
        "columns": _listed(choice_of(ColumnKey)), "rows": choice_of(Rows), "repeats": choice_of(Repeats),
        "calls": choice_of(Calls), "fold": _fold(), "pages": whole(1, bounds.WANTED_PAGES, "pages"),
        "sizes": mapping(dict.fromkeys(papers, size)), "faces": _texts_of(FaceNames), "margins": margins,
        "wording": _wording(), "templates": _texts_of(Templates), "phrases": _phrases(),
        "show": mapping({field.name: switch() for field in dataclasses.fields(Shows)}),
        **{key: decimals(*ends) for key, ends in RATIOS.items()},
    })


def _fold() -> Shape:
    return {"anyOf": [*choice(layout.FOLDS)["anyOf"], {"enum": [int(fold) for fold in layout.FOLDS if fold.isdigit()]}]}


def _listed(shape: Shape) -> Shape:
    return {"anyOf": [shape, {"type": "array", "minItems": 1, "items": shape}]}


def _wording() -> Shape:
    segments = one_or_list(choice_of(Segment))
    return _keyed(WORDING_KEYS, {
        "form": choice(("words", "shorthand")), "gent": text(), "lady": text(), "order": segments, "tied": segments,
        "separator": any_text(),
    })


def _texts_of(kind: type[FaceNames] | type[Templates]) -> Shape:
    return mapping({field.name.replace("_", " ").strip(): any_text() for field in dataclasses.fields(kind)})


def _phrases() -> Shape:
    return mapping({field.name.replace("_", " ").strip(): text() for field in dataclasses.fields(Phrases)})


def rules_schema() -> Shape:
    """The rules of a competition."""
    from notation.reading import entryrules

    allowed = {key: _allowance(rows, entryrules.ALLOWANCE_KEYS) for key, rows in (
        ("holds", [row.name for row in load_holds()]), ("positions", [row.name for row in load_positions()]),
        ("figures", sorted(set(installed_figures().names()))))}
    return _keyed(entryrules.KEYS, {
        "format": FORMAT, "competition": text(), "organiser": text(), "section": text(), "closing date": text(),
        "length": one_or_list(whole(1, bounds.BARS, "bars")), "rhythms": one_or_list(_rhythm()),
        "tempo": {"anyOf": [*_tempo()["anyOf"], free_mapping(_tempo())]},
        "introduction": whole(0, bounds.BARS, "bars"), "particulars": one_or_list(text()), **allowed,
        "layout": choice(layout_names()), "paper": choice(PAPERS), "pages": whole(1, bounds.ENTRY_PAGES, "pages"),
        "copies": whole(1, bounds.COPIES, "copies"), "judges see names": switch(),
        "entries": whole(1, bounds.COPIES, "entries"), "declaration": prose(),
    }, ("competition",))


def _allowance(names: list[str], keys: tuple[str, ...]) -> Shape:
    some = one_or_list(offered(names))
    return {"anyOf": [*some["anyOf"], mapping({key: some for key in keys})]}


def figure_schema() -> Shape:
    """A figure of the library or a writer's own."""
    line, lines = text(), one_or_list(text())
    each = free_mapping({"anyOf": [*prose()["anyOf"], free_mapping(prose())]})
    both = {"anyOf": [*line["anyOf"], mapping({"gent": line, "lady": line})]}
    shapes: dict[str, Shape] = dict.fromkeys(figures.KEYS, both) | dict.fromkeys(
        ("also", "rhythms", "from", "position", "follows", "cautions", "faults"), lines)
    return _keyed(figures.KEYS, shapes | {
        "format": any_text(), "name": line, "family": choice(FAMILIES), "metre": _metre(),
        "bars": {"anyOf": [{"type": "number", "exclusiveMinimum": 0, "multipleOf": 0.5,
                            "maximum": bounds.BARS.most}, matching(NUMBER)]},
        "feet": choice_of(TurnOut), "steps": prose(), "gent": prose(), "lady": prose(), "halves": free_mapping(_bars()),
        "variants": each, "arms": prose(), "note": prose(), "hints": prose(),
        "sources": {"anyOf": [*prose()["anyOf"], free_mapping(prose()), {"type": "array", "items": prose()}]},
    }, ("name", "family", "metre", "bars", "start", "turn", "free"))


def programme_schema() -> Shape:
    """The programme of an evening."""
    item = _keyed(programme.ITEM_KEYS, dict.fromkeys(programme.ITEM_KEYS, text()))
    shapes: dict[str, Shape] = dict.fromkeys(programme.KEYS, text())
    dances = {"type": "array", "items": {"anyOf": [*text()["anyOf"], item]}}
    return _keyed(programme.KEYS, shapes | {"dances": dances}, ("dances",))


SCHEMAS: dict[str, Callable[[], Shape]] = {
    "dance": dance_schema, "book": book_schema, "layout": layout_schema, "rules": rules_schema,
    "figure": figure_schema, "programme": programme_schema,
}


def schema(kind: str) -> Shape:
    """The whole schema of a kind of file. Raises KeyError for any other."""
    return {"$schema": DRAFT, "title": f"lodestep: {kind}", **SCHEMAS[kind]()}
