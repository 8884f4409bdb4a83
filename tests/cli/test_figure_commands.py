"""`lodestep figures` and `lodestep card` as a teacher types them."""
from __future__ import annotations

from pathlib import Path

import pytest
from invoking import run, said

from notation.dance.feet import Foot
from notation.reading.figures import read_figure


def test_list_and_search() -> None:
    whole = run("figures").stdout
    assert "natural spin turn          2 bars of 3/4      RF      waltz" in whole
    assert whole.count("\n  ") >= 60
    narrowed = run("figures", "turn", "--rhythm", "waltz", "--foot", "lf").stdout
    assert "solo turn" in narrowed and "reverse turn" in narrowed and "natural turn" not in narrowed
    assert "whisk" in run("figures", "Latin").stdout


def test_steps_in_the_terminal() -> None:
    page = run("figures", "pas", "de", "valse").stdout
    for words in ("begins        LF 3rd front free, facing DW", "1     LF fwd", "head          gent DC, lady DW",
                  "arms          Rounded", "Sources", "common practice, no source"):
        assert words in page
    both = run("figures", "whisk", "--rhythm", "waltz").stdout
    assert "Gent" in both and "Lady" in both and "RF cross behind" in both


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("figures", "whsk"), "there is no figure 'whsk': did you mean 'whisk'"),
        (("figures", "zzz"), "there is no figure 'zzz'; 'lodestep figures' lists them"),
        (("figures", "whisk", "--rhythm", "rumba"), "'whisk' is no figure of rumba; it belongs to samba, waltz"),
        (("figures", "whisk", "--rhythm", "waltz", "--foot", "RF"), "'whisk' is no figure begun on that foot"),
        (("figures", "--rhythm", "watlz"), "there is no rhythm 'watlz': did you mean 'waltz'?"),
        (("card", "natural tun", "-o", "c.pdf"), "did you mean 'natural turn'"),
        (("card", "spot turn", "-o", "c.pdf"), "'spot turn' stands for several figures; add --rhythm with cha-cha or"),
        (("card", "rock", "-o", "c.doc"), "must end in .pdf, .svg or .png"),
        (("card", "-o", "c.pdf"), "name the figures of the cards, or ask for --positions"),
        (("card", "rock", "--rhythm", "bluse", "-o", "c.pdf"), "there is no rhythm 'bluse': did you mean 'blues'?"),
    ],
)
def test_one_clear_message(words: tuple[str, ...], message: str) -> None:
    result = run(*words)
    assert result.exit_code == 2 and message in said(result)
    assert "Traceback" not in said(result)


def test_a_pack_for_a_lesson(tmp_path: Path) -> None:
    """A rhythm chooses where a name stands for several figures; the others are taken as they are."""
    pack = tmp_path / "lesson.pdf"
    result = run("card", "spot turn", "rumba box", "rock", "--rhythm", "rumba", "-o", pack)
    assert result.exit_code == 0 and pack.read_bytes().startswith(b"%PDF")
    assert "written, 2 pages" in result.stdout
    apart = run("card", "spot turn", "rumba box", "rock", "--rhythm", "rumba", "--apart", "-o", pack)
    assert "written, 3 pages" in apart.stdout
    chart = run("card", "--positions", "-o", tmp_path / "positions.pdf")
    assert "written, 1 page" in chart.stdout


def test_the_figure_of_the_guide_can_be_used(tmp_path: Path) -> None:
    """The file printed in docs/figures.md, as a writer would copy it."""
    guide = Path(__file__).parents[2] / "docs" / "figures.md"
    text = guide.read_text().split("```yaml\n")[1].split("```")[0]
    figure = read_figure(text.encode(), "harbour-step.yaml")
    assert (figure.name, figure.gent.free, figure.variants[0].name) == ("harbour step", Foot.RIGHT, "with a point")
