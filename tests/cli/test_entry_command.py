"""Entries to a competition: what is asked and met, and that judges' sheets tell no name.

The search for names is made here anew, over all bytes: qpdf unpacks every stream (ISO 32000-1, 7.3.8, 7.5.7), poppler
reads the words, and names are sought as Latin-1, UTF-8, UTF-16BE and in hexadecimal text strings (7.9.2).
"""
import os
import re
import shutil
import subprocess
import sys
import unicodedata
from pathlib import Path

import pytest
from invoking import EXAMPLES, SAUNTER, run, said

from notation import bounds

COMPETITION = EXAMPLES / "competition"
RULES, ME = COMPETITION / "rules.yaml", COMPETITION / "particulars.yaml"
DAY = "2027-03-01"


def enter(dance: Path, into: Path, *more: str | Path, rules: Path = RULES, day: str = DAY):  # type: ignore[no-untyped-def]
    return run("entry", dance, "--rules", rules, "--particulars", ME, "--into", into, "--on", day, *more)


def dance_by(folder: Path, name: str, file: str = "dance.yaml", old: str = "", new: str = "") -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    text = SAUNTER.read_text().replace("arranged by: Edith Marlow", f"arranged by: {name}  # {name}")
    assert not old or old in text
    (folder / file).write_text(text.replace(old, new) if old else text)
    return folder / file


def laid_open(pdf: Path) -> list[str]:
    """Everything a PDF holds: the bytes of every stream and string, and the words of its pages."""
    opened = pdf.with_suffix(".open")
    command = ["qpdf", "--qdf", "--object-streams=disable", "--decode-level=all", str(pdf), str(opened)]
    assert subprocess.run(command).returncode in (0, 3)
    data = opened.read_bytes()
    opened.unlink()
    words = subprocess.run(["pdftotext", str(pdf), "-"], capture_output=True, check=True).stdout.decode()
    hexed = [bytes.fromhex(h.decode()) for h in re.findall(rb"<((?:[0-9A-Fa-f]{2})+)>", data)]
    return [data.decode("latin-1"), *(h.decode("utf-16-be", "ignore") for h in hexed), words,
            words.replace("-\n", ""), data.decode("utf-16-be", "ignore"), data[1:].decode("utf-16-be", "ignore"),
            data.decode("utf-8", "ignore")]


def plain(text: str) -> str:
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c)).casefold()


@pytest.mark.parametrize("name", ["Edith Marlow", "Zoë Ångström-Núñez", "Perpetua", "[Maud Ferrier, Tom Askew]"])
def test_no_byte_of_the_judges_sheets_tells_a_name(name: str, tmp_path: Path) -> None:
    first = re.findall(r"[^\W\d_]+", name)
    folder = tmp_path / first[0]
    dance = dance_by(folder, name, f"{plain(first[-1])}-saunter.yaml")
    (folder / "figures").mkdir()
    assert enter(dance, tmp_path / "entry").exit_code == 0
    opened = [plain(text) for text in laid_open(tmp_path / "entry" / "judges.pdf")]
    for word in (*first, "Gull Street", "SL 2214", "01632 960"):
        assert not [text for text in opened if plain(word) in text], word
    named = [plain(text) for text in laid_open(tmp_path / "entry" / "particulars.pdf")]
    assert all(any(plain(word) in text for text in named) for word in first)  # the search does find what is there


def test_files_times_tell_nothing(tmp_path: Path) -> None:
    enter(SAUNTER, tmp_path / "e")
    assert {path.stat().st_mtime for path in (tmp_path / "e").iterdir()} == {946_684_800}


def test_the_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in "ab":
        assert enter(SAUNTER, tmp_path / name).exit_code == 0
    assert all((tmp_path / "b" / p.name).read_bytes() == p.read_bytes() for p in (tmp_path / "a").iterdir())


@pytest.mark.parametrize(("old", "new", "where"), [
    ("title: Ferry Lane Saunter", "title: The Marlow Saunter", "the title"),
    ("any slow saunter", "Marlow's saunter, any slow saunter", "'music'"),
    ("figure: Two walks and a chasse", "figure: Edith's walks", "'figure'"),
    ("S  LF fwd, facing LOD, H", "S  LF fwd (as ÉDITH shows), facing LOD, H", "step"),
    ("    head: to partner", "    head: to partner\n    note: Arranged by E. Marlow", "'note'"),
])
def test_a_name_in_the_writers_words_is_refused_even_for_a_draft(
    old: str, new: str, where: str, tmp_path: Path
) -> None:
    dance = dance_by(tmp_path, "Edith Marlow", old=old, new=new)
    result = enter(dance, tmp_path / "e", "--draft")
    assert result.exit_code == 1 and not (tmp_path / "e").exists()
    assert where in said(result) and "gives the arranger away" in said(result)


def test_a_word_that_is_no_name_there_can_be_allowed_and_the_organiser_is_told(tmp_path: Path) -> None:
    dance = dance_by(tmp_path, "Arthur Lane")
    assert enter(dance, tmp_path / "e").exit_code == 1
    assert enter(dance, tmp_path / "e", "--allow-word", "Lane").exit_code == 0
    assert "no names in it: Lane" in run("entry", "--verify", tmp_path / "e").output


