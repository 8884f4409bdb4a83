"""`lodestep index`: a folder of dances listed and searched."""
from __future__ import annotations

import csv
import io
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from invoking import EXAMPLES, HEAD, process, run, said
from pypdf import PdfReader

from notation import bounds
from notation.bounds import Bound


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Two dances of their own, one with an error, one that is no YAML, a book, hidden files and a folder of figures."""
    dances = tmp_path / "dances"
    (dances / "old" / "figures").mkdir(parents=True)
    (dances / "good.yaml").write_text(HEAD.replace("title: T", "title: Good Waltz"))
    (dances / "old" / "faulty.yaml").write_text(HEAD.replace("title: T", "title: '=Faulty'").replace("fwd", "frwd"))
    (dances / "broken.yaml").write_bytes(b"title: [a\nsequence: \xff")
    (dances / "book.yaml").write_text("title: Season\ndances: [good.yaml]\n")
    (dances / ".hidden.yaml").write_text(HEAD)
    (dances / "old" / "figures" / "own.yaml").write_text(HEAD)
    return dances


@pytest.fixture
def four(tmp_path: Path) -> Path:
    """The first examples in a folder of their own."""
    folder = tmp_path / "four"
    folder.mkdir()
    for path in EXAMPLES.glob("*.yaml"):
        shutil.copy(path, folder)
    return folder


def test_a_table_of_the_examples(four: Path) -> None:
    result = run("index", four)
    assert result.exit_code == 0
    line = next(line for line in result.output.splitlines() if line.startswith("Ferry Lane Saunter"))
    assert line.split()[3:6] == ["saunter", "16", "28"]
    assert "Left square turn" in result.output


def test_faulty_files_are_listed_with_what_was_found(folder: Path) -> None:
    result = run("index", folder)
    assert result.exit_code == 0 and "Traceback" not in said(result)
    lines = result.output.splitlines()
    assert [line.split("  ")[0] for line in lines[1:] if line[0] != " "][:3] == ["=Faulty", "Good Waltz", "(no title)"]
    assert "1 error" in lines[1] and "not UTF-8" in result.output
    assert lines[-1] == "3 dances, 2 with errors"
    assert "Season" not in result.output and "own.yaml" not in result.output and "hidden" not in result.output


def test_searching_from_the_command_line(four: Path) -> None:
    found = json.loads(run("index", four, "--figure", "whisk", "--format", "json").output)
    assert [entry["title"] for entry in found] == ["Harbour Bell Waltz"]
    found = json.loads(run("index", four, "--rhythm", "two step", "--format", "json").output)
    assert [entry["title"] for entry in found] == ["The Tinsmiths' Two-Step"]
    found = json.loads(run("index", four, "ferrier", "balances", "--format", "json").output)
    assert [entry["title"] for entry in found] == ["Lantern Quay Waltz"]
    assert run("index", four, "no such word").output == "0 dances\n"


def test_csv_reads_back_and_begins_no_formula(folder: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(run("index", folder, "--format", "csv").output)))
    assert [row["title"] for row in rows] == ["'=Faulty", "Good Waltz", ""]
    assert (rows[1]["bars"], rows[1]["tempo"], rows[1]["metre"], rows[1]["errors"]) == ("1", "30", "3/4", "0")


@pytest.mark.parametrize("check", [["qpdf", "--check"], ["pdfua", "check"], ["outloud", "--fail-on", "error"]],
                         ids=lambda words: words[0])
def test_the_printed_list(check: list[str], folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "list.pdf"
    result = run("index", folder, "-o", out)
    assert result.exit_code == 0 and "3 dances, 2 with errors" in result.output
    text = "".join(page.extract_text() for page in PdfReader(out).pages)
    assert "Good Waltz" in text and "faulty.yaml: 1 error" in text and "Dances: dances" in text
    found = shutil.which(check[0], path=f"{Path(sys.executable).parent}:{os.environ['PATH']}")
    if found is None:
        pytest.skip(f"{check[0]} is absent")
    done = subprocess.run([found, *check[1:], out], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_what_cannot_be_listed_or_written(tmp_path: Path) -> None:
    assert run("index", tmp_path / "nowhere").exit_code == 2
    assert run("index", tmp_path, "-o", tmp_path / "list.doc").exit_code == 2
    assert run("index", tmp_path, "-o", tmp_path / "no" / "list.csv").exit_code == 2
    result = run("index", EXAMPLES, "-o", tmp_path / "list.pdf", "--paper", "B9")
    assert result.exit_code == 2 and "there is no paper 'B9'" in said(result)


def test_many_files_are_spread_and_come_in_the_same_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(12):
        (tmp_path / f"d{number}.yaml").write_text(HEAD.replace("title: T", f"title: Dance {number:02}"))
    alone = run("index", tmp_path, "--format", "json").output
    monkeypatch.setattr("notation.cli.folder.WORTH_SPREADING", 2)
    assert run("index", tmp_path, "--format", "json").output == alone
    assert len(json.loads(alone)) == 12


def test_a_list_loads_no_heavy_library() -> None:
    script = "import sys, atexit; atexit.register(lambda: print('LOADED', [m for m in ('reportlab', 'pypdf', 'jinja2',"
    script += " 'uharfbuzz', 'pypdfium2') if m in sys.modules]))\n"
    script += f"sys.argv = ['lodestep', 'index', {str(EXAMPLES)!r}]"
    assert process(script=script).stdout.splitlines()[-1] == "LOADED []"


def test_a_folder_of_more_files_than_are_read(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("notation.cli.folder.FOLDER_FILES", Bound(2, bounds.FOLDER_FILES.message))
    result = run("index", folder)
    assert result.exit_code == 2 and "more than 2 files in one folder" in said(result)
