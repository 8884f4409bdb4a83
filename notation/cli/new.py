"""`lodestep new`."""
from __future__ import annotations

import json
import re
import sys
from pathlib import Path

import click

from notation.bounds import TITLE
from notation.cli.completing import rhythm_words
from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import UNUSABLE, printable
from notation.dance.metre import Rhythm
from notation.dance.running import tempo_words
from notation.dance.suggest import did_you_mean
from notation.filenames import harmless
from notation.reading.knowledge import load_knowledge
from notation.reading.rhythms import find_rhythm

BARS = {
    "3/4": ("1  LF fwd", "2  RF side", "3  LF close", "1  RF back", "2  LF side", "3  RF close"),
    "4/4": ("S  LF fwd", "Q  RF side", "Q  LF close", "S  RF back", "Q  LF side", "Q  RF close"),
    "2/4": ("1  LF fwd", "2  RF close", "1  LF back", "2  RF close"),
    "6/8": ("1-3  LF fwd", "4-6  RF close", "1-3  LF back", "4-6  RF close"),
}
"""Two bars for each metre after which the same foot is free as before."""

STARTER = """\
format: 1
title: {title}
arranged by: your name
rhythm: {rhythm}
{tempo}
introduction: 4
length: 16
feet: {feet}
music: any {rhythm}
start:
  position: closed
  hold: closed
  gent: LF, facing LOD
sequence:
  - bars: 1-2
    figure: First figure
    gent: |
{steps}
    lady: opposite
  - bars: 3-16
    repeat: 1-2
"""


@click.command()
@click.argument("title")
@click.option("--rhythm", required=True, shell_complete=rhythm_words,
              help="A rhythm of the table; 'lodestep terms' lists them.")
@click.option("-o", "--output", type=click.Path(path_type=Path), help="The file to write; else named by the title.")
def new(title: str, rhythm: str, output: Path | None) -> None:
    """Write a starter file for a new dance, sixteen bars that pass the checks.

    \b
    lodestep new "Harbour Lights" --rhythm "old-time waltz"
    """
    row = find_rhythm(rhythm, load_knowledge().rhythms)
    if row is None:
        names = [name for r in load_knowledge().rhythms for name in (r.name, *r.also)]
        hint = did_you_mean(rhythm, names)[0] or "; 'lodestep terms' lists the rhythms"
        _fail(f"unknown rhythm '{rhythm}'{hint}")
    title = " ".join(title.split())
    if not title or len(title) > TITLE.most:
        _fail(TITLE.words if title else "the title is empty; write one")
    path = output or Path(f"{file_name(title)}.yaml")
    if path.exists():
        _fail(f"'{path}' exists already and is left as it is; name another file with -o")
    try:
        refuse(path, ())
        assert row is not None
        write_whole(path, starter(title, row).encode())
    except OutputFault as fault:
        _fail(str(fault))
    click.echo(f"{path}: written; now 'lodestep check {path}' and 'lodestep sheet {path}'")


def _fail(message: str) -> None:
    click.echo(f"lodestep: error: {printable(message)}", err=True)
    sys.exit(UNUSABLE)


def starter(title: str, rhythm: Rhythm) -> str:
    """The text of a starter file."""
    tempo = f"tempo: {tempo_words(rhythm.tempo).replace('–', '-')}" if rhythm.tempo else "# tempo: bars a minute"
    steps = "\n".join(f"      {line}" for line in BARS[str(rhythm.metre)])
    return STARTER.format(title=quoted(title), rhythm=rhythm.name, tempo=tempo, feet=rhythm.feet, steps=steps)


def quoted(text: str) -> str:
    """A text as YAML reads it back unchanged: plain where it is harmless, else in quotation marks."""
    harmless = re.fullmatch(r"[A-Za-z][\w' ]*[\w']|[A-Za-z]", text, re.ASCII)
    return text if harmless else json.dumps(text, ensure_ascii=False)


def file_name(title: str) -> str:
    """A file name made of a title.

    >>> file_name("The Tinsmiths' Two-Step")
    'the-tinsmiths-two-step'
    """
    words = re.findall(r"\w+", title.replace("'", "").lower())
    return harmless("-".join(words)[:80], "dance")
