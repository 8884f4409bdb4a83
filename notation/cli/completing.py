"""What a shell offers where a word of the command line is half typed."""
from __future__ import annotations

import click


def layout_words(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    from notation.reading.layout import layout_names

    return [name for name in layout_names() if name.startswith(begun)]


def rhythm_words(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    from notation.reading.knowledge import load_knowledge

    return [row.name for row in load_knowledge().rhythms if row.name.startswith(begun.lower())]


def language_words(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    from notation.reading.words import FILES

    return [name for name in FILES if name.startswith(begun)]


def rule_words(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    from notation.dance.checks import RULES
    from notation.reading.rules import RULES as READING_RULES

    return [rule.name for rule in (*RULES, *READING_RULES) if rule.name.startswith(begun)]


def figure_words(ctx: click.Context, param: click.Parameter, begun: str) -> list[str]:
    from pathlib import Path

    from notation.reading.knowledge import knowledge_beside

    names = knowledge_beside(Path()).figures.names()
    return sorted({name for name in names if name.lower().startswith(begun.lower())})
