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
