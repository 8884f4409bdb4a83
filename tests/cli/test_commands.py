"""The commands as a writer uses them, and bad input: one clear message, no traceback, nothing overwritten."""
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from notation.cli.main import lodestep
from notation.reading.knowledge import load_knowledge

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
SAUNTER = EXAMPLES / "ferry-lane-saunter.yaml"
HEAD = """\
title: T
arranged by: A. Writer
rhythm: waltz
tempo: 30
introduction: 4
length: 1
start: {position: closed, hold: closed, gent: "LF, facing LOD"}
sequence:
  - bars: 1
    gent: |
      1  LF fwd
      2  RF side
      3  hold
    lady: opposite
"""


def run(*words: str | Path, input: bytes | None = None) -> Result:
    return CliRunner().invoke(lodestep, [str(w) for w in words], input=input)


def said(result: Result) -> str:
    return result.output + (result.stderr if result.stderr not in result.output else "")


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


def test_new_leaves_an_existing_file(tmp_path: Path) -> None:
    out = tmp_path / "new.yaml"
    out.write_text("mine")
    assert run("new", "T", "--rhythm", "waltz", "-o", out).exit_code == 2
    assert out.read_text() == "mine"


def test_unknown_rhythm_for_new() -> None:
    result = run("new", "T", "--rhythm", "watlz")
    assert result.exit_code == 2 and "did you mean 'waltz'?" in said(result)


def test_rules_terms_layouts_and_version() -> None:
    assert "bar-short" in run("rules").output
    assert "Without fault" in run("rules", "bar-short").output
    assert "did you mean 'bar-short'?" in said(run("rules", "bar-shrt"))
    terms = run("terms").output
    assert all(word in terms for word in ("contrary body movement", "LOD", "old-time waltz"))
    assert "script" in run("layouts").output
    assert "lodestep" in run("--version").output


def test_recover_gives_the_source_back(tmp_path: Path) -> None:
    run("sheet", SAUNTER, "-o", tmp_path / "s.pdf")
    assert run("recover", tmp_path / "s.pdf", "--into", tmp_path).exit_code == 0
    assert (tmp_path / SAUNTER.name).read_bytes() == SAUNTER.read_bytes()
    (tmp_path / SAUNTER.name).write_text("changed since")
    assert run("recover", tmp_path / "s.pdf", "--into", tmp_path).exit_code == 2
    assert (tmp_path / SAUNTER.name).read_text() == "changed since"


BAD = {
    "not UTF-8": (b"title: \xff", 2, "UTF-8"),
    "empty": (b"", 2, "empty"),
    "a list at the top": (b"- a\n", 2, "list"),
    "tab indentation": (b"title: T\nstart:\n\tgent: LF\n", 2, "tab"),
    "duplicate key": (b"title: A\ntitle: B\n", 2, "twice"),
    "alias bomb": (b"a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b]\n"
                   b"d: &d [*c,*c,*c,*c,*c,*c,*c]\ne: [*d,*d,*d,*d,*d,*d,*d,*d]\n", 2, "values"),
    "5 MB of junk": (os.urandom(5_000_000), 2, "larger than"),
    "10,000 bars": (HEAD.replace("bars: 1", "bars: 1-10000").encode(), 2, "512 bars"),
    "bar 0": (HEAD.replace("bars: 1", "bars: 0").encode(), 2, "bars count from 1"),
    "bar -1": (HEAD.replace("bars: 1", "bars: -1").encode(), 2, "range such as 3-4"),
    "tempo 0": (HEAD.replace("tempo: 30", "tempo: 0").encode(), 1, "more than 0"),
    "tempo in words": (HEAD.replace("tempo: 30", "tempo: brisk").encode(), 1, "'brisk'"),
    "metre 5/0": (HEAD.replace("tempo: 30", "metre: 5/0").encode(), 1, "no metre"),
    "a title of 4,000 characters": (HEAD.replace("title: T", "title: " + "x" * 4000).encode(), 1, "200 characters"),
}


