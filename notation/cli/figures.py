"""`lodestep figures`."""
from __future__ import annotations

import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path

import click

from notation.cli.completing import figure_words, rhythm_words
from notation.cli.report import UNUSABLE, printable
from notation.dance.call import nearest_names, understood_name
from notation.dance.feet import Foot
from notation.dance.figure import Figure, Library, Unusable, end_words, length_words, plain_name
from notation.dance.naming import capital
from notation.dance.script import GENT, LADY, PARTS, Stance
from notation.dance.step import BarLine
from notation.dance.suggest import did_you_mean, quoted_list
from notation.dance.turning import room_words
from notation.reading.knowledge import knowledge_beside, load_knowledge
from notation.reading.rhythms import find_rhythm

WIDTH = 88
FEET = {"LF": Foot.LEFT, "RF": Foot.RIGHT}


@click.command()
@click.argument("words", nargs=-1, shell_complete=figure_words)
@click.option("--rhythm", shell_complete=rhythm_words, help="Only figures of that rhythm.")
@click.option("--foot", type=click.Choice([*FEET], case_sensitive=False), help="Only figures the gent begins on it.")
def figures(words: tuple[str, ...], rhythm: str | None, foot: str | None) -> None:
    """List the figures of the library, or those with WORDS in them; with the name of a figure, show its steps.

    A writer's own figures in the folder 'figures' of this folder come first.

    \b
    lodestep figures
    lodestep figures turn --rhythm waltz
    lodestep figures pas de basque
    """
    wanted = " ".join(words)
    try:
        library = knowledge_beside(Path()).figures
        row = _rhythm(rhythm)
        held = [f for f in library.figures() if _fits(f, row, FEET[foot.upper()] if foot else None)]
        shown = [f for f in held if wanted and understood_name(f, wanted)]
    except Unusable as fault:
        click.echo(f"a figure cannot be used: {printable(str(fault))}", err=True)
        sys.exit(UNUSABLE)
    if shown:
        click.echo("\n\n".join(_page(figure) for figure in shown))
        return
    listed = [f for f in held if plain_name(wanted) in plain_name(" ".join((f.name, *f.also, f.family, *f.rhythms)))]
    if not listed:
        click.echo(printable(_none_found(wanted, row, library)), err=True)
        sys.exit(UNUSABLE)
    click.echo("\n".join(_lines(listed)))


def _none_found(wanted: str, rhythm: str | None, library: Library) -> str:
    """Why nothing is listed, and what is near."""
    known = list(dict.fromkeys(r for f in library.named(wanted) for r in f.rhythms))
    if known:
        where = f"of {rhythm}" if rhythm and rhythm not in known else "begun on that foot"
        return f"'{wanted}' is no figure {where}; it belongs to {', '.join(known)}"
    near = nearest_names(wanted, library)
    hint = f": did you mean {quoted_list(near)}?" if near else "; 'lodestep figures' lists them"
    return f"there is no figure '{wanted}'{hint}"


def _rhythm(name: str | None) -> str | None:
    """The rhythm's own name. Ends with a message where there is none."""
    rows = knowledge_beside(Path()).rhythms
    row = find_rhythm(name, rows) if name else None
    if name and row is None:
        names = [one for r in rows for one in (r.name, *r.also)]
        raise click.UsageError(f"there is no rhythm '{name}'{did_you_mean(name, names)[0]}")
    return row.name if row else None


def _fits(figure: Figure, rhythm: str | None, foot: Foot | None) -> bool:
    begins = figure.either or foot is None or figure.gent.start.foot is foot
    return begins and (rhythm is None or rhythm in figure.rhythms)


def _lines(listed: list[Figure]) -> Iterator[str]:
    for family in dict.fromkeys(figure.family for figure in listed):
        yield f"{capital(family)}\n"
        for figure in sorted((f for f in listed if f.family == family), key=lambda f: f.name):
            foot = "either" if figure.either else figure.gent.start.foot.value
            rhythms = ", ".join(figure.rhythms)
            yield f"  {figure.name:<26} {length_words(figure):<18} {foot:<7} {rhythms}"
        yield ""
    yield "lodestep figures NAME shows the steps of one."


