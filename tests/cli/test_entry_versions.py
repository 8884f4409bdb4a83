"""Entries by another version of Lodestep, and many entries of which some are at fault."""
from __future__ import annotations

import shutil
import sys
from collections.abc import Callable
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest
from invoking import EXAMPLES, SAUNTER, run, said
from pypdf import PdfWriter
from pypdf.generic import NameObject, StreamObject

from notation import __version__, bounds
from notation.page.apart import Unopened, opened_apart

COMPETITION = EXAMPLES / "competition"
NUMBERED = "entry-01.pdf"


def entered(folder: Path, title: str = "Ferry Lane", name: str = "Edith Marlow") -> Path:
    dance = folder.with_suffix(".yaml")
    text = SAUNTER.read_text().replace("Ferry Lane", title).replace("Edith Marlow", name)
    dance.write_text(text)
    done = run("entry", dance, "--rules", COMPETITION / "rules.yaml", "--particulars",
               COMPETITION / "particulars.yaml", "--into", folder, "--on", "2027-03-01")
    assert done.exit_code == 0, said(done)
    return folder


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return entered(tmp_path_factory.mktemp("made") / "entry")


@pytest.fixture
def other(made: Path, tmp_path: Path) -> Path:
    """The same entry, said to be made by an older version whose PDF has other bytes: a comment at the end."""
    folder = shutil.copytree(made, tmp_path / "other")
    manifest = folder / "manifest.txt"
    manifest.write_text(manifest.read_text().replace(f"Lodestep {__version__}", "Lodestep 0.0.1"))
    for name in ("judges.pdf", "particulars.pdf", "checklist.pdf"):
        replaced(folder, name, (folder / name).read_bytes() + b"% older\n")
    return folder


def replaced(folder: Path, name: str, data: bytes) -> None:
    """Another file under that name, with its digest in the manifest."""
    manifest, path = folder / "manifest.txt", folder / name
    before = sha256(path.read_bytes()).hexdigest()
    path.write_bytes(data)
    manifest.write_text(manifest.read_text().replace(before, sha256(data).hexdigest()))


def rewritten(pdf: Path, change: Callable[[object], None]) -> bytes:
    """The file as another program writes it, with something changed."""
    import io

    from pypdf import PdfReader, PdfWriter

    writer = PdfWriter(clone_from=PdfReader(pdf))
    change(writer)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def test_other_bytes_of_another_version_are_compared_by_their_words(other: Path) -> None:
    result = run("entry", "--verify", other)
    assert result.exit_code == 0, said(result)
    assert "made by Lodestep 0.0.1" in said(result) and "compared by their words" in said(result)


def test_the_same_bytes_said_to_be_of_this_version_are_refused(other: Path) -> None:
    manifest = other / "manifest.txt"
    manifest.write_text(manifest.read_text().replace("Lodestep 0.0.1", f"Lodestep {__version__}"))
    result = run("entry", "--verify", other)
    assert result.exit_code == 1 and "'judges.pdf' is not what dance.yaml" in said(result)


def test_a_digest_decides_whatever_the_version(other: Path) -> None:
    with (other / "judges.pdf").open("ab") as file:
        file.write(b"% more\n")
    result = run("entry", "--verify", other)
    assert result.exit_code == 1 and "'judges.pdf' is not what manifest.txt says" in said(result)


def test_sheets_of_another_dance(other: Path, tmp_path: Path) -> None:
    strange = entered(tmp_path / "strange", "Harbour Lane")
    replaced(other, "judges.pdf", (strange / "judges.pdf").read_bytes())
    result = run("entry", "--verify", other)
    assert result.exit_code == 1 and "'judges.pdf' does not say what dance.yaml" in said(result)
    assert "Harbour" in said(result)


def test_a_name_that_no_page_shows(other: Path) -> None:
    def named(writer: object) -> None:
        writer.add_metadata({"/Keywords": "by Edith Marlow"})  # type: ignore[attr-defined]

    replaced(other, "judges.pdf", rewritten(other / "judges.pdf", named))
    result = run("entry", "--verify", other)
    assert result.exit_code == 1 and "'judges.pdf' tells 'edith marlow'" in said(result)


@pytest.mark.parametrize("data", [b"", b"%PDF-1.7\nno more", b"\x00" * 500])
def test_sheets_that_are_no_pdf(other: Path, data: bytes) -> None:
    replaced(other, "judges.pdf", data)
    result = run("entry", "--verify", other)
    assert result.exit_code == 1 and "'judges.pdf' cannot be compared" in said(result)


