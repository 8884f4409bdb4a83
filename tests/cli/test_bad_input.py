"""Bad input: one clear message, no traceback, nothing overwritten."""
import os
import subprocess
import sys
from pathlib import Path

import pytest
from invoking import HEAD, SAUNTER, process, run, said

BAD = {
    "not UTF-8": (b"title: \xff", 2, "UTF-8"),
    "empty": (b"", 2, "empty"),
    "a list at the top": (b"- a\n", 2, "list"),
    "tab indentation": (b"title: T\nstart:\n\tgent: LF\n", 2, "tab"),
    "duplicate key": (b"title: A\ntitle: B\n", 2, "twice"),
    "alias bomb": (b"a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b]\n"
                   b"d: &d [*c,*c,*c,*c,*c,*c,*c]\ne: [*d,*d,*d,*d,*d,*d,*d,*d]\n", 2, "values"),
    "5 MB of junk": (os.urandom(5_000_000), 2, "larger than"),
    "10,000 bars": (HEAD.replace("bars: 1", "bars: 1-10000").encode(), 2, "128 bars"),
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


def test_unknown_layout_paper_and_ending(tmp_path: Path) -> None:
    out = tmp_path / "o.pdf"
    assert "did you mean 'script'?" in said(run("sheet", SAUNTER, "-o", out, "--layout", "skript"))
    assert run("sheet", SAUNTER, "-o", out, "--paper", "A99").exit_code == 2
    assert run("sheet", SAUNTER, "-o", tmp_path / "o.docx").exit_code == 2
    assert not out.exists()


def test_slips_of_the_pen_are_answered(tmp_path: Path) -> None:
    assert "did you mean 'sheet'?" in said(run("shet"))
    assert "did you mean" in said(run("terms", "centtre"))
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("LF fwd", "LF frwd"))
    assert "no sheet is written; mend the errors, or add --draft" in said(run("sheet", dance))


def test_nothing_can_act_on_the_terminal(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("LF fwd", "LF \u202efwd"))
    assert "\u202e" not in run("check", dance).output


def test_words_of_the_command_line_cannot_act_on_the_terminal() -> None:
    done = process("check", "x", "--format", "a\x1b[31mb")
    assert done.returncode == 2 and "\x1b" not in done.stderr and "x1b[31m" in done.stderr


def test_a_terminal_without_the_letters_is_no_fault(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("title: T", "title: \u0141\u00f3d\u017a"), "utf-8")
    done = process("check", dance, PYTHONIOENCODING="latin-1")
    assert done.returncode == 0 and "\\u0141" in done.stdout


def test_the_unforeseen_is_one_line_and_status_2(tmp_path: Path) -> None:
    script = "import notation.cli.check as c; c.load = lambda name: 1 / 0\nfrom notation.cli.main import main\nmain()"
    done = subprocess.run([sys.executable, "-c", script, "check", "x"], capture_output=True, text=True)
    assert done.returncode == 2 and "Traceback" not in done.stderr and len(done.stderr.splitlines()) == 1


def test_no_form_of_findings_can_act_on_the_terminal(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(HEAD.replace("LF fwd", "LF \u202efwd").replace("title: T", "title: T\u2066x"), "utf-8")
    for words in (("check", dance, "--format", "json"), ("index", tmp_path, "--format", "json"), ("index", tmp_path)):
        assert not set("\u202e\u2066") & set(said(run(*words))), words