def test_a_name_that_is_a_word_of_the_trade_is_sought_whole(tmp_path: Path) -> None:
    result = enter(dance_by(tmp_path, "Ray Close"), tmp_path / "e")
    assert result.exit_code == 0 and "words of the trade or allowed: close" in result.output
    told = dance_by(tmp_path, "Ray Close", old="any slow", new="Ray Close plays any slow")
    assert enter(told, tmp_path / "f").exit_code == 1


@pytest.mark.parametrize(("old", "new", "rule"), [
    ("closing date: 31 March 2027", "closing date: 28 February 2027", "closing date"),
    ("length: [16, 24, 32]", "length: 32", "length"),
    ("rhythms: [old-time waltz, two-step, saunter]", "rhythms: blues", "rhythm"),
    ("  saunter: 27-29", "  saunter: 20-27", "tempo"),
    ("introduction: 4", "introduction: 2", "introduction"),
    ("club, telephone", "club, recording", "recording"),
    ("{not: [allemande]}", "{not: [closed]}", "holds"),
    ("pages: 1", "pages: 1\npositions: facing", "positions"),
    ("pages: 1", "pages: 1\nfigures: {only: [whisk]}", "figures"),
    ("paper: A4", "paper: A6", "pages"),
])
def test_each_rule_that_is_not_met(old: str, new: str, rule: str, tmp_path: Path) -> None:
    text = RULES.read_text()
    assert old in text
    rules = tmp_path / "rules.yaml"
    rules.write_text(text.replace(old, new))
    result = enter(SAUNTER, tmp_path / "e", rules=rules)
    assert result.exit_code == 1 and not (tmp_path / "e").exists()
    assert [line for line in result.output.splitlines() if line.startswith(f"  not met  {rule}:")], result.output


def test_a_draft_is_written_all_the_same(tmp_path: Path) -> None:
    assert enter(SAUNTER, tmp_path / "e", "--draft", day="2027-04-01").exit_code == 1
    words = subprocess.run(["pdftotext", str(tmp_path / "e" / "checklist.pdf"), "-"], capture_output=True, text=True)
    assert "NOT MET" in words.stdout


def test_the_last_day_is_in_time(tmp_path: Path) -> None:
    assert enter(SAUNTER, tmp_path / "e", day="2027-03-31").exit_code == 0
    assert enter(SAUNTER, tmp_path / "f", day="1 April 2027").exit_code == 1


@pytest.mark.parametrize(("old", "new", "message"), [
    ("copies:", "coppies:", "did you mean 'copies'?"),
    ("closing date: 31 March 2027", "closing date: 31 June 2027", "is a day such as"),
    ("saunter]", "sauntr]", "did you mean 'saunter'?"),
    ("[allemande]", "[alemande]", "did you mean 'allemande'?"),
    ("layout: entry", "layout: entri", "did you mean 'entry'?"),
    ("copies: 5", "copies: 5000", bounds.COPIES.words),
    ("pages: 1", "pages: 900", bounds.ENTRY_PAGES.words),
])
def test_faults_of_a_rules_file(old: str, new: str, message: str, tmp_path: Path) -> None:
    rules = tmp_path / "rules.yaml"
    rules.write_text(RULES.read_text().replace(old, new))
    result = enter(SAUNTER, tmp_path / "e", rules=rules)
    assert result.exit_code == 2 and message in said(result) and f"{rules}:" in said(result)


def changed(folder: Path, name: str) -> None:
    data = (folder / name).read_bytes()
    (folder / name).write_bytes(data[:-3] + b"\n#\n")


def test_what_is_wrong_with_a_received_entry(tmp_path: Path) -> None:
    folder = tmp_path / "e"
    enter(SAUNTER, folder)
    manifest = (folder / "manifest.txt").read_bytes()
    assert subprocess.run(["sha256sum", "--check", "--quiet", "manifest.txt"], cwd=folder).returncode == 0
    assert run("entry", "--verify", folder, "--rules", RULES).exit_code == 0
    (folder / "more.txt").write_text("by Edith")
    assert "'more.txt' does not belong" in said(run("entry", "--verify", folder))
    (folder / "more.txt").unlink()
    changed(folder, "judges.pdf")
    result = run("entry", "--verify", folder)
    assert result.exit_code == 1 and "'judges.pdf' is not what manifest.txt says" in said(result)
    digest = subprocess.run(["sha256sum", "judges.pdf"], cwd=folder, capture_output=True, text=True).stdout
    lines = [line if "judges.pdf" not in line else digest.strip() for line in manifest.decode().splitlines()]
    (folder / "manifest.txt").write_text("\n".join(lines) + "\n")
    assert "'judges.pdf' is not what dance.yaml and the particulars give" in said(run("entry", "--verify", folder))
    (folder / "checklist.pdf").unlink()
    assert "'checklist.pdf' is missing" in said(run("entry", "--verify", folder))
    other = tmp_path / "other.yaml"
    other.write_text(RULES.read_text() + "# mine\n")
    assert "the rules in the entry are not yours" in said(run("entry", "--verify", folder, "--rules", other))
    assert run("entry", "--verify", tmp_path / "none").exit_code == 2


