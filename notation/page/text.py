"""Measured words: from the runs of a paragraph to atoms, and more breaks inside them where a column is narrow."""
from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import count

from notation.page.content import Paragraph, Run, Style
from notation.page.fault import LayoutError
from notation.page.fonts import Faces, Shaped
from notation.page.hyphenate import syllables
from notation.page.linebreak import NEVER, Breakable, fits

PAUSE, SPACE, HYPHEN, SOFT, TIE, ANYWHERE = 0.0, 0.05, 0.1, 0.25, 0.55, 1.05
"""Penalties for ending a line where a reader pauses, at another space, after a written hyphen, in a word, between tied
words, between letters. That lines end where one would pause when reading aloud is asked by Inclusion Europe,
'Information for all' (2009), which the value follows from memory; how much it may cost is our own."""
PAUSES = (",", ";", ":", ".", "?", "!", "\u2013", "\u00b7")

NO_BREAK = "\u00a0\u202f"
TOKENS = re.compile(f"([^\\s{NO_BREAK}\u00ad]+)|([{NO_BREAK}])|(\u00ad)|(\\s+)")
AFTER_HYPHEN = re.compile(r"(?<=[^\W\d_][^\W\d_][-/\u2013\u2014])(?=[^\W\d_]{2})")


@dataclass(frozen=True, slots=True)
class Atom:
    """What is never divided. All lengths in points.

    gap: what separates it from the next atom on the same line; spaced: that gap is a space. penalty: of ending a line
    after it; extra: the width of the hyphen that then appears, whose shape is `hyphen`.
    """

    shaped: tuple[Shaped, ...]
    style: Style
    width: float
    gap: float = 0.0
    spaced: bool = False
    penalty: float = NEVER
    extra: float = 0.0


@dataclass(frozen=True, slots=True)
class Measured:
    """A paragraph's atoms with their places on one endless line. widest: its widest unbreakable group.

    number: tells it from any other, for what is remembered about it.
    """

    atoms: tuple[Atom, ...]
    breakable: Breakable
    natural: float
    widest: float
    number: int = field(default_factory=count(1).__next__, compare=False)


def space_width(style: Style, faces: Faces) -> float:
    return faces.face(style.face).advances.get(" ", 250.0) * style.size / 1000


def atom_of(text: str, style: Style, faces: Faces) -> Atom:
    """Text that is never divided, measured."""
    shaped = faces.shaped(style.face, text)
    return Atom(shaped, style, sum(s.width for s in shaped) * style.size / 1000)


def _kern(one: Atom, two: Atom, faces: Faces) -> float:
    """Kerning between two atoms that touch."""
    if not one.shaped or not two.shaped or one.style != two.style or one.shaped[-1].face != two.shaped[0].face:
        return 0.0
    face = faces.face(one.shaped[-1].face)
    return face.kern(one.shaped[-1].text[-1], two.shaped[0].text[0]) * one.style.size / 1000


def _word(text: str, style: Style, faces: Faces) -> list[Atom]:
    """A word, with breaks after the hyphens written in it."""
    parts = AFTER_HYPHEN.split(text) if len(text) > 4 else [text]
    return _joined([atom_of(part, style, faces) for part in parts], HYPHEN, 0.0, faces)


def _joined(atoms: list[Atom], penalty: float, extra: float, faces: Faces) -> list[Atom]:
    """Atoms of one word, with a permitted break between each two."""
    for k in range(len(atoms) - 1):
        atoms[k] = replace(atoms[k], penalty=penalty, extra=extra, gap=_kern(atoms[k], atoms[k + 1], faces))
    return atoms


def _hyphen(style: Style, faces: Faces) -> float:
    return atom_of("-", style, faces).width


def _run_atoms(run: Run, faces: Faces) -> Iterator[Atom | None]:
    """The atoms of a run; None first where it begins with a space."""
    held: Atom | None = None
    style = run.style
    for word, tie, soft, _ in TOKENS.findall(run.text):
        if word:
            if held:
                yield held if held.penalty < NEVER or held.spaced else replace(held, gap=0.0)
            *before, held = _word(word, style, faces)
            yield from before
        elif held is None:
            yield None
        elif tie:
            held = replace(held, gap=space_width(style, faces), spaced=True)
        elif soft:
            held = replace(held, penalty=SOFT, extra=_hyphen(style, faces))
        else:
            held = replace(held, gap=space_width(style, faces), spaced=True, penalty=_at_space(held), extra=0.0)
    if held:
        yield held


def _at_space(atom: Atom) -> float:
    """What it costs to end a line at the space after that word."""
    return PAUSE if atom.shaped and atom.shaped[-1].text.endswith(PAUSES) else SPACE


def _atoms(runs: Iterable[Run], faces: Faces) -> tuple[Atom, ...]:
    found: list[Atom] = []
    for run in runs:
        for atom in _run_atoms(run, faces):
            if atom is None:
                if found:
                    gap = space_width(run.style, faces)
                    found[-1] = replace(found[-1], gap=gap, spaced=True, penalty=_at_space(found[-1]))
            else:
                _touch(found, atom, faces)
    return tuple(atom for atom in found if atom.shaped)


