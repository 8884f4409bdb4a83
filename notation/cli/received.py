"""Entries as an organiser receives them: verified, and numbered for the judges with the key kept apart."""
from __future__ import annotations

import hashlib
import re
import stat
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from pathlib import Path

from notation import __version__
from notation.bounds import ENTRY_FILE_BYTES, ENTRY_FILES, FILE_BYTES
from notation.cli.entering import (
    CHECKLIST,
    DANCE,
    ENTRANT,
    FIGURES,
    JUDGES,
    MANIFEST,
    RULES,
    EntryFault,
    MadeEntry,
    Papers,
    gather,
    make,
    read_whole,
    unmet_finding,
    unreadable,
)
from notation.cli.setting import faces
from notation.dance.entry import State
from notation.installed import data_folder
from notation.page.fault import LayoutError
from notation.page.pdf import paint_pdf
from notation.page.units import paper
from notation.reading.words import FILES
from notation.sheet.entry import judges_sheets
from notation.sheet.templates import TemplateFault

DIGEST_LINE = re.compile(r"([0-9a-f]{64})  ([^\x00-\x1f\x7f]{1,300})")
HEAD_LINE = re.compile(r"# (day|made by|allowed|reference|language) (.{1,300})")
NAME_A_FOLDER = "name the folder of an entry"


@dataclass(frozen=True, slots=True)
class Manifest:
    """digests: by file name. said: what stands behind '#', by its word."""

    digests: dict[str, str]
    said: tuple[tuple[str, str], ...]

    def one(self, word: str) -> str:
        return next((text for key, text in self.said if key == word), "")


@dataclass(frozen=True, slots=True)
class Received:
    """An entry that was looked through. troubles: what is wrong; empty where it can be relied on. notes: what else the
    organiser should know.
    """

    folder: Path
    papers: Papers
    made: MadeEntry
    digest: str
    troubles: tuple[str, ...]
    notes: tuple[str, ...] = ()


def read_manifest(folder: Path) -> Manifest:
    """The manifest of an entry. Raises EntryFault where there is none or it is none."""
    try:
        with (folder / MANIFEST).open("rb") as file:
            text = file.read(FILE_BYTES.most + 1).decode("utf-8", "replace")
    except OSError as fault:
        raise unreadable(folder, f"there is no {MANIFEST} that can be read; {NAME_A_FOLDER}") from fault
    digests: dict[str, str] = {}
    said = []
    for line in text.splitlines():
        if found := DIGEST_LINE.fullmatch(line):
            digests[found[2]] = found[1]
        elif head := HEAD_LINE.fullmatch(line):
            said.append((head[1], head[2]))
        elif not line.startswith("#"):
            raise unreadable(folder, f"a line of {MANIFEST} is no digest with a file name: '{line[:60]}'")
    return Manifest(digests, tuple(said))