@pytest.mark.parametrize("what", BAD)
def test_bad_input_is_answered_and_nothing_is_overwritten(what: str, tmp_path: Path) -> None:
    source, status, words = BAD[what]
    dance, out = tmp_path / "d.yaml", tmp_path / "d.pdf"
    dance.write_bytes(source)
    out.write_bytes(b"the old sheet")
    result = run("sheet", dance, "-o", out)
    assert result.exit_code == status, said(result)
    assert words in said(result) and "Traceback" not in said(result)
    assert f"{dance}:" in said(result)
    assert out.read_bytes() == b"the old sheet"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["d.pdf", "d.yaml"]


def test_a_word_of_300_characters_and_letters_no_font_has(tmp_path: Path) -> None:
    dance, out = tmp_path / "d.yaml", tmp_path / "d.pdf"
    text = SAUNTER.read_text().replace("title: Ferry Lane Saunter", "title: Ferry \U0001f642 Saunter")
    dance.write_text(text.replace("music:", f"notes: {'x' * 300}\nmusic:"))
    result = run("sheet", dance, "-o", out)
    assert result.exit_code == 0 and out.exists()
    assert f"{dance}:2:14: warning" in said(result) and "U+1F642" in said(result)


def test_missing_file_and_folder(tmp_path: Path) -> None:
    for name, words in ((tmp_path / "none.yaml", "no file"), (tmp_path, "is a folder")):
        result = run("sheet", name, "-o", tmp_path / "o.pdf")
        assert result.exit_code == 2 and words in said(result)


def test_outputs_that_cannot_be(tmp_path: Path) -> None:
    same = tmp_path / "d.pdf"
    same.write_bytes(SAUNTER.read_bytes())
    for target, words in (
        (tmp_path / "no" / "o.pdf", "does not exist"),
        (same, "the dance file itself"),
        (Path("/proc/nothing.pdf"), "cannot be written"),
    ):
        result = run("sheet", same, "-o", target)
        assert result.exit_code == 2 and words in said(result), said(result)
    assert same.read_bytes() == SAUNTER.read_bytes()
    (tmp_path / "folder.pdf").mkdir()
    assert "is a folder" in said(run("sheet", SAUNTER, "-o", tmp_path / "folder.pdf"))


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "o.pdf"
    out.write_bytes(b"the old sheet")

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    result = run("sheet", SAUNTER, "-o", out)
    assert result.exit_code == 2 and "No space left" in said(result)
    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == [("o.pdf", b"the old sheet")]


def test_a_dance_with_errors_gets_no_sheet_unless_a_draft_is_wanted(tmp_path: Path) -> None:
    dance, out = tmp_path / "d.yaml", tmp_path / "d.pdf"
    dance.write_text(HEAD.replace("LF fwd", "LF frwd"))
    assert run("sheet", dance, "-o", out).exit_code == 1 and not out.exists()
    assert run("sheet", dance, "-o", out, "--draft").exit_code == 1 and out.exists()


def test_unknown_layout_paper_and_ending(tmp_path: Path) -> None:
    out = tmp_path / "o.pdf"
    assert "did you mean 'script'?" in said(run("sheet", SAUNTER, "-o", out, "--layout", "skript"))
    assert run("sheet", SAUNTER, "-o", out, "--paper", "A99").exit_code == 2
    assert run("sheet", SAUNTER, "-o", tmp_path / "o.docx").exit_code == 2
    assert not out.exists()


def test_nothing_can_act_on_the_terminal(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("LF fwd", "LF \u202efwd"))
    assert "\u202e" not in run("check", dance).output


def test_the_unforeseen_is_one_line_and_status_2(tmp_path: Path) -> None:
    script = "import notation.cli.check as c; c.load = lambda name: 1 / 0\nfrom notation.cli.main import main\nmain()"
    done = subprocess.run([sys.executable, "-c", script, "check", "x"], capture_output=True, text=True)
    assert done.returncode == 2 and "Traceback" not in done.stderr and len(done.stderr.splitlines()) == 1