def test_entries_are_numbered_alike_whatever_the_order_and_the_key_stands_apart(tmp_path: Path) -> None:
    names = ("Edith Marlow", "Walter Pym")
    for number, name in enumerate(names):
        dance = dance_by(tmp_path / str(number), name, old="Ferry Lane", new=f"Number{'AB'[number]} Lane")
        assert enter(dance, tmp_path / f"e{number}").exit_code == 0
    one, two = tmp_path / "e0", tmp_path / "e1"
    assert run("entry", "--collate", one, two, "--into", tmp_path / "c").exit_code == 0
    assert run("entry", "--collate", two, one, "--into", tmp_path / "d").exit_code == 0
    judges = sorted((tmp_path / "c" / "judges").iterdir())
    assert [p.name for p in judges] == ["entry-01.pdf", "entry-02.pdf"]
    for path in judges:
        assert (tmp_path / "d" / "judges" / path.name).read_bytes() == path.read_bytes()
        opened = [plain(text) for text in laid_open(path)]
        assert not [t for t in opened for word in ("edith", "marlow", "walter", "pym") if word in t]
        assert [t for t in opened if f"entry {path.stem[-2:]}" in t]
    key = (tmp_path / "c" / "organiser" / "key.yaml").read_text()
    assert all(name in key for name in names)
    result = run("entry", "--collate", one, one, "--into", tmp_path / "x")
    assert result.exit_code == 1 and "same entry" in said(result) and "more than 1 entry" in said(result)
    assert not (tmp_path / "x").exists()


def test_an_entry_never_overwrites(tmp_path: Path) -> None:
    (tmp_path / "e").mkdir()
    (tmp_path / "e" / "mine.txt").write_text("x")
    assert enter(SAUNTER, tmp_path / "e").exit_code == 2
    assert [p.name for p in (tmp_path / "e").iterdir()] == ["mine.txt"]


def test_sheets_are_tagged(tmp_path: Path) -> None:
    enter(SAUNTER, tmp_path / "e")
    for name in ("judges", "particulars", "checklist"):
        info = subprocess.run(["pdfinfo", str(tmp_path / "e" / f"{name}.pdf")], capture_output=True, text=True).stdout
        assert re.search(r"Tagged: +yes", info)
        assert subprocess.run(["qpdf", "--check", str(tmp_path / "e" / f"{name}.pdf")], stdout=-3).returncode == 0


def test_an_entry_without_an_arranger_is_none(tmp_path: Path) -> None:
    dance = tmp_path / "d.yaml"
    dance.write_text(SAUNTER.read_text().replace("arranged by: Edith Marlow\n", ""))
    result = enter(dance, tmp_path / "e")
    assert result.exit_code == 1 and "arranged by is to be given, but the dance file does not say it" in said(result)


def test_people_among_the_particulars_are_sought_word_by_word(tmp_path: Path) -> None:
    me = tmp_path / "me.yaml"
    me.write_text(ME.read_text() + "partner: Hester Quill\n")
    dance = dance_by(tmp_path, "Edith Marlow", old="title: Ferry Lane", new="title: Hester")
    result = run("entry", dance, "--rules", RULES, "--particulars", me, "--into", tmp_path / "e", "--on", DAY)
    assert result.exit_code == 1 and "the title tells 'hester'" in said(result)


@pytest.mark.parametrize("check", [["pdfua", "check"], ["outloud", "--fail-on", "error"]], ids=lambda words: words[0])
def test_other_programs_find_nothing(check: list[str], tmp_path: Path) -> None:
    found = shutil.which(check[0], path=f"{Path(sys.executable).parent}:{os.environ['PATH']}")
    if found is None:
        pytest.skip(f"{check[0]} is absent")
    assert enter(EXAMPLES / "tinsmiths-two-step.yaml", tmp_path / "e").exit_code == 0
    for name in ("judges.pdf", "particulars.pdf"):
        done = subprocess.run([found, *check[1:], tmp_path / "e" / name], capture_output=True, text=True)
        assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("layout", ["entry", "script"])
def test_judges_who_see_names(layout: str, tmp_path: Path) -> None:
    """Names stand where the rules say so, whatever the layout."""
    for seen in ("yes", "no"):
        rules = tmp_path / f"{seen}.yaml"
        text = RULES.read_text().replace("names: no", f"names: {seen}").replace("layout: entry", f"layout: {layout}")
        rules.write_text(text.replace("pages: 1", "pages: 3"))
        assert enter(SAUNTER, tmp_path / seen, rules=rules).exit_code == 0
        sheets = str(tmp_path / seen / "judges.pdf")
        words = subprocess.run(["pdftotext", sheets, "-"], capture_output=True, text=True).stdout
        assert ("Edith Marlow" in words) is (seen == "yes")
        assert b"dance.yaml" not in Path(sheets).read_bytes()
