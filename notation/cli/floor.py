"""`lodestep floor`."""
from __future__ import annotations

import re
import sys
from dataclasses import dataclass, replace
from pathlib import Path

import click

from notation.cli.check import hall_size
from notation.cli.language import language_option, page_vocabulary
from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import exit_status, report_text
from notation.cli.sources import Source, load
from notation.dance.geometry import MEANS, FootSize, sized
from notation.dance.hall import Hall
from notation.dance.script import GENT, LADY, PARTS

BOTH = "both"
FORMS = (".pdf", ".svg", ".png")
LEAST_FOOT, MOST_FOOT = 150.0, 400.0


def bars_wanted(ctx: click.Context, param: click.Parameter, value: str | None) -> range | None:
    """Bars of '3' or '3-4'."""
    if value is None:
        return None
    first, _, last = value.partition("-")
    numbers = [first.strip(), (last or first).strip()]
    if not all(n.isdecimal() and len(n) < 5 for n in numbers) or not 0 < int(numbers[0]) <= int(numbers[1]):
        raise click.BadParameter(f"'{value}' is no bar and no range of bars; write 3 or 3-4")
    return range(int(numbers[0]), int(numbers[1]) + 1)


def foot_size(ctx: click.Context, param: click.Parameter, value: str | None) -> tuple[float, float] | None:
    """Millimetres of '280x105'."""
    if value is None:
        return None
    sides = re.fullmatch(r"\s*(\d{3})\s*(?:x|by|\u00d7)\s*(\d{2,3})\s*", value.lower())
    length, breadth = (float(side) for side in sides.groups()) if sides else (0.0, 0.0)
    if not (LEAST_FOOT <= length <= MOST_FOOT and length / 5 <= breadth <= length / 2):
        message = f"'{value}' is no size of a foot; write its length and breadth in millimetres, like 270x100"
        raise click.BadParameter(message)
    return length, breadth


@click.command()
@click.argument("file", metavar="FILE")
@click.option("--bars", callback=bars_wanted, metavar="3-4", help="Only these bars.")
@click.option("--part", type=click.Choice([GENT, LADY, BOTH]), default=BOTH, help="Whose feet are drawn.")
@click.option("--hall", callback=hall_size, metavar="LENGTHxWIDTH", help="Also a plan of a hall, in metres.")
@click.option("--gent-foot", callback=foot_size, metavar="270x100", help="Length and breadth of his foot, in mm.")
@click.option("--lady-foot", callback=foot_size, metavar="245x93", help="Length and breadth of hers.")
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path), help="A .pdf, .svg or .png file.")
@language_option
def floor(
    file: str,
    bars: range | None,
    part: str,
    hall: Hall | None,
    gent_foot: tuple[float, float] | None,
    lady_foot: tuple[float, float] | None,
    output: Path,
    language: str | None,
) -> None:
    """Draw where the feet go on the floor, bar by bar.

    \b
    lodestep floor harbour-bell-waltz.yaml --bars 1-2 -o turn.pdf
    lodestep floor ferry-lane-saunter.yaml --part lady -o lady.svg
    lodestep floor ferry-lane-saunter.yaml --hall 20x12 -o hall.pdf
    """
    if output.suffix.lower() not in FORMS:
        raise click.UsageError(f"'{output}' must end in .pdf, .svg or .png")
    source = load(file)
    if source.worked is None:
        click.echo(report_text(source.report), err=True)
        sys.exit(exit_status([source.report]))
    length = source.worked.dance.length
    wanted = bars or range(1, length + 1)
    if wanted[-1] > length:
        raise click.UsageError(f"the sequence has {length} bars; there is no bar {wanted[-1]}")
    feet = {GENT: gent_foot, LADY: lady_foot}
    sizes = {p: sized(p, *said) if (said := feet[p]) else MEANS[p] for p in PARTS}
    try:
        _write(source, Drawn(wanted, PARTS if part == BOTH else (part,), hall, sizes, language), output)
    except OutputFault as fault:
        raise click.ClickException(str(fault)) from fault


@dataclass(frozen=True, slots=True)
class Drawn:
    """What is asked for: bars, whose feet, the hall whose plan is drawn, the sizes of the feet, the language."""

    bars: range
    parts: tuple[str, ...]
    hall: Hall | None
    sizes: dict[str, FootSize]
    language: str | None


def _write(source: Source, drawn: Drawn, output: Path) -> None:
    from notation.cli.setting import FORMS as PAINTERS
    from notation.cli.setting import faces
    from notation.dance.floor import dance_floor
    from notation.page.paginate import set_story
    from notation.page.units import paper
    from notation.reading.knowledge import load_knowledge
    from notation.reading.layout import load_layout
    from notation.sheet import sheet_metadata
    from notation.sheet.floor import floor_story

    assert source.worked is not None
    refuse(output, (Path(source.name),))
    made = dance_floor(source.worked, load_knowledge(), drawn.sizes)
    words = page_vocabulary(load_knowledge(), drawn.language)
    story = floor_story(source.worked, made, drawn.bars, drawn.parts, paper("A4"), words, drawn.hall)
    layout = replace(load_layout("script"), language=words.language)
    metadata = sheet_metadata(source.worked, load_knowledge(), layout)
    document = set_story(story, metadata, faces())
    for path, data in PAINTERS[output.suffix.lower().removeprefix(".")](document, output, source).items():
        write_whole(path, data)
        click.echo(f"{path}: {len(document.pages)} page{'s' if len(document.pages) != 1 else ''}")
