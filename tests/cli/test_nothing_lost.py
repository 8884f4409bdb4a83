"""Writing: the old file or the new one, never a mix, and never over what somebody wrote."""
import os
from pathlib import Path

import pytest
from invoking import SAUNTER, process, run, said


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


def test_what_concerns_a_whole_file_shows_no_line_of_it() -> None:
    text = said(run("sheet", SAUNTER, "-o", SAUNTER, "--as", "pdf"))
    assert "the dance file itself" in text and len(text.splitlines()) == 1


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "o.pdf"
    out.write_bytes(b"the old sheet")

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    result = run("sheet", SAUNTER, "-o", out)
    assert result.exit_code == 2 and "No space left" in said(result)
    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == [("o.pdf", b"the old sheet")]


def test_stopping_leaves_the_old_sheet_and_nothing_else(tmp_path: Path) -> None:
    out = tmp_path / "o.pdf"
    out.write_bytes(b"the old sheet")
    script = "import os\ndef stopped(*_): raise KeyboardInterrupt\nos.replace = stopped"
    done = process("sheet", SAUNTER, "-o", out, script=script)
    assert done.returncode == 130 and "Traceback" not in done.stderr
    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == [("o.pdf", b"the old sheet")]


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


def test_files_with_the_same_name_would_overwrite_each_other(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "d.yaml").write_bytes(SAUNTER.read_bytes())
    result = run("sheet", *tmp_path.glob("*/d.yaml"), "--into", tmp_path)
    assert result.exit_code == 2 and "two dances" in said(result) and not (tmp_path / "d.pdf").exists()


def test_new_leaves_an_existing_file(tmp_path: Path) -> None:
    out = tmp_path / "new.yaml"
    out.write_text("mine")
    assert run("new", "T", "--rhythm", "waltz", "-o", out).exit_code == 2
    assert out.read_text() == "mine"