def receive(folder: Path, rules: str | None, day: date | None) -> Received:
    """Look an entry through. rules: the organiser's own; day: of arrival, else the one the entrant states.

    Raises EntryFault where there is no entry to look through.
    """
    present = _files(folder)
    manifest = read_manifest(folder)
    troubles = list(_digest_troubles(folder, manifest, present))
    for name in (DANCE, RULES, JUDGES):
        if name not in present:
            raise unreadable(folder, f"'{name}' is missing; the entry cannot be looked through")
    stated = _day(manifest.one("day"))
    allowed = tuple(text for word, text in manifest.said if word == "allowed")
    language = manifest.one("language") or None
    if language is not None and language not in FILES:
        raise unreadable(folder, f"{MANIFEST} states the language '{language[:20]}'; there are {', '.join(FILES)}")
    entrant = str(folder / ENTRANT) if ENTRANT in present else None
    if stated is None:
        troubles.append(f"{MANIFEST} states no day")
    papers = gather(str(folder / DANCE), str(folder / RULES), entrant, stated or date.max, allowed, language)
    if rules is not None and read_whole(rules) != papers.rules_data:
        troubles.append("the rules in the entry are not yours; it was made by other rules")
    try:
        made = make(papers)
    except (LayoutError, TemplateFault) as fault:
        raise unreadable(folder, f"its sheets cannot be set: {fault}") from fault
    notes: list[str] = []
    troubles += _remade_troubles(folder, papers, made, manifest, notes)
    troubles += [f"{leak.message}" for leak in made.leaks]
    closing = papers.rules.closing
    if day and closing and day > closing:
        troubles.append(f"it came on {day.isoformat()}, after the closing date {closing.isoformat()}")
    faulty = (line for line in made.lines if line.state is State.NOT_MET and line.rule != "anonymity")
    troubles += [unmet_finding(line, papers).message for line in faulty]
    digest = hashlib.sha256((folder / JUDGES).read_bytes()).hexdigest()
    return Received(folder, papers, made, digest, tuple(dict.fromkeys(troubles)), tuple(notes))


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _files(folder: Path) -> set[str]:
    """The files of an entry by their path within it. Raises EntryFault where there is anything but plain files of a
    bearable size: a link would lead elsewhere, a pipe would keep the reader waiting.
    """
    found = {path.name for path in _plain(folder) if not path.is_dir()}
    own = folder / FIGURES
    found |= {f"{FIGURES}/{path.name}" for path in _plain(own)} if own.is_dir() and not own.is_symlink() else set()
    return found


def _plain(folder: Path) -> Iterator[Path]:
    """What is in a folder, subfolders but that of figures refused."""
    try:
        paths = sorted(islice(folder.iterdir(), ENTRY_FILES.most + 1))
    except OSError as fault:
        raise unreadable(folder, f"this is no folder that can be read; {NAME_A_FOLDER}") from fault
    if len(paths) > ENTRY_FILES.most:
        raise unreadable(folder, ENTRY_FILES.words)
    for path in paths:
        kind = path.lstat()
        inner = stat.S_ISDIR(kind.st_mode) and path.name == FIGURES and folder.name != FIGURES
        if not inner and not stat.S_ISREG(kind.st_mode):
            raise unreadable(folder, f"'{path.name}' is no plain file; an entry holds no links, pipes or other folders")
        if not inner and kind.st_size > ENTRY_FILE_BYTES.most:
            raise unreadable(folder, f"'{path.name}': {ENTRY_FILE_BYTES.words}")
        yield path


def _digest_troubles(folder: Path, manifest: Manifest, present: set[str]) -> Iterator[str]:
    for name, digest in manifest.digests.items():
        if name not in present:
            yield f"'{name}' is missing"
        elif hashlib.sha256((folder / name).read_bytes()).hexdigest() != digest:
            yield f"'{name}' is not what {MANIFEST} says; it was changed or damaged"
    for name in sorted(present - set(manifest.digests) - {MANIFEST}):
        yield f"'{name}' does not belong to the entry"


def _remade_troubles(
    folder: Path, papers: Papers, made: MadeEntry, manifest: Manifest, notes: list[str]
) -> Iterator[str]:
    """Whether what came is what the dance file, the rules and the particulars give: byte for byte where this very
    version made it, else by its words.
    """
    maker = manifest.one("made by")
    alike = maker == f"Lodestep {__version__}"
    there = [name for name in made.files if (folder / name).is_file()]
    yield from (f"'{name}' is missing" for name in made.files if name not in there)
    differing = [name for name in there if name != MANIFEST and (folder / name).read_bytes() != made.files[name]]
    if alike:
        yield from (f"'{name}' is not what {DANCE} and the particulars give; do not hand it on" for name in differing)
    elif differing:
        by = maker or "another program"
        notes.append(f"it was made by {by}, not by Lodestep {__version__}: its sheets were compared by their words, "
                     "not byte for byte; for the judges take the sheets that --collate makes anew")
        yield from _other_words(folder, papers, made, differing, notes)
    for name in sorted(set(manifest.digests) - set(made.files)):
        if not name.startswith(f"{FIGURES}/"):
            yield f"'{name}' does not belong to the entry"


