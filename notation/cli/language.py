"""The option `--language` of every command that prints."""
from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

import click

from notation.cli.completing import language_words
from notation.cli.report import UNUSABLE, file_report, report_text

if TYPE_CHECKING:
    from notation.dance.knowledge import Knowledge
    from notation.dance.words import Vocabulary

Command = TypeVar("Command", bound=Callable[..., Any])
READ = "en"
"""The language that dances are read in, and pages printed in where nothing else is asked for."""


def language_said(ctx: click.Context, param: click.Parameter, value: str | None) -> str | None:
    """The language, which there is; else the finding is told and the command ends."""
    from notation.reading.words import FILES

    if value is not None and value not in FILES and not ctx.resilient_parsing:
        message = f"there is no language '{value}'; there are {', '.join(FILES)}"
        click.echo(report_text(file_report("--language", "language-unknown", message)), err=True)
        sys.exit(UNUSABLE)
    return value


def language_option(command: Command) -> Command:
    """Adds the option; the command's parameter is `language`, None where it is not given."""
    option = click.option("--language", shell_complete=language_words, callback=language_said,
                          help="The language of the printed words; else the layout's, or English.")
    return option(command)


def page_vocabulary(knowledge: Knowledge, language: str | None) -> Vocabulary:
    """The words of a page that has no layout."""
    from notation.sheet.speakers import words_in

    return words_in(knowledge, language or READ)
