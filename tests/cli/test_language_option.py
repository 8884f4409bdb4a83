"""The option `--language` is one and the same on every command that prints."""
from __future__ import annotations

import subprocess
from pathlib import Path

import click
import pytest
from invoking import EXAMPLES, SAUNTER, run, said

from notation.cli.main import COMMANDS, lodestep

COMPETITION = EXAMPLES / "competition"
PRINTING = ("sheet", "watch", "card", "floor", "programme", "index", "booklet", "entry", "compare", "impose")


def option(name: str) -> click.Option | None:
    command = lodestep.get_command(click.Context(lodestep), name)
    assert command is not None
    found = [one for one in command.params if isinstance(one, click.Option) and "--language" in one.opts]
    return found[0] if found else None


def test_every_command_that_prints_has_it_and_no_other() -> None:
    assert {name for name in COMMANDS if option(name) is not None} == set(PRINTING)
    assert len({one.help for name in PRINTING if (one := option(name)) is not None}) == 1


@pytest.mark.parametrize("name", PRINTING)
def test_a_language_that_there_is_not(name: str, tmp_path: Path) -> None:
    """One finding with its rule, before anything is read or written."""
    done = run(name, "x", "y", "--language", "xx", "-o", tmp_path / "a.pdf") if name in ("compare", "card") else run(
        name, "x", "--language", "xx", *(("-o", tmp_path / "a.pdf") if name != "entry" else ()))
    assert done.exit_code == 2 and "there is no language 'xx'; there are en, de  [language-unknown]" in said(done)
    assert list(tmp_path.iterdir()) == []


def printed(path: Path) -> str:
    return " ".join(subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True).stdout.split())


@pytest.mark.parametrize(("words", "printed_word"), [
    (("card", "whisk"), "Heben und Senken"),
    (("card", "--positions"), "Die fünf Positionen der Füße"),
    (("floor", SAUNTER, "--bars", "1"), "Tanzrichtung"),
    (("programme", EXAMPLES / "autumn-evening.yml"), "Beginn 19.30 Uhr"),
    (("index", EXAMPLES / "season"), "Tänze: season"),
    (("compare", COMPETITION / "ferry-lane-saunter-2025.yaml", SAUNTER), "Jahr: 2026 statt 2025"),
])
def test_a_page_in_german(words: tuple[str | Path, ...], printed_word: str, tmp_path: Path) -> None:
    """The words of the terminal stay English."""
    out = tmp_path / "a.pdf"
    done = run(*words, "-o", out, "--language", "de")
    assert done.exit_code == 0, said(done)
    assert printed_word in printed(out)
    assert "ü" not in done.output and "ä" not in done.output
    info = subprocess.run(["pdfinfo", str(out)], capture_output=True, text=True).stdout
    assert "Tagged:          yes" in info
