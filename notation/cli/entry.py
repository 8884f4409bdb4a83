"""`lodestep entry`."""
from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from notation.cli.language import language_option
from notation.cli.report import FAULTY, UNUSABLE, Report, file_report, printable, report_text

if TYPE_CHECKING:
    from notation.cli.entering import MadeEntry, Papers
    from notation.cli.received import Received


def day_said(ctx: click.Context, param: click.Parameter, value: str | None) -> date | None:
    from notation.reading.entryrules import parse_day

    day = parse_day(value) if value else None
    if value and day is None:
        raise click.BadParameter(f"'{value}' is no day; write it like 2027-03-31")
    return day


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="DANCE|DIR...")
@click.option("--rules", help="The rules file of the competition.")
@click.option("--particulars", help="A file with your particulars: lines of 'key: value'.")
@click.option("--into", type=click.Path(path_type=Path), help="The new folder to write.")
@click.option("--on", "day", callback=day_said, metavar="DATE", help="The day of sending or arrival; else today.")
@click.option("--allow-word", "allowed", multiple=True, help="A word of your name that is no name in this dance.")
@language_option
@click.option("--draft", is_flag=True, help="Write the entry even where a rule is not met (never with a name told).")
@click.option("--verify", is_flag=True, help="Check received entries; DIR is the folder of one.")
@click.option("--collate", is_flag=True, help="Number received entries for the judges, the key apart.")
@click.option("--skip-faulty", is_flag=True, help="With --collate: leave out entries at fault; else none is written.")
def entry(
    files: tuple[str, ...], rules: str | None, particulars: str | None, into: Path | None, day: date | None,
    allowed: tuple[str, ...], language: str | None, draft: bool, verify: bool, collate: bool, skip_faulty: bool,
) -> None:
    """Enter a dance for a competition, or check and number the entries that came.

    Writes judges' sheets without names, a particulars sheet with them, a checklist and a manifest of digests. Exit
    status 1 where a rule is not met; then nothing is written unless --draft is given.

    \b
    lodestep entry saunter.yaml --rules rules.yaml --particulars me.yaml --into entry
    lodestep entry --verify entry --rules rules.yaml
    lodestep entry --collate entries/* --into competition
    """
    if verify and collate:
        raise click.UsageError("use --verify or --collate, not both")
    if language and (verify or collate):
        raise click.UsageError("received entries keep their language; --language goes with a dance")
    if verify:
        sys.exit(_verify(files, rules, day))
    if into is None:
        raise click.UsageError("name the new folder with --into")
    if collate:
        sys.exit(_collate(files, rules, into, day, skip_faulty))
    if len(files) != 1 or rules is None:
        raise click.UsageError("name one dance, and the rules of the competition with --rules")
    sys.exit(_enter(files[0], rules, particulars, into, day, allowed, language, draft))


def _fail(report: Report) -> NoReturn:
    click.echo(report_text(report), err=True)
    sys.exit(UNUSABLE)


def _enter(
    dance: str, rules: str, particulars: str | None, into: Path, day: date | None, allowed: tuple[str, ...],
    language: str | None, draft: bool,
) -> int:
    from notation.cli.entering import EntryFault, gather, make
    from notation.cli.output import OutputFault
    from notation.cli.wholefolder import refuse_folder, write_folder
    from notation.page.fault import LayoutError

    try:
        refuse_folder(into)
        papers = gather(dance, rules, particulars, day or date.today(), allowed, language)
        made = make(papers)
        status = _tell(papers, made, "given by --on" if day else "today; another with --on")
        if made.leaks or (status and not draft):
            why = "a name would be told" if made.leaks else "a rule is not met; add --draft to write it all the same"
            click.echo(f"{printable(dance)}: nothing is written: {why}", err=True)
            return FAULTY
        write_folder(into, made.files)
    except EntryFault as fault:
        _fail(fault.report)
    except OutputFault as fault:
        _fail(file_report(str(into), "output", str(fault)))
    except LayoutError as fault:
        _fail(file_report(dance, "page-too-small", str(fault)))
    for name in made.files:
        click.echo(f"{printable(str(into / name))}: written")
    return status


