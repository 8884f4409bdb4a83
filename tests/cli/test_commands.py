"""The commands as a writer uses them."""
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from invoking import EXAMPLES, HEAD, SAUNTER, process, run, said

from notation.cli.thumbnails import THUMBNAIL_DPI
from notation.page.png import paint_png
from notation.reading.knowledge import load_knowledge


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.yaml")), ids=lambda p: p.stem)
def test_examples_pass_and_are_set(path: Path, tmp_path: Path) -> None:
    assert run("check", path).exit_code == 0
    out = tmp_path / "sheet.pdf"
    assert run("sheet", path, "-o", out).exit_code == 0
    assert out.read_bytes().startswith(b"%PDF-")


def test_check_says_how_long_it_runs() -> None:
    result = run("check", SAUNTER, "--recording", "3:05")
    assert "16 bars at 28: 34 s; five times through with 4 bars in: 3 min" in result.output
    assert "five times" in result.output.splitlines()[-1]


def test_findings_show_the_line_and_a_caret(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("LF fwd", "LF frwd"))
    lines = run("check", dance).output.splitlines()
    assert lines[0] == f"{dance}:11:13: error: unknown word 'frwd': did you mean 'fwd'?  [unknown-word]"
    assert lines[1].index("frwd") == lines[2].index("^^^^")


def test_findings_as_json(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("LF fwd", "LF frwd"))
    result = run("check", dance, "--format", "json")
    record = json.loads(result.output)[0]
    keys = "file line column end_line end_column severity rule message suggestion bar count part"
    assert list(record) == keys.split()
    assert (record["line"], record["column"], record["end_column"], record["suggestion"]) == (11, 13, 17, "fwd")
    assert result.exit_code == 1


def test_standard_input(tmp_path: Path) -> None:
    assert run("check", "-", input=SAUNTER.read_bytes()).exit_code == 0
    out = tmp_path / "s.pdf"
    assert run("sheet", "-", "-o", out, input=SAUNTER.read_bytes()).exit_code == 0
    assert out.stat().st_size > 1000


def test_several_files_into_a_folder(tmp_path: Path) -> None:
    paths = sorted(EXAMPLES.glob("*.yaml"))
    result = run("sheet", *paths, "--into", tmp_path)
    assert result.exit_code == 0
    assert sorted(p.stem for p in tmp_path.iterdir()) == [p.stem for p in paths]
    assert "Setting sheets" not in said(result)  # no bar where nobody watches


@pytest.mark.parametrize("ending", ["png", "svg", "txt", "html"])
def test_other_forms(ending: str, tmp_path: Path) -> None:
    assert run("sheet", SAUNTER, "-o", tmp_path / f"s.{ending}").exit_code == 0
    assert [p.suffix for p in tmp_path.iterdir()].count(f".{ending}") >= 1


@pytest.mark.parametrize("rhythm", [r.name for r in load_knowledge().rhythms])
def test_starter_files_pass_the_checks(rhythm: str, tmp_path: Path) -> None:
    out = tmp_path / "new.yaml"
    assert run("new", 'A: "strange" {title} #1', "--rhythm", rhythm, "-o", out).exit_code == 0
    result = run("check", out)
    assert result.exit_code == 0 and "error" not in result.output


def test_unknown_rhythm_for_new() -> None:
    result = run("new", "T", "--rhythm", "watlz")
    assert result.exit_code == 2 and "did you mean 'waltz'?" in said(result)


def test_rules_terms_layouts_and_version() -> None:
    assert "bar-short" in run("rules").output
    assert "Without fault" in run("rules", "bar-short").output
    assert "did you mean 'bar-short'?" in said(run("rules", "bar-shrt"))
    terms = run("terms").output
    assert all(word in terms for word in ("contrary body movement", "LOD", "old-time waltz", "side by side", "skaters"))
    assert "R to R, L to L" in run("terms", "allemande").output and "L to R, R to L" in run("terms", "holds").output
    assert "script" in run("layouts").output
    assert "lodestep" in run("--version").output


