"""The booklet as a reader of PDF files finds it: pages where contents and indexes say, links, files inside, claims."""
from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from invoking import EXAMPLES, HEAD, process, run, said
from pypdf import PdfReader

from notation.page.recover import recover_sources

DANCES = [EXAMPLES / f"{name}.yaml" for name in ("ferry-lane-saunter", "harbour-bell-waltz", "lantern-quay-waltz",
                                                 "tinsmiths-two-step")]
NAMES = ("Amber", "Birch", "Cedar", "Dune", "Elm", "Fern", "Gorse", "Heath", "Iris", "Juniper", "Kelp", "Larch")
BOOK = """\
format: 1
title: Winter Season
club: The Ropewalk Sequence Club
season: 2026-27
dances: [last.yaml, 'dances/*.yaml']
order: rhythm
contents: yes
indexes: [title, arranger, rhythm, figure]
layout: script
paper: A5
"""
LINE = re.compile(r"^(?P<words>.+?) (?:\. )+\.? ?(?P<pages>\d+(?:, \d+)*)$", re.MULTILINE)


def make_season(folder: Path, book: str = BOOK) -> Path:
    """Twelve dances: the examples under other titles, one of them listed by name."""
    (folder / "dances").mkdir()
    for number, name in enumerate(NAMES):
        text = DANCES[number % len(DANCES)].read_text()
        text = re.sub("^title:.*", f"title: {name} Parade", text, flags=re.MULTILINE)
        place = folder / "last.yaml" if name == "Larch" else folder / "dances" / f"{name.lower()}.yaml"
        place.write_text(text)
    (folder / "book.yaml").write_text(book)
    return folder / "book.yaml"


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The book of the season, set once: its PDF."""
    folder = tmp_path_factory.mktemp("season")
    result = run("booklet", make_season(folder))
    assert result.exit_code == 0, said(result)
    assert "12 dances on" in result.output
    return folder / "book.pdf"


@pytest.fixture(scope="module")
def texts(season: Path) -> list[str]:
    """The text of each page, by pypdf."""
    return [page.extract_text() for page in PdfReader(season).pages]


def headings(texts: list[str]) -> dict[str, int]:
    """The first page, from 1, on which a line is just these words; running lines carry a page number as well."""
    found: dict[str, int] = {}
    for number, text in enumerate(texts, 1):
        for line in text.splitlines():
            found.setdefault(line, number)
    return found


def test_contents_and_indexes_name_the_pages_on_which_the_titles_stand(texts: list[str]) -> None:
    """The pages are those that pypdf finds, not those that the program reckoned."""
    pages, said_pages = headings(texts), {}
    for text in texts:
        for line in LINE.finditer(text):
            name = next((f"{n} Parade" for n in NAMES if line["words"].startswith(f"{n} Parade")), line["words"])
            said_pages.setdefault(name, set()).update(map(int, line["pages"].split(", ")))
    for name in NAMES:
        assert said_pages[f"{name} Parade"] == {pages[f"{name} Parade"]}
    for name in ("Abbreviations", "Dances by title", "Dances by arranger", "Dances by rhythm", "Figures"):
        assert said_pages[name] == {pages[name]}, name
    starts = sorted(pages[f"{name} Parade"] for name in NAMES)
    figure = said_pages["Whisk"]
    assert figure and all(number in starts for number in figure)
    for number in figure:
        end = min((n for n in starts if n > number), default=len(texts))
        assert any("Whisk" in texts[n - 1] for n in range(number, end))


def test_links_and_outline_lead_to_the_same_pages(season: Path, texts: list[str]) -> None:
    reader = PdfReader(season)
    pages, places = headings(texts), {page.indirect_reference.idnum: n for n, page in enumerate(reader.pages, 1)}
    links = [note.get_object() for page in reader.pages for note in page.get("/Annots", ())]
    assert len(links) > 3 * len(NAMES)
    for link in links:
        words, _, number = link["/Contents"].rpartition(", page ")
        assert places[link["/Dest"][0].idnum] == int(number)
        assert pages.get(words.rpartition(", ")[2]) == int(number)
    flat = [one for entry in reader.outline for one in (entry if isinstance(entry, list) else [entry])]
    found = {one.title: reader.get_destination_page_number(one) + 1 for one in flat}
    assert {f"{name} Parade": pages[f"{name} Parade"] for name in NAMES}.items() <= found.items()
    assert found["Winter Season"] == 1 and found["Waltz"] == min(pages[f"{n} Parade"] for n in NAMES[1::4])


def test_pages_are_labelled_as_they_are_numbered_and_fill_sheets(season: Path, texts: list[str]) -> None:
    assert PdfReader(season).page_labels == ["cover", *map(str, range(2, len(texts) + 1))]
    assert len(texts) % 4 == 0
    for number, text in enumerate(texts[1:], 2):
        assert not text or re.search(rf"\b{number}\b", text)


def test_sections_have_running_heads_and_dances_begin_new_pages(texts: list[str]) -> None:
    pages = headings(texts)
    for name, section in (("Amber", "Saunter"), ("Birch", "Waltz"), ("Cedar", "Old-time waltz"), ("Dune", "Two-step")):
        lines = texts[pages[f"{name} Parade"] - 1].splitlines()
        assert lines[0] in (f"{section} Winter Season", f"Winter Season {section}")
        assert lines[1] == f"{name} Parade"


def test_every_source_comes_back_byte_for_byte(season: Path, tmp_path: Path) -> None:
    written = {path.name: path.read_bytes() for path in season.parent.rglob("*.yaml")}
    assert len(written) == 13 and dict(recover_sources(season.read_bytes())) == written
    assert run("recover", season, "--into", tmp_path).exit_code == 0
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == written


@pytest.mark.parametrize("check", [["qpdf", "--check"], ["pdfua", "check"], ["outloud", "--fail-on", "error"]],
                         ids=lambda words: words[0])
def test_other_programs_find_nothing(check: list[str], season: Path) -> None:
    found = shutil.which(check[0], path=f"{Path(sys.executable).parent}:{os.environ['PATH']}")
    if found is None:
        pytest.skip(f"{check[0]} is absent")
    done = subprocess.run([found, *check[1:], season], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_example_season_is_without_findings(tmp_path: Path) -> None:
    dances = sorted((EXAMPLES / "season").glob("*.yaml"))
    assert len(dances) >= 8
    result = run("check", *dances)
    assert result.exit_code == 0 and "warning" not in said(result), said(result)
    result = run("booklet", EXAMPLES / "winter-season.yml", "-o", tmp_path / "season.pdf")
    assert result.exit_code == 0 and f"{len(dances) + 4} dances on" in result.output and not result.stderr


def test_the_same_season_gives_the_same_bytes(season: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.pdf"
    assert run("booklet", season.parent / "book.yaml", "-o", again).exit_code == 0
    assert again.read_bytes() == season.read_bytes()


def small_book(folder: Path, more: str = "") -> Path:
    (folder / "one.yaml").write_text(HEAD.replace("title: T", "title: One"))
    (folder / "two.yaml").write_text(HEAD.replace("title: T", "title: Two"))
    (folder / "book.yaml").write_text(f"title: Small\ndances: ['*.yaml']\npaper: A6\n{more}")
    return folder / "book.yaml"


def test_a_faulty_dance_is_named_and_left_out_only_when_asked(tmp_path: Path) -> None:
    book = small_book(tmp_path)
    (tmp_path / "bad.yaml").write_text(HEAD.replace("RF side", "LF side"))
    (tmp_path / "book.pdf").write_bytes(b"the old book")
    result = run("booklet", book)
    assert result.exit_code == 1 and "bad.yaml:" in said(result) and "--skip-faulty" in said(result)
    assert (tmp_path / "book.pdf").read_bytes() == b"the old book"
    result = run("booklet", book, "--skip-faulty")
    assert result.exit_code == 1 and "bad.yaml:" in said(result) and "2 dances on" in result.output
    assert {name for name, _ in recover_sources((tmp_path / "book.pdf").read_bytes())} == {
        "book.yaml", "one.yaml", "two.yaml"}


@pytest.mark.parametrize("name", ["../away.yaml", "/etc/hostname", "a/../../away.yaml", "..\\away.yaml", "link.yaml",
                                  "../*.yaml", "C:\\away.yaml", "~/away.yaml", "link/*.yaml"])
def test_nothing_outside_the_folder_is_read(name: str, tmp_path: Path) -> None:
    (tmp_path / "away.yaml").write_text(HEAD)
    inner = tmp_path / "season"
    inner.mkdir()
    (inner / "link.yaml").symlink_to(tmp_path / "away.yaml")
    (inner / "link").symlink_to(tmp_path)
    for key in ("dances", "picture", "layout"):
        if key != "dances" and "*" in name:
            continue
        book = small_book(inner, f"{key}: '{name}'\n" if key != "dances" else "")
        if key == "dances":
            book.write_text(f"title: T\ndances: ['{name}']\n")
        elif key == "layout" and name == "/etc/hostname":
            continue
        result = run("booklet", book)
        (inner / "one.yaml").unlink()
        (inner / "two.yaml").unlink()
        assert result.exit_code == 2 and "out of the book's folder" in said(result), (key, said(result))
        assert "book.yaml:" in said(result) and not (inner / "book.pdf").exists()


def test_mistakes_are_told_as_those_of_a_dance(tmp_path: Path) -> None:
    book = small_book(tmp_path, "indexs: [title]\norder: tilte\npicture: none.png\n")
    text = said(run("booklet", book))
    assert "book.yaml:4:1: error: unknown key 'indexs'" in text and "did you mean 'indexes'" in text
    assert "book.yaml:5:8: error:" in text and "did you mean 'title'" in text
    assert "book.yaml:6:10: error: the picture 'none.png' cannot be read" in text
    (tmp_path / "book.yaml").write_text("title: T\ndances: [nobody.yaml, 'no*.yaml']\n")
    text = said(run("booklet", book))
    assert "there is no file 'nobody.yaml'" in text and "'no*.yaml' means no dance" in text


def test_the_book_is_never_written_over_its_dances(tmp_path: Path) -> None:
    book = small_book(tmp_path)
    for target in (book, tmp_path / "one.yaml"):
        before = target.read_bytes()
        assert run("booklet", book, "-o", target).exit_code == 2 and target.read_bytes() == before


def test_the_sheets_to_fold_are_written_too(tmp_path: Path) -> None:
    book = small_book(tmp_path)
    result = run("booklet", book, "--imposed", tmp_path / "sheets.pdf", "--fold-marks")
    assert result.exit_code == 0 and "print on both sides" in result.output
    pages, sides = (len(PdfReader(tmp_path / name).pages) for name in ("book.pdf", "sheets.pdf"))
    assert sides == pages // 2
    assert run("booklet", book, "--imposed", tmp_path / "book.pdf").exit_code == 2


@pytest.mark.parametrize("step", ["fdopen", "fsync", "replace"])
def test_a_killed_process_leaves_the_old_book_or_the_new(step: str, tmp_path: Path) -> None:
    """Killed where it begins to write the book, where it flushes it, and right after it has renamed it."""
    book, out = small_book(tmp_path), tmp_path / "book.pdf"
    run("booklet", book)
    new = out.read_bytes()
    out.write_bytes(b"the old book")
    order = "was(*a, **k); kill()" if step == "replace" else "kill()"
    script = (
        f"import os, signal\nimport notation.cli.output as output\nwas, real = os.{step}, output.write_whole\n"
        f"def kill(): os.kill(os.getpid(), signal.SIGKILL)\ndef patched(*a, **k): {order}\n"
        f"def late(path, data):\n    if path.name == 'book.pdf': os.{step} = patched\n    real(path, data)\n"
        f"output.write_whole = late"
    )
    done = process("booklet", book, script=script)
    assert done.returncode == -9, done.stderr
    assert out.read_bytes() == (new if step == "replace" else b"the old book")


def test_dances_run_together_under_section_pages(tmp_path: Path) -> None:
    """Two short dances share a page; what fills the last sheet are notes pages; other programs find nothing."""
    book = small_book(tmp_path, "order: rhythm\nrun together: yes\nsection pages: yes\nfill with: notes\n"
                                "indexes: title\nnotes pages: 1\npicture: hall.png\npicture words: the hall\n")
    book.write_text(book.read_text().replace("A6", "A5"))
    (tmp_path / "three.yaml").write_text(HEAD.replace("title: T", "title: Three").replace("waltz", "viennese waltz"))
    (tmp_path / "hall.png").write_bytes((EXAMPLES / "lantern-quay-waltz.png").read_bytes())
    result = run("booklet", book)
    assert result.exit_code == 0, said(result)
    out = tmp_path / "book.pdf"
    texts = [page.extract_text() for page in PdfReader(out).pages]
    assert texts[3] == "Waltz" and {"One", "Two"} <= set(texts[4].splitlines())
    assert texts[5] == "Viennese waltz" and "Three" in texts[6].splitlines()
    assert len(texts) == 12 and "Notes" in texts[8]
    assert [text.split() for text in texts[9:]] == [["Small", str(number)] for number in (10, 11, 12)]
    assert len(PdfReader(out).pages[0].images) == 1
    for check in (["qpdf", "--check"], ["pdfua", "check"], ["outloud", "--fail-on", "error"]):
        found = shutil.which(check[0], path=f"{Path(sys.executable).parent}:{os.environ['PATH']}")
        if found is not None:
            done = subprocess.run([found, *check[1:], out], capture_output=True, text=True)
            assert done.returncode == 0, done.stdout + done.stderr