def test_a_pdf_that_takes_too_long(made: Path) -> None:
    with pytest.raises(Unopened, match="longer than"):
        opened_apart((made / "judges.pdf").read_bytes(), 0.001)


def test_good_entries_are_numbered_and_faulty_ones_named(made: Path, tmp_path: Path) -> None:
    """An entry changed afterwards, one without its dance and a folder that is none: each with its reason."""
    changed, without, none = tmp_path / "changed", shutil.copytree(made, tmp_path / "without"), tmp_path / "none"
    shutil.copytree(made, changed)
    (without / "dance.yaml").unlink()
    with (changed / "judges.pdf").open("ab") as file:
        file.write(b"% more\n")
    faulty = (changed, without, none)
    result = run("entry", "--collate", *faulty, made, "--into", tmp_path / "c")
    assert result.exit_code == 2 and not (tmp_path / "c").exists()
    told = said(result)
    for folder, reason in zip(faulty, ("is not what manifest.txt says", "'dance.yaml' is missing", "no folder"),
                              strict=True):
        assert [line for line in told.splitlines() if line.startswith(str(folder)) and reason in line], reason
    result = run("entry", "--collate", *faulty, made, made, "--into", tmp_path / "c", "--skip-faulty")
    assert result.exit_code == 1 and "it is the same entry" in said(result)
    assert [path.name for path in (tmp_path / "c" / "judges").iterdir()] == [NUMBERED]
    assert "4 of 5 entries left out, 1 numbered" in said(result)


def test_nothing_is_written_where_no_entry_is_good(tmp_path: Path) -> None:
    result = run("entry", "--collate", tmp_path / "none", "--into", tmp_path / "c", "--skip-faulty")
    assert result.exit_code == 2 and not (tmp_path / "c").exists() and "nothing is written" in said(result)


def test_an_entry_whose_sheets_cannot_be_set_stops_no_other(made: Path, tmp_path: Path, monkeypatch) -> None:  # type: ignore[no-untyped-def]
    from notation.cli import received
    from notation.page.fault import LayoutError

    def failing(papers: received.Papers) -> received.MadeEntry:
        if str(tmp_path) in papers.source.name:
            raise LayoutError("a column is narrower than a single letter")
        return sound(papers)

    sound = received.make
    monkeypatch.setattr(received, "make", failing)
    narrow = shutil.copytree(made, tmp_path / "narrow")
    result = run("entry", "--collate", narrow, made, "--into", tmp_path / "c", "--skip-faulty")
    assert result.exit_code == 1 and f"{narrow}:1:1: error: its sheets cannot be set" in said(result)
    assert [path.name for path in (tmp_path / "c" / "judges").iterdir()] == [NUMBERED]


@pytest.mark.skipif(sys.platform != "linux", reason="no limit of memory here")
def test_a_pdf_that_takes_too_much_memory_is_left(tmp_path: Path) -> None:
    """A page of eighty million spaces, packed small, read in a process of 150 MB."""
    writer = PdfWriter()
    page = writer.add_blank_page(100, 100)
    stream = StreamObject()
    stream.set_data(b"BT (a) Tj ET " + b" " * 80_000_000)
    page[NameObject("/Contents")] = writer._add_object(stream.flate_encode())
    data = BytesIO()
    writer.write(data)
    with pytest.raises(Unopened, match=bounds.PDF_MEMORY.message.split("{")[0]):
        opened_apart(data.getvalue(), memory=150_000_000)


def test_an_entry_in_german_is_verified_and_numbered_in_german(tmp_path: Path) -> None:
    """The manifest states its language; the same entry in English has another reference, since it has other words."""
    folder = tmp_path / "e"
    words = ("entry", SAUNTER, "--rules", COMPETITION / "rules.yaml", "--particulars", COMPETITION / "particulars.yaml")
    assert run(*words, "--into", folder, "--on", "2027-03-01", "--language", "de").exit_code == 0
    assert "# language de" in (folder / "manifest.txt").read_text()
    assert run("entry", "--verify", folder).exit_code == 0
    assert run("entry", "--collate", folder, "--into", tmp_path / "c").exit_code == 0
    numbered = opened_apart((tmp_path / "c" / "judges" / NUMBERED).read_bytes())
    assert "Beitrag 01" in " ".join(numbered.texts)
    assert run("entry", "--verify", folder, "--language", "de").exit_code == 2
    manifest = folder / "manifest.txt"
    manifest.write_text(manifest.read_text().replace("# language de", "# language xx"))
    done = run("entry", "--verify", folder)
    assert done.exit_code == 2 and "there are en, de" in said(done)
