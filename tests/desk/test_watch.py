"""`lodestep watch`: each save sets the sheet again; the last good one stays."""
import os
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from desking import EXAMPLES
from pypdf import PdfReader

from notation.cli.watch import _until_still, _Wanted


class Watching:
    """`lodestep watch` in a process of its own, and the lines that it has said."""

    def __init__(self, dance: Path) -> None:
        self.dance, self.pdf, self.said = dance, dance.with_suffix(".pdf"), list[str]()
        words = [sys.executable, "-m", "notation.cli.main", "watch", str(dance)]
        self.process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
                                        cwd=dance.parent, env={**os.environ, "PYTHONUNBUFFERED": "1"})
        self.listener = threading.Thread(target=self.listen)
        self.listener.start()

    def listen(self) -> None:
        assert self.process.stdout
        self.said.extend(iter(self.process.stdout.readline, ""))

    def has_said(self, words: str) -> bool:
        return any(words in line for line in self.said)


@pytest.fixture
def watched(tmp_path: Path) -> Iterator[Watching]:
    made = Watching(Path(shutil.copy(EXAMPLES / "ferry-lane-saunter.yaml", tmp_path / "dance.yaml")))
    until(made.pdf.exists)
    yield made
    made.process.kill()
    made.process.wait()


def until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + 15
    while not true():
        assert time.monotonic() < end, "it did not come about"
        time.sleep(0.02)


def test_sets_again_on_saves_of_every_kind(watched: Watching) -> None:
    dance, pdf = watched.dance, watched.pdf
    good = dance.read_text()

    def rewritten(act: Callable[[], object]) -> None:
        before = pdf.read_bytes()
        act()
        until(lambda: pdf.read_bytes() != before)

    rewritten(lambda: dance.write_text(good.replace("title: ", "title: New ")))
    beside = dance.with_name("dance.yaml.new")
    beside.write_text(good.replace("title: ", "title: Renamed "))
    rewritten(lambda: beside.replace(dance))
    last = pdf.read_bytes()
    dance.unlink()
    until(lambda: watched.has_said("the file is gone"))
    dance.write_text("title: broken\n")
    until(lambda: watched.has_said("dance.yaml:1:1: error"))
    assert pdf.read_bytes() == last
    rewritten(lambda: dance.write_text(good))
    until(lambda: "".join(watched.said).count("written") == 4)
    watched.process.send_signal(signal.SIGINT)
    assert watched.process.wait(10) == 0
    watched.listener.join(5)
    assert "Watching ended" in "".join(watched.said)


def test_a_save_in_two_halves_is_set_whole(watched: Watching) -> None:
    dance, pdf = watched.dance, watched.pdf
    good = dance.read_text()
    for number in range(3):
        text = good.replace("title: ", f"title: Half {number} ")
        with dance.open("w") as file:
            file.write(text[: len(text) // 2])
            file.flush()
            time.sleep(0.02)
            file.write(text[len(text) // 2 :])
        until(lambda number=number: f"Half {number}" in str(PdfReader(pdf).metadata and PdfReader(pdf).metadata.title))


class Saving(_Wanted):
    """Files whose stamp is another one at each look, for so many looks."""

    def __init__(self, looks: int) -> None:
        self.looks = looks

    def stamp(self) -> tuple[object, ...]:
        self.looks = max(0, self.looks - 1)
        return (self.looks,)


def test_nothing_is_told_of_a_file_that_is_still_being_written() -> None:
    told = [still() for still in _until_still(Saving(8), None)]
    assert told[-1] and not any(told[:-1]) and len(told) > 2


def test_what_changes_without_end_is_told_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("notation.cli.watch.PATIENCE", 0.1)
    begun = time.monotonic()
    told = next(still() for still in _until_still(Saving(10**9), None) if still())
    assert told and time.monotonic() - begun >= 0.1


def test_what_did_not_change_is_not_set_again() -> None:
    assert not list(_until_still(Saving(0), (0,)))
