"""The same input gives the same bytes, in another process with another clock, zone, hash seed, locale and folder."""
from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest

DANCE = Path(__file__).with_name("awkward.yaml")
ELSEWHERE = """
import sys, time, datetime
shift = float(sys.argv[1])
now = time.time
time.time = lambda: now() + shift
before = time.localtime
time.localtime = lambda s=None: before(time.time() if s is None else s)
from notation.cli.main import main
layout, dance = sys.argv[2:]
for form in ("pdf", "png", "svg", "txt", "html"):
    sys.argv = ["lodestep", "sheet", dance, "-o", f"sheet.{form}", "--layout", layout]
    try:
        main()
    except SystemExit as end:
        assert not end.code, end.code
"""
YEARS = 3.2e8  # seconds


def digests(folder: Path, layout: str, shift: float, **environment: str) -> dict[str, str]:
    """The digests of all files that a process of its own writes."""
    command = [sys.executable, "-c", ELSEWHERE, str(shift), layout, str(DANCE)]
    done = subprocess.run(command, cwd=folder, env=os.environ | environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(folder.iterdir())}


@pytest.mark.parametrize("layout", ["teaching", "pocket"])
def test_another_process_writes_the_same_bytes(layout: str, tmp_path: Path) -> None:
    here, there = tmp_path / "here", tmp_path / "another folder \u00e9"
    here.mkdir()
    there.mkdir()
    one = digests(here, layout, 0.0, TZ="UTC", PYTHONHASHSEED="1", LC_ALL="C.UTF-8")
    two = digests(there, layout, YEARS, TZ="Pacific/Auckland", PYTHONHASHSEED="77", LC_ALL="C", LANG="de_DE.UTF-8")
    assert one == two and len(one) >= 5
