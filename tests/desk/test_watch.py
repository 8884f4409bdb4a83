"""`lodestep watch`: each save sets the sheet again; the last good one stays."""
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from desking import EXAMPLES


@pytest.fixture
def watched(tmp_path: Path) -> Iterator[tuple[Path, Path, "subprocess.Popen[str]"]]:
    dance, pdf = tmp_path / "dance.yaml", tmp_path / "dance.pdf"
    shutil.copy(EXAMPLES / "ferry-lane-saunter.yaml", dance)
    words = [sys.executable, "-m", "notation.cli.main", "watch", str(dance)]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=tmp_path,
                               env={**os.environ, "PYTHONUNBUFFERED": "1"})
    until(pdf.exists)
    time.sleep(0.5)
    yield dance, pdf, process
    process.kill()
    process.wait()


def until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + 15
    while not true():
        assert time.monotonic() < end, "it did not come about"
        time.sleep(0.02)


def test_sets_again_on_saves_of_every_kind(watched: tuple[Path, Path, "subprocess.Popen[str]"]) -> None:
    dance, pdf, process = watched
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
    time.sleep(0.5)
    dance.write_text("title: broken\n")
    time.sleep(0.7)
    assert pdf.read_bytes() == last
    rewritten(lambda: dance.write_text(good))
    process.send_signal(signal.SIGINT)
    assert process.wait(10) == 0
    assert process.stdout
    said = process.stdout.read()
    assert "the file is gone" in said and "Watching ended" in said and said.count("written") == 4
