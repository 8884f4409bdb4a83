"""`lodestep terms`."""
from __future__ import annotations

import sys

import click

from notation.cli.report import UNUSABLE, printable
from notation.dance.metre import Rhythm
from notation.dance.running import tempo_words
from notation.dance.suggest import did_you_mean
from notation.dance.words import Word
from notation.reading.knowledge import load_knowledge

HEADINGS = {
    "foot": "Feet", "action": "Actions that take weight", "gesture": "Actions without weight",
    "footless": "In place of a step", "direction": "Directions", "place": "Places of the feet",
    "mode": "Alignment", "travel": "Direction of travel", "room": "The room", "side": "Left and right",
    "turn": "Turn", "amount": "Amounts of turn in words", "footwork": "Footwork", "rise": "Rise and fall",
    "body": "Body", "sway": "Sway", "size": "Size", "head": "Head", "weight": "Weight", "joined": "To and past",
    "change": "Changes on a step", "derivation": "The partner's part",
}


@click.command()
@click.argument("words", nargs=-1)
def terms(words: tuple[str, ...]) -> None:
    """List the words that are read and printed, and the rhythms; or only those with WORDS in them.

    \b
    lodestep terms
    lodestep terms wall
    """
    knowledge, wanted = load_knowledge(), " ".join(words).lower()
    shown = [w for w in knowledge.vocabulary.words if wanted in " ".join(_forms(w)).lower()]
    for kind in dict.fromkeys(w.kind for w in shown):
        click.echo(f"{HEADINGS.get(kind, kind)}\n")
        for word in shown:
            if word.kind == kind:
                also = f"  also {', '.join(word.accepts)}" if word.accepts else ""
                click.echo(f"  {word.short:<18} {word.words:<44}{also}".rstrip())
        click.echo()
    rhythms = [r for r in knowledge.rhythms if wanted in " ".join((r.name, *r.also)).lower()]
    if rhythms:
        click.echo("Rhythms: metre, usual bars a minute, feet, source\n")
    if not shown and not rhythms:
        spellings = [form for w in knowledge.vocabulary.words for form in _forms(w)]
        click.echo(f"no word has '{printable(wanted)}' in it{did_you_mean(wanted, spellings)[0]}", err=True)
        sys.exit(UNUSABLE)
    for rhythm in rhythms:
        click.echo(f"  {_rhythm(rhythm)}")


def _forms(word: Word) -> tuple[str, ...]:
    return (word.short, word.words, *word.accepts)


def _rhythm(rhythm: Rhythm) -> str:
    tempo = tempo_words(rhythm.tempo) if rhythm.tempo else "-"
    return f"{rhythm.name:<20} {rhythm.metre!s:<5} {tempo:<8} {rhythm.feet:<12} {rhythm.source}"
