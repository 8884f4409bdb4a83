"""The options of imposition, the same on every command that imposes, and how a finished PDF becomes an imposed one.

A command takes the decorator `imposing_options` and gets a `Plan`; `imposed` makes the file and `imposed_words` says
how it is to be printed.
"""
from __future__ import annotations

import functools
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from notation.cli.language import page_vocabulary
from notation.page.fault import LayoutError
from notation.page.forme import Plan
from notation.page.imposition import Edge
from notation.page.units import POINTS_PER_MM, paper, points

if TYPE_CHECKING:
    from notation.page.impose import Imposed

Command = Callable[..., Any]
MOST_MM = 20.0


def imposing_options(*paper_names: str) -> Callable[[Command], Command]:
    """Add the options of imposition to a command, which gets them as one argument `plan`.

    paper_names: what the option for the paper of the sheets is called on this command.
    """

    def decorate(command: Command) -> Command:
        @functools.wraps(command)
        def gathered(*args: Any, **given: Any) -> Any:
            wishes = {name: given.pop(name) for name in NAMES}
            return command(*args, plan=make_plan(**wishes), **given)

        decorated: Command = gathered
        for option in reversed((*OPTIONS, _paper_option(paper_names))):
            decorated = option(decorated)
        return decorated

    return decorate


def _paper_option(names: tuple[str, ...]) -> Callable[[Command], Command]:
    return click.option(*(names or ("--sheet-paper",)), "sheet_paper",
                        help="The paper of the sheets, A3 to A7, Letter or Legal; otherwise as large as is needed.")


MILLIMETRES = click.FloatRange(0, MOST_MM)
OPTIONS: tuple[Callable[[Command], Command], ...] = (
    click.option("--up", type=click.Choice(["2", "4"]), default="2", help="Pages on a side: folded once, or twice."),
    click.option("--signature", type=click.IntRange(1), metavar="N", help="Sheets that lie in one another (all)."),
    click.option("--card", type=click.Choice(["4", "8"]), help="A folded card printed on one side, of 4 or 8 panels."),
    click.option("--creep", type=MILLIMETRES, default=0.0, metavar="MM",
                 help="How far the innermost leaf stands out when folded; its pages move in so far, others in part."),
    click.option("--duplex", type=click.Choice(["long", "short"]),
                 help="The edge about which the printer turns sheets (short for sheets that lie, long for upright)."),
    click.option("--bleed", type=MILLIMETRES, default=0.0, metavar="MM",
                 help="What is printed beyond the trimmed page."),
    click.option("--crop-marks", is_flag=True, help="Marks where to trim."),
    click.option("--fold-marks", is_flag=True, help="Marks where to fold."),
    click.option("--proof", is_flag=True, help="Number every panel large, with its sheet and side."),
)  # fmt: skip
NAMES = ("up", "signature", "card", "creep", "duplex", "bleed", "crop_marks", "fold_marks", "proof", "sheet_paper")


def make_plan(
    up: str, signature: int | None, card: str | None, creep: float, duplex: str | None, bleed: float,
    crop_marks: bool, fold_marks: bool, proof: bool, sheet_paper: str | None,
) -> Plan:  # fmt: skip
    """The plan from the words of the command line; lengths in millimetres. Raises UsageError."""
    if card and (signature or creep or duplex):
        raise click.UsageError("a card is one sheet printed on one side; leave out --signature, --creep and --duplex")
    try:
        chosen = paper(sheet_paper) if sheet_paper else None
    except LayoutError as fault:
        raise click.UsageError(str(fault)) from fault
    return Plan(
        int(up), signature, int(card) if card else None, Edge(duplex) if duplex else None, points(creep),
        points(bleed), crop_marks, fold_marks, chosen, proof,
    )  # fmt: skip


def imposed(pdf: bytes, plan: Plan, language: str | None) -> Imposed:
    """The finished reading version imposed. language: of what its sheets say. Raises ImposeError, LayoutError (both
    ValueError), worded for the user."""
    from notation.installed import data_folder
    from notation.page.impose import impose
    from notation.page.marks import SheetWords
    from notation.reading.knowledge import load_knowledge
    from notation.sheet.pagewords import ImposedWords, page_words

    says = page_words(page_vocabulary(load_knowledge(), language), ImposedWords)
    words = SheetWords(says.front, says.back, says.blank, says.imposed, says.untitled)
    return impose(pdf, plan, data_folder("fonts"), words)


def imposed_words(made: Imposed) -> str:
    """How many sheets of which paper, how to print them, and what is not as large as it was."""
    sheets, held = made.order.sheets, made.forme
    name = held.paper.name or f"{_mm(held.paper.width)} by {_mm(held.paper.height)} mm"
    lying = " upright" if held.tall else " lying"
    words = [f"{sheets} sheet{'s' if sheets > 1 else ''} of {name}{lying if held.paper.name else ''}"]
    blank = sum(panel.page is None for side in made.order.sides for panel in side.panels)
    words += [f"{blank} blank page{'s' if blank > 1 else ''} at the end"] if blank else []
    words += [f"pages at {100 * held.scale:.0f} %"] if held.scale < 1 else []
    both = f"print on both sides, turning about the {made.edge.value} edge"
    words.append(both if made.order.double else "print on one side")
    return "; ".join(words)


def _mm(length: float) -> str:
    return f"{length / POINTS_PER_MM:.0f}"
