"""Every command and every dance of the README does what is said there."""
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from notation.cli.main import lodestep

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text()
COMMANDS = [shlex.split(c)[1:] for c in re.findall(r"^\| `(lodestep [a-z].*?)` \|", README, re.MULTILINE)]


def test_the_commands_of_the_table_run_in_their_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "found").mkdir()
    assert len(COMMANDS) > 8
    for words in COMMANDS:
        result = CliRunner().invoke(lodestep, words)
        assert result.exit_code == 0, (words, result.output)
    written = {"harbour-lights.pdf", "harbour-lights.html", "card.pdf", "wide.pdf"}
    assert written <= {path.name for path in tmp_path.iterdir()}
    assert (tmp_path / "found" / "harbour-lights.yaml").read_bytes() == (tmp_path / "harbour-lights.yaml").read_bytes()


def test_the_dance_of_the_guide_passes(tmp_path: Path) -> None:
    source = re.search(r"```yaml\n(format: 1.*?)```", README, re.DOTALL)
    assert source
    (tmp_path / "d.yaml").write_text(source[1])
    result = CliRunner().invoke(lodestep, ["check", str(tmp_path / "d.yaml")])
    assert result.exit_code == 0 and "nothing found" in result.output


def test_the_command_that_sets_a_sheet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    command = re.search(r"^    pip install \. && lodestep (.*)$", README, re.MULTILINE)
    assert command
    monkeypatch.chdir(ROOT)
    words = shlex.split(command[1].replace("-o ", f"-o {tmp_path}/"))
    assert CliRunner().invoke(lodestep, words).exit_code == 0
    assert [path.suffix for path in tmp_path.iterdir()] == [".pdf"]


def test_the_picture_is_there() -> None:
    picture = re.search(r"!\[.*?\]\((.*?)\)", README)
    assert picture and (ROOT / picture[1]).read_bytes().startswith(b"\x89PNG")
