"""`lodestep rules`."""
from __future__ import annotations

import sys
import textwrap

import click

from notation.cli.completing import rule_words
from notation.cli.report import UNUSABLE, printable
from notation.dance.checks import RULES, Rule
from notation.dance.suggest import did_you_mean
from notation.reading.otherrules import OTHER_RULES
from notation.reading.rules import RULES as READING_RULES

WIDTH = 88


@click.command()
@click.argument("name", required=False, shell_complete=rule_words)
def rules(name: str | None) -> None:
    """List the rules of the checks; with a NAME, say why it matters and show examples.

    \b
    lodestep rules
    lodestep rules bar-short
    """
    if name is None:
        _list()
        return
    known = {rule.name: rule for rule in (*RULES, *READING_RULES, *OTHER_RULES)}
    if name not in known:
        click.echo(f"there is no rule '{printable(name)}'{did_you_mean(name, known)[0]}", err=True)
        sys.exit(UNUSABLE)
    click.echo(_page(known[name]))


def _list() -> None:
    click.echo("Rules of the dance:\n")
    for rule in RULES:
        click.echo(f"  {rule.name:<28} {rule.severity.value:<8} {rule.summary}")
    click.echo("\nRules of the file (all errors):\n")
    for line in READING_RULES:
        click.echo(f"  {line.name:<28} {line.summary}")
    click.echo("\nRules of layouts, programmes and books, and of files at all:\n")
    for line in OTHER_RULES:
        click.echo(f"  {line.name:<28} {line.summary}")
    click.echo("\nlodestep rules NAME says more of one.")


def _page(rule: Rule) -> str:
    why = textwrap.fill(rule.why, WIDTH)
    head = f"{rule.name} ({rule.severity.value})\n\n{rule.summary}\n\n{why}"
    if not rule.wrong:
        return head + "\n"
    wrong, right = (textwrap.indent(text, "    ") for text in (rule.wrong, rule.right))
    return f"{head}\n\nFound fault with:\n\n{wrong}\nWithout fault:\n\n{right}"