def _page(figure: Figure) -> str:
    return "\n".join((*_particulars(figure), "", *_steps(figure), *_about(figure))).rstrip()


def _particulars(figure: Figure) -> Iterator[str]:
    yield capital(figure.name)
    if figure.also:
        yield f"  also called   {', '.join(figure.also)}"
    yield f"  belongs to    {figure.family}: {', '.join(figure.rhythms)}"
    yield f"  lasts         {length_words(figure)}"
    for part in _parts(figure):
        of = figure.part(part)
        who = f"{part} " if len(_parts(figure)) > 1 else ""
        yield f"  {who + 'begins':<13} {_stance(of.start)}{'; or on the other foot' if figure.either else ''}"
        yield f"  {who + 'ends':<13} {end_words(of)}"
    if figure.positions:
        yield f"  position      {' or '.join(figure.positions)}"
    if figure.mirror_name:
        yield f"  other foot    the {figure.mirror_name}"
    for label, rows in (("halves", figure.halves), ("variants", figure.variants)):
        if rows:
            yield f"  {label:<13} {', '.join(dict.fromkeys(row.name for row in rows))}"
    for label, text in (("head", _heads(figure)), ("arms", figure.arms), ("note", figure.note)):
        if text:
            yield f"  {label:<13} {text}"


def _heads(figure: Figure) -> str:
    """The head line of either partner, all through."""
    from notation.sheet.figurewords import figure_speaker
    from notation.sheet.wording import head_words

    to = figure_speaker(load_knowledge().vocabulary, True)
    hers = figure.lady.head if figure.lady is not None else figure.lady_head
    gent, lady = head_words(to, figure.gent.head), head_words(to, hers)
    return gent if lady in ("", gent) else f"gent {gent}, lady {lady}"


def _parts(figure: Figure) -> tuple[str, ...]:
    return PARTS if figure.lady is not None else (GENT,)


def _stance(stance: Stance) -> str:
    aligned = stance.alignment
    facing = f", {aligned.mode.value} {room_words(aligned.room)}" if aligned else ""
    place = f" {stance.place.position}" if stance.place and stance.place.position else ""
    ends = {1: "st", 2: "nd", 3: "rd"}
    suffix = ends.get(stance.place.position or 0, "th") if stance.place and stance.place.position else ""
    end = f" {stance.place.end.value}" if stance.place and stance.place.end else ""
    return f"{stance.foot.value}{place}{suffix}{end} free{facing}"


def _steps(figure: Figure) -> Iterator[str]:
    from notation.sheet.figurewords import step_words

    words = load_knowledge().vocabulary
    for part in _parts(figure):
        yield {GENT: "Gent", LADY: "Lady"}[part] if figure.lady is not None else "Steps"
        for line in figure.part(part).lines:
            if isinstance(line, BarLine):
                yield f"  bar {line.number}"
            else:
                first = f"  {line.count.text:<5} "
                said = step_words(line, words).replace("\u00a0", " ")
                yield textwrap.fill(said, WIDTH, initial_indent=first, subsequent_indent=" " * 8)
        yield ""


def _about(figure: Figure) -> Iterator[str]:
    hints = tuple(f"bar {bar} count {count}: {text}" for bar, count, text in figure.hints)
    rows = (("To teach", hints), ("What usually goes wrong", figure.faults), ("Cautions", figure.cautions),
            ("Followed by", figure.joins), ("Sources", tuple(f"{what}: {where}" for what, where in figure.sources)))
    for heading, texts in rows:
        if texts:
            yield heading
            yield from (textwrap.fill(t, WIDTH, initial_indent="  ", subsequent_indent="    ") for t in texts)
            yield ""


