"""The floor command, whole."""
from pathlib import Path

import pytest
from click.testing import CliRunner

from notation.cli.main import lodestep

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
DANCE = str(EXAMPLES / "harbour-bell-waltz.yaml")


@pytest.mark.parametrize(("ending", "begins"), [("pdf", b"%PDF"), ("png", b"\x89PNG"), ("svg", b"<")])
def test_a_diagram_in_each_form(tmp_path: Path, ending: str, begins: bytes) -> None:
    """The files' own signatures (ISO 32000, PNG specification, XML)."""
    out = tmp_path / f"floor.{ending}"
    done = CliRunner().invoke(lodestep, ["floor", DANCE, "--bars", "1-2", "-o", str(out)])
    assert done.exit_code == 0, done.output
    assert out.read_bytes().startswith(begins)


@pytest.mark.parametrize("bars", ["0", "3-1", "x", "99"])
def test_bars_that_are_not_there_are_refused(tmp_path: Path, bars: str) -> None:
    """Exit status 2 of wrong use; nothing is written."""
    out = tmp_path / "floor.pdf"
    done = CliRunner().invoke(lodestep, ["floor", DANCE, "--bars", bars, "-o", str(out)])
    assert done.exit_code == 2 and not out.exists() and "Traceback" not in done.output


def test_other_faults_are_one_message(tmp_path: Path) -> None:
    """A missing file, an ending that is no form, a folder that is not there."""
    for words in (["none.yaml", "-o", str(tmp_path / "a.pdf")], [DANCE, "-o", str(tmp_path / "a.doc")],
                  [DANCE, "-o", str(tmp_path / "no" / "a.pdf")]):
        done = CliRunner().invoke(lodestep, ["floor", *words])
        assert done.exit_code != 0 and (done.exception is None or isinstance(done.exception, SystemExit))
    assert list(tmp_path.iterdir()) == []


def run(*words: str) -> str:
    done = CliRunner().invoke(lodestep, [*words])
    assert done.exit_code == 0, done.output
    return done.output


def test_check_says_travel_distance_and_closure() -> None:
    """Against the numbers worked out by hand for its first bar (test_floor_by_hand): 0.25 m in a closed hold."""
    said = run("check", DANCE)
    assert "m along LOD" in said and "once round a hall of 57.6 by 33.5 m is" in said
    assert "0.30 m apart, furthest in bar 7 count 1" in said and "hold reaches 0.70 m" in said
    assert "both face as they began, and the lady is 0.00 m from her place beside the gent" in said
    assert "corners" not in said


@pytest.mark.parametrize("hall", ["20x12", "12x20", "20 by 12", "20.0x12.0"])
def test_a_hall_of_ones_own(hall: str) -> None:
    """Either side first; 42.85 m round (test_hall), which 24 m a sequence fill about twice."""
    said = run("check", DANCE, "--hall", hall)
    assert "once round a hall of 20 by 12 m is 2 of them" in said and "the corners come in bar" in said


@pytest.mark.parametrize("hall", ["3x12", "20", "x", "0x0", "20x12x4", "-20x12", "99999x12"])
def test_no_hall(hall: str) -> None:
    done = CliRunner().invoke(lodestep, ["check", DANCE, f"--hall={hall}"])
    assert done.exit_code == 2 and "like 20x12" in done.output and "Traceback" not in done.output


def test_a_hall_and_feet_of_ones_own_are_drawn(tmp_path: Path) -> None:
    """A plan makes the document longer; a foot that is none is refused."""
    for name, words in (("a", []), ("b", ["--hall", "20x12", "--gent-foot", "300x110", "--lady-foot", "230x88"])):
        run("floor", DANCE, "--bars", "1", *words, "-o", str(tmp_path / f"{name}.svg"))
    assert (tmp_path / "b.svg").stat().st_size > (tmp_path / "a.svg").stat().st_size
    done = CliRunner().invoke(lodestep, ["floor", DANCE, "--gent-foot", "30x11", "-o", str(tmp_path / "c.pdf")])
    assert done.exit_code == 2 and "like 270x100" in done.output