def _tell(papers: Papers, made: MadeEntry, reason: str) -> int:
    """The findings and the checklist; 1 where a rule is not met."""
    from notation.cli.entering import unmet_finding
    from notation.dance.entry import unmet
    from notation.sheet.telling import rule_words

    faulty = unmet(made.lines)
    findings = [*papers.entrant.findings, *made.leaks]
    findings += [unmet_finding(line, papers) for line in faulty if line.rule != "anonymity"]
    if findings:
        name = papers.source.name
        click.echo(report_text(Report(name, tuple(findings), papers.source.report.lines)), err=True)
    click.echo(f"Day of sending {papers.day.isoformat()} ({reason})")
    for line in made.lines:
        rule, asked, found = rule_words(line, papers.knowledge.vocabulary)
        click.echo(printable(f"  {line.state.value:<8} {rule}: {asked}; {found}"))
    return FAULTY if faulty else 0


def _verify(folders: tuple[str, ...], rules: str | None, day: date | None) -> int:
    status = 0
    for folder, (received, asked) in zip(folders, _looked_through(folders, rules, day), strict=True):
        status = max(status, asked)
        if received is None:
            continue
        for note in received.notes:
            click.echo(printable(f"{folder}: {note}"))
        allowed = ", ".join(received.papers.allowed)
        if allowed:
            click.echo(printable(f"{folder}: the entrant says that these are no names in it: {allowed}"))
        if not received.troubles:
            title = received.papers.worked.dance.title
            click.echo(printable(f"{folder}: {title}: whole, and its judges' sheets tell no name"
                                 if not received.papers.rules.named else f"{folder}: {title}: whole"))
    return status


def _collate(folders: tuple[str, ...], rules: str | None, into: Path, day: date | None, skip_faulty: bool) -> int:
    from notation.cli.output import OutputFault
    from notation.cli.received import collated
    from notation.cli.wholefolder import refuse_folder, write_folder

    try:
        refuse_folder(into)
        sound, status = _sound(folders, rules, day)
        if not sound or (status and not skip_faulty):
            click.echo("nothing is written; mend these entries, or leave them out with --skip-faulty", err=True)
            return status
        files = collated(sound)
        write_folder(into, files)
    except OutputFault as fault:
        _fail(file_report(str(into), "output", str(fault)))
    for name in files:
        click.echo(f"{printable(str(into / name))}: written")
    if left_out := len(folders) - len(sound):
        click.echo(f"{left_out} of {len(folders)} entries left out, {len(sound)} numbered", err=True)
    return FAULTY if status else 0


def _sound(folders: tuple[str, ...], rules: str | None, day: date | None) -> tuple[list[Received], int]:
    """The entries that can be relied on, and the exit status of the others, which are told with their reasons."""
    from notation.cli.received import collating_troubles

    looked_through = list(_looked_through(folders, rules, day))
    entries = [received for received, asked in looked_through if received is not None and not asked]
    status = max((asked for _, asked in looked_through), default=0)
    together = list(collating_troubles(entries))
    for number, trouble in together:
        _tell_troubles(entries[number].folder, (trouble,))
    refused = {number for number, _ in together}
    sound = [one for number, one in enumerate(entries) if number not in refused]
    return sound, max(status, FAULTY if refused else 0)


def _looked_through(
    folders: tuple[str, ...], rules: str | None, day: date | None
) -> Iterator[tuple[Received | None, int]]:
    """Each entry, its troubles told, with the exit status that it asks for; None where its folder is unusable."""
    from notation.cli.entering import EntryFault
    from notation.cli.received import receive

    for folder in folders:
        try:
            received = receive(Path(folder), rules, day)
        except EntryFault as fault:
            click.echo(report_text(fault.report), err=True)
            yield None, UNUSABLE
        else:
            _tell_troubles(received.folder, received.troubles)
            yield received, FAULTY if received.troubles else 0


def _tell_troubles(folder: Path, troubles: Sequence[str]) -> None:
    for trouble in troubles:
        click.echo(report_text(file_report(str(folder), "entry-received", trouble)), err=True)
