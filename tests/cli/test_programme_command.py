"""`lodestep programme` as a club secretary uses it."""
from __future__ import annotations

import io
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from invoking import EXAMPLES, HEAD, process, run, said
from pypdf import PdfReader

from notation.page.recover import recover_sources

EVENING = EXAMPLES / "autumn-evening.yml"
SMALL = "title: E\nstarts: 19:30\ndances:\n  - {}\n"


def test_the_example_by_hand() -> None:
    """19:30:00, 84 bars at 42: 2:00, gap 1:30. 19:33:30, 100 bars at 28: 3:34.3, gap. 19:38:34.3, 84 bars at 48: 1:45,
    gap. 19:41:49.3, twenty minutes. 20:01:49.3, 100 bars at 30: 3:20, gap 2:00. 20:07:09.3, 3:10, gap. 20:11:49.3, 68
    bars at 42: 1:37.1, so it ends at 20:13:26."""
    result = run("programme", EVENING)
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert [line.split()[0] for line in lines[1:-1]] == ["19:30", "19:34", "19:39", "19:42", "20:02", "20:07", "20:12"]
    assert lines[2].split(maxsplit=6)[1:] == ["19:37", "3", "min", "34", "s", "6  Ferry Lane Saunter, saunter"]
    assert lines[-1] == "15 min 26 s of dancing in 43 min 26 s; ends about 20:13"


def test_the_printed_programme(tmp_path: Path) -> None:
    out = tmp_path / "evening.pdf"
    assert run("programme", EVENING, "-o", out).exit_code == 0
    reader = PdfReader(out)
    assert len(reader.pages) == 1
    text = reader.pages[0].extract_text()
    for words in ("Autumn Evening", "Ropewalk", "14 November", "19:34", "Ferry Lane Saunter", "six", "Tea and"):
        assert words in text
    assert recover_sources(out.read_bytes()) == ((EVENING.name, EVENING.read_bytes()),)
    again = tmp_path / "again.pdf"
    run("programme", EVENING, "-o", again)
    assert again.read_bytes() == out.read_bytes()


def sizes(pdf: bytes) -> set[float]:
    found: set[float] = set()
    reader = PdfReader(io.BytesIO(pdf))
    for page in reader.pages:
        page.extract_text(visitor_text=lambda t, cm, tm, font, size: found.add(round(size, 1)) if t.strip() else None)
    return found


@pytest.mark.parametrize(("count", "paper", "least"), [(8, "A4", 14), (24, "A4", 12), (14, "A5", 9.6)])
def test_print_is_large(count: int, paper: str, least: float, tmp_path: Path) -> None:
    """Lines of 12 points and more, 14 where they fit: UK Association for Accessible Formats, clear and large print.

    Only the column heads are smaller, by a fifth."""
    (tmp_path / "d.yaml").write_text(HEAD)
    lines = "".join("  - d.yaml\n" for _ in range(count))
    (tmp_path / "e.yml").write_text(f"title: Evening\nstarts: 19:30\ndances:\n{lines}")
    out = tmp_path / "e.pdf"
    assert run("programme", tmp_path / "e.yml", "-o", out, "--paper", paper).exit_code == 0
    assert len(PdfReader(out).pages) == 1
    assert min(sizes(out.read_bytes())) >= min(least, 0.8 * max(12, least))


def test_columns_that_would_be_empty_are_left_out(tmp_path: Path) -> None:
    (tmp_path / "e.yml").write_text("title: E\nstarts: 19:30\ndances:\n  - {called: Any waltz, lasts: 3}\n")
    out = tmp_path / "e.pdf"
    assert run("programme", tmp_path / "e.yml", "-o", out).exit_code == 0
    text = PdfReader(out).pages[0].extract_text()
    assert "Any waltz" in text and "Rhythm" not in text and "Through" not in text


@pytest.mark.parametrize(
    ("line", "rule", "words"),
    [
        ("nowhere.yaml", "dance-unusable", "there is no file"),
        ("../d.yaml", "dance-outside", "put the dance beside it"),
        ("/etc/passwd", "dance-outside", "outside the folder"),
        ("e.yml", "dance-unusable", "gives no dance"),
    ],
)
def test_what_is_wrong_is_named(line: str, rule: str, words: str, tmp_path: Path) -> None:
    evening = tmp_path / "e.yml"
    evening.write_text(SMALL.format(line))
    out = tmp_path / "e.pdf"
    result = run("programme", evening, "-o", out)
    assert result.exit_code == 1 and not out.exists()
    assert f"{evening}:4:5: error: " in said(result) and words in said(result) and f"[{rule}]" in said(result)


def test_a_faulty_dance_keeps_its_time_with_a_warning(tmp_path: Path) -> None:
    (tmp_path / "d.yaml").write_text(HEAD.replace("LF fwd", "LF frwd"))
    (tmp_path / "e.yml").write_text(SMALL.format("d.yaml"))
    result = run("programme", tmp_path / "e.yml")
    assert result.exit_code == 0 and "[dance-faulty]" in said(result) and "19:30" in result.output


def test_the_programme_file_is_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "d.yaml").write_text(HEAD)
    evening = tmp_path / "e.yml"
    evening.write_text(SMALL.format("d.yaml"))
    before = evening.read_bytes()
    assert run("programme", evening, "-o", evening).exit_code == 2
    assert evening.read_bytes() == before


def test_without_pdf_no_heavy_library_is_loaded() -> None:
    script = "import sys, atexit; atexit.register(lambda: print('LOADED', [m for m in ('reportlab', 'pypdf', 'jinja2',"
    script += " 'uharfbuzz', 'pypdfium2') if m in sys.modules]))\n"
    script += f"sys.argv = ['lodestep', 'programme', {str(EVENING)!r}]"
    done = process(script=script)
    assert done.stdout.splitlines()[-1] == "LOADED []"


@pytest.mark.parametrize("check", [["qpdf", "--check"], ["pdfua", "check"], ["outloud", "--fail-on", "error"]],
                         ids=lambda words: words[0])
def test_other_programs_find_nothing(check: list[str], tmp_path: Path) -> None:
    found = shutil.which(check[0], path=f"{Path(sys.executable).parent}:{os.environ['PATH']}")
    if found is None:
        pytest.skip(f"{check[0]} is absent")
    out = tmp_path / "evening.pdf"
    run("programme", EVENING, "-o", out)
    done = subprocess.run([found, *check[1:], out], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