def _touch(found: list[Atom], atom: Atom, faces: Faces) -> None:
    if found and not found[-1].spaced and found[-1].gap == 0.0:
        gap = _kern(found[-1], atom, faces)
        if gap:
            found[-1] = replace(found[-1], gap=gap)
    found.append(atom)


def laid_out(atoms: Sequence[Atom]) -> Measured:
    """Atoms with their places on one line."""
    starts, ends, x = [], [], 0.0
    for atom in atoms:
        starts.append(x)
        ends.append(x + atom.width)
        x += atom.width + atom.gap
    breakable = Breakable(tuple(starts), tuple(ends), tuple(a.extra for a in atoms), tuple(a.penalty for a in atoms))
    if atoms and atoms[-1].extra:
        return laid_out((*atoms[:-1], replace(atoms[-1], extra=0.0)))
    return Measured(tuple(atoms), breakable, ends[-1] if ends else 0.0, breakable.widest_group())


def measured(paragraph: Paragraph, faces: Faces) -> Measured:
    """The paragraph's words measured; remembered with the faces, by the runs themselves and by what they say."""
    runs = paragraph.runs
    seen = faces.memory.get(id(runs))
    if seen is None or seen[0] is not runs:
        known = faces.memory.get(runs) or faces.remember(runs, laid_out(_atoms(runs, faces)))
        seen = faces.remember(id(runs), (runs, known))
    assert isinstance(seen[1], Measured)
    return seen[1]


def opened(text: Measured, width: float, faces: Faces, language: str) -> Measured:
    """The same words with breaks inside what would run over: between tied words, at syllables, then anywhere.

    LayoutError where not even one letter fits.
    """
    if fits(text.widest, width):
        return text
    atoms: list[Atom] = []
    for group in _groups(text.atoms):
        total = sum(a.width + a.gap for a in group) - group[-1].gap + group[-1].extra
        atoms.extend(group if fits(total, width) else _opened_group(group, width, faces, language))
    return laid_out(atoms)


def widest_syllable(text: Measured, faces: Faces, language: str) -> float:
    """Points: the least width at which words are divided only at syllables."""
    widest = 0.0
    for atom in text.atoms:
        parts = syllables("".join(s.text for s in atom.shaped), language)
        hyphen = _hyphen(atom.style, faces) if len(parts) > 1 else atom.extra
        widest = max(widest, max(atom_of(part, atom.style, faces).width for part in parts) + hyphen)
    return widest


def _groups(atoms: Sequence[Atom]) -> Iterator[list[Atom]]:
    group: list[Atom] = []
    for atom in atoms:
        group.append(atom)
        if atom.penalty < NEVER:
            yield group
            group = []
    if group:
        yield group


def _opened_group(group: Sequence[Atom], width: float, faces: Faces, language: str) -> Iterator[Atom]:
    for atom in group:
        *inner, last = _openedatom_of(atom, width, faces, language)
        yield from inner
        within = TIE if atom.spaced else ANYWHERE
        yield replace(last, gap=atom.gap, spaced=atom.spaced, extra=atom.extra, penalty=min(atom.penalty, within))


def _openedatom_of(atom: Atom, width: float, faces: Faces, language: str) -> list[Atom]:
    if fits(atom.width + atom.extra, width):
        return [atom]
    text, hyphen = "".join(s.text for s in atom.shaped), _hyphen(atom.style, faces)
    parts = [atom_of(part, atom.style, faces) for part in syllables(text, language)]
    opened_parts: list[Atom] = []
    for part in _joined(parts, SOFT, hyphen, faces):
        opened_parts.extend([part] if fits(part.width + part.extra, width) else _letters(part, width, faces))
    return opened_parts


def _letters(atom: Atom, width: float, faces: Faces) -> list[Atom]:
    """Each letter by itself; the last keeps the hyphen only where there is room for it."""
    letters = [atom_of(letter, atom.style, faces) for shaped in atom.shaped for letter in shaped.text]
    if not all(fits(letter.width, width) for letter in letters):
        raise LayoutError("a column is narrower than a single letter; take larger paper, smaller type or fewer columns")
    *inner, last = _joined(letters, ANYWHERE, 0.0, faces)
    extra = atom.extra if fits(last.width + atom.extra, width) else 0.0
    return [*inner, replace(last, gap=atom.gap, penalty=atom.penalty, extra=extra)]


@lru_cache(maxsize=512)
def steps_needed(size: float, step: float) -> float:
    """Baseline steps, in halves, that a line of that type size needs: 0.95 of the size, so 12 on 12 still is one."""
    return max(0.5, -(-0.95 * size / step * 2 // 1) / 2)


def line_steps(paragraph: Paragraph, step: float) -> float:
    """Steps from one baseline to the next: what the paragraph asks, or more where its type would not fit."""
    asked = max(paragraph.line_steps, 0.5)
    for run in paragraph.runs:
        needed = steps_needed(run.style.size, step)
        if needed > asked:
            asked = needed
    return asked