def test_recover_gives_the_source_back(tmp_path: Path) -> None:
    run("sheet", SAUNTER, "-o", tmp_path / "s.pdf")
    assert run("recover", tmp_path / "s.pdf", "--into", tmp_path).exit_code == 0
    assert (tmp_path / SAUNTER.name).read_bytes() == SAUNTER.read_bytes()
    (tmp_path / SAUNTER.name).write_text("changed since")
    assert run("recover", tmp_path / "s.pdf", "--into", tmp_path).exit_code == 2
    assert (tmp_path / SAUNTER.name).read_text() == "changed since"


def test_a_dance_with_errors_gets_no_sheet_unless_a_draft_is_wanted(tmp_path: Path) -> None:
    dance, out = tmp_path / "d.yaml", tmp_path / "d.pdf"
    dance.write_text(HEAD.replace("LF fwd", "LF frwd"))
    assert run("sheet", dance, "-o", out).exit_code == 1 and not out.exists()
    assert run("sheet", dance, "-o", out, "--draft").exit_code == 1 and out.exists()


def test_sheet_says_what_it_wrote(tmp_path: Path) -> None:
    out = tmp_path / "s.pdf"
    assert run("sheet", SAUNTER, "-o", out).output == f"{out}: written\n"


def test_many_files_are_spread_and_one_that_fails_is_named(tmp_path: Path) -> None:
    for number in range(25):
        (tmp_path / f"d{number}.yaml").write_bytes(SAUNTER.read_bytes() if number != 7 else b"title: 1\n- x")
    (tmp_path / "out").mkdir()
    result = run("sheet", *sorted(tmp_path.glob("*.yaml")), "--into", tmp_path / "out")
    assert result.exit_code == 2 and "d7.yaml:" in said(result)
    assert len(list((tmp_path / "out").glob("*.pdf"))) == 24
    assert run("sheet", tmp_path / "d3.yaml", "-o", tmp_path / "one.pdf").exit_code == 0
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "out" / "d3.pdf").read_bytes()


def test_thumbnails_of_all_layouts(tmp_path: Path) -> None:
    assert run("layouts", "--thumbnails", tmp_path, "--of", SAUNTER).exit_code == 0
    assert {"script.png", "large-print.png"} <= {p.name for p in tmp_path.iterdir()}
    assert run("sheet", SAUNTER, "-o", tmp_path / "lesson.pdf", "--layout", "teaching").exit_code == 0
    page = paint_png((tmp_path / "lesson.pdf").read_bytes(), 0, THUMBNAIL_DPI)
    assert (tmp_path / "teaching.png").read_bytes() == page, "a thumbnail shows what the sheet shows, diagrams too"
    assert "does not exist" in said(run("layouts", "--thumbnails", tmp_path / "no", "--of", SAUNTER))


def test_several_files_show_their_progress_on_a_terminal(tmp_path: Path) -> None:
    pty = pytest.importorskip("pty")
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "notation.cli.main", "sheet", SAUNTER, EXAMPLES / "tinsmiths-two-step.yaml"]
    done = subprocess.run([*command, "--into", tmp_path], stdout=subprocess.PIPE, stderr=theirs)
    os.close(theirs)
    shown = os.read(ours, 65536).decode()
    os.close(ours)
    assert done.returncode == 0 and "Setting sheets" in shown and "100%" in shown
    assert done.stdout.decode().count(": written") == 2


@pytest.mark.parametrize(("begun", "offered"), [
    ("lodestep sh", "sheet"),
    ("lodestep sheet --layout la", "large-print"),
    ("lodestep new T --rhythm sau", "saunter"),
    ("lodestep rules bar-s", "bar-short"),
])
def test_the_shell_completes(begun: str, offered: str) -> None:
    settings = {"COMP_WORDS": begun, "COMP_CWORD": str(len(begun.split()) - 1), "_LODESTEP_COMPLETE": "bash_complete"}
    done = process(script="import sys; sys.argv[0] = 'lodestep'", **settings)
    assert done.stdout == f"plain,{offered}\n"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_shell_gets_a_script(shell: str) -> None:
    done = process(script="import sys; sys.argv[0] = 'lodestep'", _LODESTEP_COMPLETE=f"{shell}_source")
    assert done.returncode == 0 and "_LODESTEP_COMPLETE" in done.stdout
