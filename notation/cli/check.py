"""`lodestep check`."""
from __future__ import annotations

import re
import sys
from fractions import Fraction

import click

from notation.cli.report import exit_status, printable, report_text, reports_json, tally
from notation.cli.sources import Source, load
from notation.dance.checks.places import floor_of
from notation.dance.hall import EMPRESS, LEAST, Hall
from notation.dance.running import recording_sentence, running_sentence
from notation.dance.travel import apart_sentence, closing_sentence, corner_sentence, travel_of, travel_sentence
from notation.reading.knowledge import load_knowledge

SECONDS = 60


def recording_length(ctx: click.Context, param: click.Parameter, value: str | None) -> Fraction | None:
    """Seconds of '2:35' or of a bare number."""
    if value is None:
        return None
    minutes, _, rest = value.rpartition(":")
    if not rest.isdecimal() or (minutes and not minutes.isdecimal()) or len(value) > 8:
        raise click.BadParameter(f"'{value}' is no length of a recording; write it like 2:35")
    return Fraction(int(minutes or 0) * SECONDS + int(rest))


def hall_size(ctx: click.Context, param: click.Parameter, value: str | None) -> Hall | None:
    """A hall of '20x12', in metres, the longer side first or last."""
    if value is None:
        return None
    sides = re.fullmatch(r"\s*(\d{1,3}(?:\.\d+)?)\s*(?:x|by|\u00d7)\s*(\d{1,3}(?:\.\d+)?)\s*", value.lower())
    lengths = sorted(float(side) * 1000.0 for side in sides.groups()) if sides else [0.0, 0.0]
    if lengths[0] < LEAST:
        raise click.BadParameter(f"'{value}' is no size of a hall; write its length and breadth in metres, like 20x12")
    return Hall(lengths[1], lengths[0])


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...", type=click.Path(allow_dash=True))
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="How findings are shown.")
@click.option("--recording", callback=recording_length, metavar="MIN:S", help="How many sequences it holds.")
@click.option("--hall", callback=hall_size, metavar="LENGTHxWIDTH", help="Its size in metres, such as 20x12.")
def check(files: tuple[str, ...], form: str, recording: Fraction | None, hall: Hall | None) -> None:
    """Say what in a dance cannot be danced, how long it runs and how far it travels.

    FILE is a dance file, or - for standard input. Exit status: 0 where nothing of severity error was found, 1 where
    something was, 2 where a file could not be used.

    \b
    lodestep check harbour-bell-waltz.yaml
    lodestep check dances/*.yaml --format json
    lodestep check saunter.yaml --recording 2:35
    lodestep check saunter.yaml --hall 20x12
    """
    sources = [load(name) for name in files]
    if form == "json":
        click.echo(reports_json(source.report for source in sources))
    else:
        for source in sources:
            _show(source, recording, hall)
    sys.exit(exit_status(source.report for source in sources))


def _show(source: Source, recording: Fraction | None, hall: Hall | None) -> None:
    if source.report.findings:
        click.echo(report_text(source.report))
    if source.worked is None:
        return
    dance = source.worked.dance
    click.echo(f"{printable(source.name)}: {printable(dance.title)}: {tally(source.report.findings)}")
    if all(passage.gent and passage.lady for passage in source.worked.passages):
        floor = floor_of(source.worked, load_knowledge())
        said = (travel_sentence(travel_of(floor), hall or EMPRESS), apart_sentence(floor), closing_sentence(floor))
        corners = corner_sentence(floor, hall) if hall else ""
        click.echo("\n".join(f"  {one}" for one in (*said, corners) if one))
    if dance.tempo is not None:
        click.echo(f"  {running_sentence(dance.length, dance.introduction, dance.tempo)}")
        if recording is not None:
            click.echo(f"  {recording_sentence(recording, dance.length, dance.introduction, dance.tempo)}")
    elif recording is not None:
        click.echo("  how many sequences a recording holds depends on the tempo; write one, such as tempo: 30")