def process(*words: str | Path, script: str = "", **settings: str) -> subprocess.CompletedProcess[str]:
    """The command as a process of its own, with a line of Python before it."""
    code = f"{script}\nfrom notation.cli.main import main\nmain()"
    command = [sys.executable, "-c", code, *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, encoding="latin-1", env={**os.environ, **settings})


def test_sheet_says_what_it_wrote(tmp_path: Path) -> None:
    out = tmp_path / "s.pdf"
    assert run("sheet", SAUNTER, "-o", out).output == f"{out}: written\n"


def test_words_of_the_command_line_cannot_act_on_the_terminal() -> None:
    done = process("check", "x", "--format", "a\x1b[31mb")
    assert done.returncode == 2 and "\x1b" not in done.stderr and "x1b[31m" in done.stderr


def test_a_terminal_without_the_letters_is_no_fault(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("title: T", "title: \u0141\u00f3d\u017a"), "utf-8")
    done = process("check", dance, PYTHONIOENCODING="latin-1")
    assert done.returncode == 0 and "\\u0141" in done.stdout


def test_stopping_leaves_the_old_sheet_and_nothing_else(tmp_path: Path) -> None:
    out = tmp_path / "o.pdf"
    out.write_bytes(b"the old sheet")
    script = "import os\ndef stopped(*_): raise KeyboardInterrupt\nos.replace = stopped"
    done = process("sheet", SAUNTER, "-o", out, script=script)
    assert done.returncode == 130 and "Traceback" not in done.stderr
    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == [("o.pdf", b"the old sheet")]


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
    assert "does not exist" in said(run("layouts", "--thumbnails", tmp_path / "no", "--of", SAUNTER))


def test_files_with_the_same_name_would_overwrite_each_other(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "d.yaml").write_bytes(SAUNTER.read_bytes())
    result = run("sheet", *tmp_path.glob("*/d.yaml"), "--into", tmp_path)
    assert result.exit_code == 2 and "two dances" in said(result) and not (tmp_path / "d.pdf").exists()


STRANGE = (
    "[" * 100_000, "a: " * 3000, "{a: " * 50_000, "- " * 50_000, "? " * 20_000, "!" * 900_000, "title: \x00",
    "%YAML 9.9\n---\n", "\ufeff", "title: &a *a", "<<: *x",
)


@pytest.mark.parametrize("text", STRANGE, ids=range(len(STRANGE)))
def test_strange_files_end_in_one_clear_message(text: str, tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(text, "utf-8")
    done = process("check", dance)
    assert done.returncode in (1, 2) and "Traceback" not in done.stderr and "unforeseen" not in done.stderr
    assert f"{dance}:" in done.stdout


def test_slips_of_the_pen_are_answered(tmp_path: Path) -> None:
    assert "did you mean 'sheet'?" in said(run("shet"))
    assert "did you mean" in said(run("terms", "centtre"))
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("LF fwd", "LF frwd"))
    assert "no sheet is written; mend the errors, or add --draft" in said(run("sheet", dance))


def test_what_concerns_a_whole_file_shows_no_line_of_it() -> None:
    text = said(run("sheet", SAUNTER, "-o", SAUNTER, "--as", "pdf"))
    assert "the dance file itself" in text and len(text.splitlines()) == 1


def test_a_killed_process_leaves_the_old_sheet_or_the_new(tmp_path: Path) -> None:
    """Killed while it writes: at the start of the writing, after it, and before and after the renaming."""
    out = tmp_path / "o.pdf"
    run("sheet", SAUNTER, "-o", out)
    new = out.read_bytes()
    for step in ("open", "fsync", "chmod", "replace"):
        for order in ("kill(); return was(*a)", "was(*a); kill()"):
            out.write_bytes(b"the old sheet")
            name = {"open": "fdopen"}.get(step, step)
            script = (
                f"import os, signal\nwas = os.{name}\ndef kill(): os.kill(os.getpid(), signal.SIGKILL)\n"
                f"def patched(*a, **k): {order}\nimport notation.cli.output\nos.{name} = patched"
            )
            done = process("sheet", SAUNTER, "-o", out, script=script)
            assert done.returncode == -9
            assert out.read_bytes() in (b"the old sheet", new)
