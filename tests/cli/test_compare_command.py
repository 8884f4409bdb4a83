"""What changed between two versions of a dance. The changes are made by hand, so what must be told is known."""
import json
import re
import subprocess
from pathlib import Path

import pytest
from invoking import EXAMPLES, SAUNTER, run, said

LANTERN = EXAMPLES / "lantern-quay-waltz.yaml"


def changes(old: Path, text: str, tmp_path: Path) -> list[str]:
    """The messages, without the lines they stand in."""
    new = tmp_path / "new.yaml"
    new.write_text(text)
    result = run("compare", old, new, "--format", "json")
    assert result.exit_code == 0, said(result)
    return [one["message"] for one in json.loads(result.output)]


def edited(path: Path, old: str, new: str) -> str:
    text = path.read_text()
    assert text.count(old) >= 1
    return text.replace(old, new, 1)


def test_nothing_changed() -> None:
    assert "nothing changed" in run("compare", SAUNTER, SAUNTER).output


@pytest.mark.parametrize(("path", "old", "new", "told"), [
    (SAUNTER, "tempo: 28", "tempo: 27-29", ["heading: tempo 28 becomes 27-29"]),
    (SAUNTER, "2.2  RF side, turn 3/8 L", "2.2  RF side, turn 1/4 L",
     ["bar 8, count Q (beat 2): lady's turn 3/8 L becomes 1/4 L"]),
    (SAUNTER, "Q  RF close, T\n      S  LF side, TH", "Q  RF close, T\n      S  LF side, T",
     ["bar 2, count S (beat 3): both partners' footwork TH becomes T"]),
    (LANTERN, "hold: double", "hold: open", ["bar 3: hold double becomes open"]),
    (LANTERN, "2  LF touch 3rd rear", "2& LF touch 3rd rear",
     ["bar 13, count 2&: gent's step LF touch moved from count 2",
      "bar 13, count 2&: lady's step RF touch moved from count 2"]),
    (LANTERN, "figure: Balances", "figure: Balance steps", ["bar 13: figure Balances becomes Balance steps"]),
    (LANTERN, "head: {gent: DC, lady: DW}", "head: {gent: L, lady: DW}", ["bar 1: gent's head DC becomes L"]),
    (LANTERN, "    gent: natural turn\n    lady: natural turn, from rotary half",
     "    gent: natural turn, from rotary half\n    lady: natural turn",
     ["bar 9: gent dances 'natural turn, from rotary half' instead of 'natural turn'",
      "bar 9: lady dances 'natural turn' instead of 'natural turn, from rotary half'"]),
])
def test_each_change_is_told_once_where_it_is_written(
    path: Path, old: str, new: str, told: list[str], tmp_path: Path
) -> None:
    """Bars 1-2, 9-10 of both dances are danced again, and nothing is told of the repeats."""
    found = changes(path, edited(path, old, new), tmp_path)
    assert found == told


def test_a_repeat_written_out_changes_nothing(tmp_path: Path) -> None:
    text = SAUNTER.read_text()
    first = text.index("  - bars: 1-2")
    third = text.index("  - bars: 5-6")
    again = text[first:third].replace("bars: 1-2", "bars: 9-10").replace("bars: 3-4", "bars: 11-12")
    # The repeat goes on in the position in force before bar 1.
    again = again.replace("    figure: Two walks", "    position: closed\n    figure: Two walks")
    assert changes(SAUNTER, text.replace("  - bars: 9-12\n    repeat: 1-4\n", again), tmp_path) == []


def test_bars_put_in_leave_the_later_ones_unchanged(tmp_path: Path) -> None:
    base = (EXAMPLES / "ferry-lane-saunter.yaml").read_text()
    added = "  - bars: 17-18\n    figure: Rocks\n    gent: |\n" + "      S  LF fwd\n      S  RF back\n" * 2
    added += "    lady: opposite\n"
    longer = base.replace("length: 16", "length: 18") + added
    found = changes(SAUNTER, longer, tmp_path)
    assert found == ["heading: length 16 bars becomes 18 bars", "bars 17-18 put in: Rocks"]
    old = tmp_path / "old.yaml"
    old.write_text(longer)
    assert "bars 17-18 of the old version left out: Rocks" in changes(old, base, tmp_path)


def test_a_bar_put_in_at_the_beginning_pairs_the_others_as_they_were(tmp_path: Path) -> None:
    """Sixteen bars move by one; not one of them counts as changed."""
    text = SAUNTER.read_text().replace("length: 16", "length: 17")
    text = re.sub(r"(bars|repeat): (\d+)-(\d+)", lambda m: f"{m[1]}: {int(m[2]) + 1}-{int(m[3]) + 1}", text)
    first = "  - bars: 1\n    figure: Sways\n    gent: |\n      S  LF side\n      S  RF side\n    lady: opposite\n"
    found = changes(SAUNTER, text.replace("sequence:\n", "sequence:\n" + first), tmp_path)
    assert found == ["heading: length 16 bars becomes 17 bars", "bar 1 put in: Sways",
                     "bar 1 of the old version is now bar 2"]


