"""Filling in the lines of a layout: plain `{name}` places, or Jinja in a sandbox where a line asks for it."""
from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from notation import bounds

PLACE = re.compile(r"\{([a-z_]+)\}")
PARTS = frozenset((
    "Output", "TemplateData", "Name", "Const", "If", "For", "CondExpr", "Compare", "Operand", "And", "Or", "Not",
    "Test", "Filter", "Getattr", "Concat", "Add", "Sub", "Div", "FloorDiv", "Neg", "Pos",
))
"""The parts of Jinja's syntax tree that a line may have: nothing that calls, stores, multiplies or reads a file."""

FILTERS = ("abs", "capitalize", "default", "first", "int", "last", "length", "lower", "round", "title", "trim", "upper")


class TemplateFault(ValueError):
    """A template of a layout that cannot be filled in; the message names the fault in the writer's words."""


def fill(template: str, values: Mapping[str, object]) -> str:
    """The template with its places filled in. A place of an unknown name stays as it is written.

    >>> fill("{bars}: {again}", {"bars": "Bars 5-8", "again": "as bars 1-4"})
    'Bars 5-8: as bars 1-4'
    """
    if "{{" in template or "{%" in template:
        return _rendered(template, values)
    return PLACE.sub(lambda found: str(values.get(found[1], found[0])), template)


def _rendered(template: str, values: Mapping[str, object]) -> str:
    """By Jinja, sandboxed, and only with what a line of a sheet needs.

    A line that is short, calls nothing, stores nothing and has no loop within a loop can neither run long nor grow.
    """
    import jinja2.sandbox

    if len(template) > bounds.TEMPLATE.most:
        raise TemplateFault(bounds.TEMPLATE.words)
    environment = jinja2.sandbox.ImmutableSandboxedEnvironment(undefined=jinja2.StrictUndefined, autoescape=False)
    try:
        for node in environment.parse(template).body:
            _refuse_more(node, looping=False)
        return _bounded(environment.from_string(template).generate(dict(values)))
    except TemplateFault:
        raise
    except (jinja2.TemplateError, ArithmeticError, LookupError, TypeError, ValueError, RecursionError) as fault:
        raise TemplateFault(f"the template '{template[:60]}' cannot be filled in: {str(fault)[:200]}") from None


def _refuse_more(node: Any, looping: bool) -> None:
    """TemplateFault at the first part of a template that is not for templates, and at a loop within a loop."""
    kind = type(node).__name__
    if kind not in PARTS:
        raise TemplateFault(f"a template has '{kind}', which is not for templates; use names, if, for and filters")
    if kind == "For":
        _refuse_loop(node, looping)
    if kind == "Getattr" and not (type(node.node).__name__ == "Name" and node.node.name == "loop"):
        raise TemplateFault(f"a template asks for '.{node.attr[:40]}', which is not for templates")
    if kind == "Filter" and node.name not in FILTERS:
        raise TemplateFault(f"there is no filter '{node.name[:40]}' for templates; there are {', '.join(FILTERS)}")
    for child in node.iter_child_nodes():
        if not (kind == "For" and child is node.iter):
            _refuse_more(child, looping or kind == "For")


def _refuse_loop(node: Any, looping: bool) -> None:
    """Loops go over a name or over so many numbers, and stand alone."""
    if looping:
        raise TemplateFault("a template has a loop within a loop")
    over = node.iter
    if type(over).__name__ == "Name":
        return
    numbers = [getattr(a, "value", None) for a in over.args] if type(over).__name__ == "Call" else []
    name = getattr(getattr(over, "node", None), "name", "")
    if name != "range" or not numbers or not all(isinstance(n, int) and 0 <= n <= bounds.LOOP.most for n in numbers):
        raise TemplateFault(bounds.LOOP.words)


def _bounded(pieces: Any) -> str:
    made, length = [], 0
    for piece in pieces:
        length += len(piece)
        if length > bounds.TEMPLATE.most:
            raise TemplateFault(bounds.TEMPLATE.words)
        made.append(piece)
    return "".join(made)
