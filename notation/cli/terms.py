"""`lodestep terms`."""
from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from typing import TypeVar

import click

from notation.cli.report import UNUSABLE, printable
from notation.dance.hold import Hold, Position
from notation.dance.metre import Rhythm
from notation.dance.running import tempo_words
from notation.dance.suggest import did_you_mean
from notation.dance.turning import HALF, turn_words
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

POSITIONS = "Positions: where the lady stands from the gent, how she is turned against him, how her feet follow"
HOLDS = "Holds: hands, the gent's first, and reach from body to body"
RHYTHMS = "Rhythms: metre, usual bars a minute, feet, source"

Row = TypeVar("Row", bound=Position | Hold | Rhythm)


@click.command()
@click.argument("words", nargs=-1)
def terms(words: tuple[str, ...]) -> None:
    """List the words that are read and printed, the positions, holds and rhythms; or only those with WORDS in them.

    \b
    lodestep terms
    lodestep terms wall
    lodestep terms holds
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
    tables = (
        _table(POSITIONS, knowledge.positions, _position, wanted), _table(HOLDS, knowledge.holds, _hold, wanted),
        _table(RHYTHMS, knowledge.rhythms, _rhythm, wanted),
    )
    if not shown and not any(tables):
        spellings = [form for w in knowledge.vocabulary.words for form in _forms(w)]
        click.echo(f"no word has '{printable(wanted)}' in it{did_you_mean(wanted, spellings)[0]}", err=True)
        sys.exit(UNUSABLE)
    click.echo("\n\n".join(filter(None, tables)))


def _table(heading: str, rows: Sequence[Row], said: Callable[[Row], str], wanted: str) -> str:
    """The rows with those words in their names, or all where the words are the heading's own; empty where none."""
    own = heading.partition(":")[0].lower().removesuffix("s")
    whole = bool(wanted) and wanted.removesuffix("s") == own
    kept = [row for row in rows if whole or wanted in " ".join((row.name, *row.also)).lower()]
    return "\n".join((f"{heading}\n", *(f"  {said(row)}" for row in kept))) if kept else ""


def _forms(word: Word) -> tuple[str, ...]:
    return (word.short, word.words, *word.accepts)


def _position(position: Position) -> str:
    turns = {0: "as he does", HALF: "facing round"}.get(position.turn) or turn_words(position.turn)
    at = [f"{metres / 1000 or 0.0:.2f}" for metres in (position.lady_at.x, -position.lady_at.y)]
    also = f"  also {', '.join(position.also)}" if position.also else ""
    where = f"{at[0]:>5} m ahead {at[1]:>5} m right  {turns:<12}"
    return f"{position.name:<22} {where}  {position.feet.value:<8}{also}".rstrip()


def _hold(hold: Hold) -> str:
    hands = ", ".join(f"{gent} to {lady}" for gent, lady in hold.hands) or "no hands"
    reach = f"{hold.reach / 1000:.2f} m" if hold.reach else "-"
    also = f"  also {', '.join(hold.also)}" if hold.also else ""
    return f"{hold.name:<14} {hands:<16} {reach:<8}{also}".rstrip()


def _rhythm(rhythm: Rhythm) -> str:
    tempo = tempo_words(rhythm.tempo) if rhythm.tempo else "-"
    return f"{rhythm.name:<20} {rhythm.metre!s:<5} {tempo:<8} {rhythm.feet:<12} {rhythm.source}"