def test_the_slip_says_it_without_colour_and_is_tagged(tmp_path: Path) -> None:
    new = tmp_path / "new.yaml"
    new.write_text(edited(SAUNTER, "turn 3/8 L, backing", "turn 1/4 L, backing"))
    out = tmp_path / "errata.pdf"
    result = run("compare", SAUNTER, new, "-o", out)
    assert result.exit_code == 0 and "lady's turn 3/8 L becomes 1/4 L (line 57)" in result.output
    words = subprocess.run(["pdftotext", "-layout", str(out), "-"], capture_output=True, text=True).stdout
    assert "¼ L (was ⅜ L)" in words and "Walks to close" in words and "Left square turn" not in words
    assert run("compare", SAUNTER, new, "-o", out, "--whole").exit_code == 0
    whole = subprocess.run(["pdftotext", "-layout", str(out), "-"], capture_output=True, text=True).stdout
    assert "Left square turn" in whole
    assert "Tagged:          yes" in subprocess.run(["pdfinfo", str(out)], capture_output=True, text=True).stdout


def test_files_that_cannot_be_used(tmp_path: Path) -> None:
    assert run("compare", SAUNTER, tmp_path / "none.yaml").exit_code == 2
    assert run("compare", SAUNTER, SAUNTER, "-o", tmp_path / "x.txt").exit_code == 2


def test_the_slip_says_what_changed_of_a_passage_and_a_field_once(tmp_path: Path) -> None:
    new = tmp_path / "new.yaml"
    text = edited(LANTERN, "hold: double", "hold: open")
    new.write_text(text.replace("figure: Balances", "figure: Balance steps").replace("2  LF touch", "2  LF point", 1))
    out = tmp_path / "errata.pdf"
    result = run("compare", LANTERN, new, "-o", out)
    assert result.exit_code == 0, said(result)
    words = " ".join(subprocess.run(["pdftotext", str(out), "-"], capture_output=True, text=True).stdout.split())
    assert "Pas de basque; hold open (was double)" in words and "Balance steps (was Balances)" in words
    assert [line for line in result.output.splitlines() if "LF touch" in line and "LF point" in line]


def test_dances_as_long_as_can_be(tmp_path: Path) -> None:
    """512 bars against as many, all different: no more than pairs of bars are looked at, once."""
    from notation.dance import pairing

    looked = 0

    def score(one: int, two: int) -> float:
        nonlocal looked
        looked += 1
        return float(one == two)

    ones, others = list(range(512)), list(range(3, 515))
    found = pairing.paired(ones, others, score)
    assert sum(a == b for a, b in found) == 509
    assert looked <= 512 * 512 + 1024


def test_a_file_that_says_a_bar_again_and_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """The bars are not multiplied by the passages that claim them, and no step is weighed against all others."""
    from notation.dance import pairing
    from notation.dance.pairing import bars_of, pair_steps
    from notation.dance.work import work_out
    from notation.reading.dance import read_dance
    from notation.reading.knowledge import load_knowledge

    head, bars = SAUNTER.read_text().split("sequence:\n")
    again = "  - bars: 1\n    gent: |\n      1 LF fwd\n" * 110
    monkeypatch.setattr(pairing, "MOST_PAIRS", 10_000)
    knowledge = load_knowledge()
    dance = read_dance(f"{head}sequence:\n{again}{bars}".encode(), "d.yaml", knowledge).dance
    assert dance is not None
    found = bars_of(work_out(dance, knowledge))
    assert [bar.number for bar in found] == sorted({bar.number for bar in found})
    steps = found[0].steps["gent"]
    assert len(steps) > 100 and len(pair_steps(steps, steps[::-1])) == len(steps)


def test_the_start_in_words(tmp_path: Path) -> None:
    text = edited(LANTERN, "gent: LF 3rd front, facing DW", "gent: LF 5th front, facing wall")
    found = changes(LANTERN, text, tmp_path)
    assert found[0] == "heading: gent at the start LF, 3rd front, facing DW becomes LF, 5th front, facing wall"


def test_what_goes_is_struck_out_and_what_comes_is_underlined(tmp_path: Path) -> None:
    """A rule stands through the old word and under the new one; the words say it too, for who only hears them."""
    from pypdf import PdfReader

    slip = tmp_path / "slip.pdf"
    old = EXAMPLES / "competition" / "ferry-lane-saunter-2025.yaml"
    assert run("compare", old, SAUNTER, "-o", slip).exit_code == 0
    page = PdfReader(slip).pages[0]
    assert "TH (was T)" in " ".join(page.extract_text().split())
    rectangles = re.findall(rb"q 1 0 0 1 ([\d.]+) ([\d.]+) cm\n0\.00 (-?[\d.]+) m", page.get_contents().get_data())
    over = [float(height) > 0 for _, _, height in rectangles if 0 < abs(float(height)) < 6]
    assert over.count(True) == 3 and over.count(False) == 3