def _other_words(
    folder: Path, papers: Papers, made: MadeEntry, names: Sequence[str], notes: list[str]
) -> Iterator[str]:
    """Where sheets of another version say something else, or the judges' sheets tell a name anywhere."""
    from notation.page.apart import Unopened, opened_apart

    for name in names:
        try:
            came = opened_apart((folder / name).read_bytes())
        except Unopened as fault:
            yield f"'{name}' cannot be compared: {fault}"
            continue
        wanted = opened_apart(made.files[name])
        if name == JUDGES:
            hits = dict.fromkeys(hit for text in came.texts for hit in papers.secrets.hits(text))
            yield from (f"'{name}' tells '{hit}', which gives the arranger away to the judges" for hit in hits)
        place = _first_difference(came.words, wanted.words)
        if place and name == CHECKLIST:
            notes.append(f"'{name}' says something else than it would here: {place}")
        elif place:
            yield f"'{name}' does not say what {DANCE} and the particulars give: {place}; do not hand it on"


def _first_difference(came: Sequence[str], wanted: Sequence[str]) -> str:
    """Where two lists of words part; empty where they are alike. Spaces do not count, since they are only drawn."""
    one, two = "".join(came), "".join(wanted)
    if one == two:
        return ""
    at = next((k for k, (a, b) in enumerate(zip(one, two, strict=False)) if a != b), min(len(one), len(two)))
    shown = slice(max(0, at - 10), at + 20)
    return f"'{one[shown]}' stands where '{two[shown]}' would"


def collated(entries: Sequence[Received]) -> dict[str, bytes]:
    """The judges' folder and the key. Entries are numbered by the digest of their sheets, so that neither the order in
    which they came nor the names decide; each sheet bears its number.
    """
    ordered = sorted(entries, key=lambda entry: entry.digest)
    width = max(2, len(str(len(ordered))))
    files: dict[str, bytes] = {}
    key = ["# The key: not for the judges.", "entries:"]
    for number, entry in enumerate(ordered, 1):
        papers, shown = entry.papers, f"{number:0{width}}"
        sheet = paper(papers.rules.paper)
        document = judges_sheets(papers.worked, papers.knowledge, papers.layout, papers.rules, sheet, faces(), shown)
        files[f"judges/entry-{shown}.pdf"] = paint_pdf(document, data_folder("fonts"))
        names = ", ".join(papers.worked.dance.arrangers)
        key += [f"  - number: {shown}", f"    title: {_quoted(papers.worked.dance.title)}",
                f"    arranged by: {_quoted(names)}",
                f"    folder: {_quoted(entry.folder.resolve().name)}", f"    sha256: {entry.digest}"]
    files["organiser/key.yaml"] = ("\n".join(key) + "\n").encode()
    return files


def _quoted(text: str) -> str:
    return "'" + " ".join(text.split()).replace("'", "''") + "'"


def collating_troubles(entries: Sequence[Received]) -> Iterator[tuple[int, str]]:
    """What stands in the way of numbering entries together, by the entry's place: other rules, the same entry twice,
    too many of one.
    """
    seen: dict[str, Path] = {}
    of_arranger: dict[str, int] = {}
    for number, entry in enumerate(entries):
        if entry.papers.rules_data != entries[0].papers.rules_data:
            yield number, f"it follows other rules than {entries[0].folder}"
        if entry.digest in seen:
            yield number, f"it is the same entry as {seen[entry.digest]}"
        seen.setdefault(entry.digest, entry.folder)
        most = entry.papers.rules.entries
        for name in entry.papers.worked.dance.arrangers:
            of_arranger[name] = of_arranger.get(name, 0) + 1
            if most is not None and of_arranger[name] > most:
                yield number, f"{name} has more than {most} {'entries' if most > 1 else 'entry'}"


__all__ = ["EntryFault", "Received", "collated", "collating_troubles", "receive"]
