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
    watched.process.send_signal(signal.SIGINT)
    assert watched.process.wait(10) == 0
    watched.listener.join(5)
    said = "".join(watched.said)
    assert "Watching ended" in said and said.count("written") == 4
