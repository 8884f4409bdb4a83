"""Shapes of values in JSON Schema (draft 2020-12), each the counterpart of an `expect_...` of `fields.py`.

An editor types the plain scalars of YAML (a number, yes or no); the reader takes all of them as text, so a text may be
any of these here.
"""
from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping
from typing import Any

from notation.bounds import NAME, SCALAR, Bound
from notation.reading.fields import NO, YES
from notation.reading.nodes import plain_key

Shape = dict[str, Any]


def text(bound: Bound = NAME) -> Shape:
    """Any text that is not empty, at most as long as the bound."""
    written = {"type": "string", "pattern": r"\S", "maxLength": bound.most}
    return {"anyOf": [written, {"type": ["number", "boolean"]}]}


def any_text() -> Shape:
    """A text that may be empty."""
    return {"type": ["string", "number", "boolean", "null"]}


def prose() -> Shape:
    """Step lines, notes: a long text."""
    return text(SCALAR)


def matching(pattern: str) -> Shape:
    """A text of that form, white space around it left aside."""
    return {"type": "string", "pattern": rf"^\s*(?:{pattern})\s*$"}


def whole(least: int, most: Bound, unit: str = "") -> Shape:
    """A whole number within bounds, with or without its unit."""
    units = f"(?: *(?:{unit}|{unit.removesuffix('s')}))?" if unit else ""
    return {"anyOf": [{"type": "integer", "minimum": least, "maximum": most.most}, matching(rf"\+?0*\d{{1,9}}{units}")]}


def decimals(least: float, most: float) -> Shape:
    """A number within bounds, both included."""
    return {"anyOf": [{"type": "number", "minimum": least, "maximum": most}, matching(r"\d+(?:\.\d*)?")]}


def choice(words: Iterable[str]) -> Shape:
    """One of a few words; capitals, hyphens and spaces being alike. Editors offer the words as they stand."""
    words = list(words)
    return {"anyOf": [{"enum": words}, matching("|".join(map(spelling, words)))]}


def choice_of(kind: type[enum.Enum]) -> Shape:
    return choice(str(one.value) for one in kind)


def switch() -> Shape:
    """yes or no."""
    return {"anyOf": [*choice((*YES, *NO))["anyOf"], {"type": "boolean"}]}


def offered(words: Iterable[str], bound: Bound = NAME) -> Shape:
    """Any text; an editor offers these words."""
    return {"anyOf": [{"enum": list(words)}, *text(bound)["anyOf"]]}


def one_or_list(shape: Shape) -> Shape:
    return {"anyOf": [shape, {"type": "array", "items": shape}]}


def mapping(shapes: Mapping[str, Shape], needed: Iterable[str] = ()) -> Shape:
    """Keys with their values and no others. A key of several words may be written with hyphens or underscores."""
    made: Shape = {"type": "object", "properties": dict(shapes), "additionalProperties": False}
    others = {f"^\\s*{spelling(key)}\\s*$": shape for key, shape in shapes.items()}
    if others:
        made["patternProperties"] = others
    if required := [has(key) for key in needed]:
        made["allOf"] = required
    return made


def has(key: str) -> Shape:
    """That the key stands there, in any spelling; editors name it by the first of these."""
    spelt = {"pattern": f"^\\s*{spelling(key)}\\s*$"}
    return {"anyOf": [{"required": [key]}, {"not": {"propertyNames": {"not": spelt}}}]}


def free_mapping(shape: Shape) -> Shape:
    """Any keys with values of one shape."""
    return {"type": "object", "additionalProperties": shape}


def spelling(word: str) -> str:
    """A pattern of the spellings that `plain_key` takes as alike.

    >>> spelling("A5")
    '[aA]5'
    """
    letters = (f"[{c}{c.upper()}]" if c.isalpha() else r"[\s_\-]+" if c == " " else _plain(c) for c in plain_key(word))
    return "".join(letters)


def _plain(character: str) -> str:
    return character if character.isalnum() else f"\\{character}"
