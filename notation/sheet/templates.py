"""Filling in the lines of a layout: plain `{name}` places, or Jinja in a sandbox where a line asks for it."""
from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

PLACE = re.compile(r"\{([a-z_]+)\}")
LONGEST = 4_000  # characters of a filled line
MOST_ITEMS = 1_000  # of a range in a template


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
    """By Jinja, sandboxed: no attributes of Python's own, no long loops, no long output."""
    import jinja2.sandbox

    class Bounded(jinja2.sandbox.ImmutableSandboxedEnvironment):
        intercepted_binops = frozenset({"*", "**", "%", "+"})

        def call_binop(self, context: Any, operator: str, left: Any, right: Any) -> Any:
            _refuse_growth(operator, left, right)
            return super().call_binop(context, operator, left, right)

    jinja2.sandbox.MAX_RANGE = MOST_ITEMS
    environment = Bounded(undefined=jinja2.StrictUndefined, autoescape=False)
    try:
        return _bounded(environment.from_string(template).generate(dict(values)))
    except TemplateFault:
        raise
    except (jinja2.TemplateError, ArithmeticError, LookupError, TypeError, ValueError, RecursionError) as fault:
        raise TemplateFault(f"the template '{template[:60]}' cannot be filled in: {fault}") from None


def _refuse_growth(operator: str, left: Any, right: Any) -> None:
    """A template needs no large numbers and no repeated texts."""
    for one, other in ((left, right), (right, left)):
        if operator == "*" and isinstance(one, str | list | tuple) and isinstance(other, int) and other > 100:
            raise TemplateFault("a template repeats a text more than 100 times")
    if operator == "**" or (operator == "%" and isinstance(left, str)):
        raise TemplateFault("powers and % formatting are not for templates")


def _bounded(pieces: Any) -> str:
    made, length = [], 0
    for piece in pieces:
        length += len(piece)
        if length > LONGEST:
            raise TemplateFault(f"a filled template has more than {LONGEST} characters")
        made.append(piece)
    return "".join(made)
