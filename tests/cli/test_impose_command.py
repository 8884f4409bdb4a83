"""`lodestep impose`: from a finished PDF to sheets to fold."""
from __future__ import annotations

from pathlib import Path

import click
import pytest
from click.testing import CliRunner
from invoking import EXAMPLES, process, run, said
from pypdf import PdfReader

from notation.cli.imposing import imposing_options
from notation.page.forme import Plan
from notation.page.imposition import Edge
from notation.page.units import paper, points


@pytest.fixture(scope="module")
def pdf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("read") / "bell.pdf"
    assert run("sheet", EXAMPLES / "harbour-bell-waltz.yaml", "-o", out, "--paper", "A5").exit_code == 0
    return out


def test_a_sheet_becomes_a_booklet_and_stays_as_it_is(pdf: Path, tmp_path: Path) -> None:
    before, out = pdf.read_bytes(), tmp_path / "print.pdf"
    result = run("impose", pdf, "-o", out, "--fold-marks")
    pages = len(PdfReader(pdf).pages)
    sheets = -(-pages // 4)
    assert result.exit_code == 0 and f"{sheets} sheet{'s' if sheets > 1 else ''} of A4 lying" in result.output
    assert "turning about the short edge" in result.output
    assert pdf.read_bytes() == before and len(PdfReader(out).pages) == 2 * sheets


def test_a_card(pdf: Path, tmp_path: Path) -> None:
    out = tmp_path / "card.pdf"
    result = run("impose", pdf, "-o", out, "--card", "8", "--paper", "A4", "--fold-marks")
    assert result.exit_code == 0 and "1 sheet of A4" in result.output and "print on one side" in result.output
    assert len(PdfReader(out).pages) == 1


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--up", "3"], "'3' is not one of '2', '4'"),
        (["--creep", "-1"], "-1"),
        (["--paper", "B9"], "there is no paper 'B9'"),
        (["--card", "4", "--creep", "1"], "a card is one sheet"),
        (["--signature", "0"], "0"),
    ],
)
def test_wishes_that_cannot_be(words: list[str], message: str, pdf: Path, tmp_path: Path) -> None:
    result = run("impose", pdf, "-o", tmp_path / "x.pdf", *words)
    assert result.exit_code == 2 and message in said(result) and not (tmp_path / "x.pdf").exists()


def test_what_is_no_pdf(tmp_path: Path) -> None:
    out = tmp_path / "x.pdf"
    for source in (EXAMPLES / "harbour-bell-waltz.yaml", tmp_path / "nowhere.pdf", tmp_path):
        done = process("impose", source, "-o", out)
        assert done.returncode == 2 and not out.exists() and "[imposition]" in done.stderr
        assert "Traceback" not in done.stderr and len(done.stderr.splitlines()) == 1


def test_the_pdf_itself_is_not_written_over(pdf: Path) -> None:
    before = pdf.read_bytes()
    assert run("impose", pdf, "-o", pdf).exit_code == 2 and pdf.read_bytes() == before


def test_the_options_give_a_plan_on_any_command() -> None:
    plans: list[Plan] = []

    @click.command()
    @imposing_options("--sheet-paper")
    def other(plan: Plan) -> None:
        plans.append(plan)

    words = ["--up", "4", "--signature", "3", "--creep", "2", "--duplex", "long", "--bleed", "3"]
    words += ["--crop-marks", "--proof", "--sheet-paper", "A3"]
    assert CliRunner().invoke(other, words).exit_code == 0
    assert plans == [Plan(4, 3, None, Edge.LONG, points(2), points(3), True, False, paper("A3"), True)]
