"""Makes what the guides take from the program: the tables of format.md and the pictures.

    python docs/make.py

In format.md, what stands between `<!-- table: NAME -->` and `<!-- end -->` is written anew; all else is left as it is.
"""
from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterable
from pathlib import Path

from notation.cli.terms import HEADINGS
from notation.dance.running import tempo_words
from notation.reading.knowledge import load_knowledge

DOCS = Path(__file__).parent
ROOT = DOCS.parent
TABLE = re.compile(r"<!-- table: (\w+) -->\n.*?<!-- end -->", re.DOTALL)
GALLERY = ROOT / "examples" / "lantern-quay-waltz.yaml"
FOOT, EDGE = 0.94, 12
"""The share of a page above its foot; pixels left round what is drawn."""
STEPS_LEFT_OUT = ("derivation", "change")


def rows(head: tuple[str, ...], lines: Iterable[tuple[str, ...]]) -> str:
    """A table of Markdown."""
    made = [head, tuple("---" for _ in head), *lines]
    return "".join(f"| {' | '.join(line)} |\n" for line in made)


def words() -> str:
    """Every word by its kind."""
    shown = load_knowledge().vocabulary.words
    parts = []
    for kind in dict.fromkeys(word.kind for word in shown):
        if kind in STEPS_LEFT_OUT:
            continue
        lines = [(word.short, word.words, ", ".join(word.accepts)) for word in shown if word.kind == kind]
        parts.append(f"### {HEADINGS.get(kind, kind)}\n\n{rows(('short', 'in words', 'also read'), lines)}")
    return "\n".join(parts)


def positions() -> str:
    table = load_knowledge().positions
    return rows(("position", "also", "her part follows by"), (
        (row.name, ", ".join(row.also), row.feet.value) for row in table))


def holds() -> str:
    table = load_knowledge().holds
    return rows(("hold", "also", "hands, gent's to lady's"), (
        (row.name, ", ".join(row.also), ", ".join(f"{one} to {two}" for one, two in row.hands)) for row in table))


def rhythms() -> str:
    return rows(("rhythm", "also", "metre", "bars a minute", "feet"), (
        (row.name, ", ".join(row.also), str(row.metre), tempo_words(row.tempo) if row.tempo else "", row.feet)
        for row in load_knowledge().rhythms))


TABLES: dict[str, Callable[[], str]] = {"words": words, "positions": positions, "holds": holds, "rhythms": rhythms}


def filled(text: str) -> str:
    """The guide with its tables as they are now."""
    return TABLE.sub(lambda found: f"<!-- table: {found[1]} -->\n{TABLES[found[1]]()}<!-- end -->", text)


def pictures() -> None:
    """The sheets of the gallery and of the tutorial, drawn by the commands that the guides show."""
    import os

    from click.testing import CliRunner

    from notation.cli.main import lodestep

    folder = DOCS / "pictures"
    tutorial = (DOCS / "tutorial.md").read_text(encoding="utf-8")
    dance = re.findall(r"```yaml\n(# evening-tide.yaml\n.*?)```", tutorial, re.DOTALL)[-1]
    os.chdir(folder)
    Path("evening-tide.yaml").write_text(dance, encoding="utf-8")
    commands = (
        ["sheet", "evening-tide.yaml", "-o", "evening-tide.png", "--paper", "A5", "--landscape"],
        ["floor", "evening-tide.yaml", "--bars", "3-4", "-o", "box.png"],
        ["card", "rumba box", "-o", "card.png", "--paper", "A5"],
        ["sheet", "evening-tide.yaml", "-o", "german.png", "--paper", "A5", "--landscape", "--language", "de"],
        ["card", "rumba box", "-o", "german-card.png", "--paper", "A5", "--language", "de"],
        ["layouts", "--thumbnails", ".", "--of", str(GALLERY)],
    )
    for command in commands:
        done = CliRunner().invoke(lodestep, command)
        if done.exit_code:
            sys.exit(f"{command}: {done.output}")
    for name in ("box.png", "card.png", "german-card.png"):
        without_empty_foot(Path(name))
    Path("evening-tide.yaml").unlink()


def without_empty_foot(picture: Path) -> None:
    """Cut what is white under the last drawing, with the foot of the page; and as much at the sides as stays white."""
    from PIL import Image, ImageChops

    page = Image.open(picture).convert("L")
    page = page.crop((0, 0, page.width, round(FOOT * page.height)))
    box = ImageChops.invert(page).getbbox()
    assert box is not None
    left, top, right, bottom = box
    page.crop((left - EDGE, top - EDGE, right + EDGE, bottom + EDGE)).save(picture, optimize=True)


if __name__ == "__main__":
    guide = DOCS / "format.md"
    guide.write_text(filled(guide.read_text(encoding="utf-8")), encoding="utf-8")
    pictures()
