"""`lodestep card`."""
from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

import click

from notation.cli.completing import figure_words, rhythm_words
from notation.cli.language import language_option, page_vocabulary
from notation.cli.output import OutputFault, refuse, write_whole
from notation.cli.report import UNUSABLE, Report, printable
from notation.cli.sources import Source
from notation.dance.call import nearest_names, understood_name
from notation.dance.figure import Figure, Library, Unusable
from notation.dance.suggest import did_you_mean, quoted_list
from notation.reading.knowledge import knowledge_beside
from notation.reading.rhythms import find_rhythm

FORMS = (".pdf", ".svg", ".png")


@click.command()
@click.argument("names", nargs=-1, metavar="NAME...", shell_complete=figure_words)
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path), help="A .pdf, .svg or .png file.")
@click.option("--rhythm", shell_complete=rhythm_words, help="The rhythm, where a name stands for figures of several.")
@click.option("--positions", is_flag=True, help="The chart of the five positions of the feet.")
@click.option("--paper", "paper_name", default="A4", help="A3 to A7, Letter or Legal.")
@click.option("--apart", is_flag=True, help="Each card on a page of its own.")
@language_option
def card(
    names: tuple[str, ...], output: Path, rhythm: str | None, positions: bool, paper_name: str, apart: bool,
    language: str | None,
) -> None:
    """Typeset teaching cards of figures: steps, footprints, positions, rise and fall, what goes wrong, care.

    Each NAME is one figure; a name of several words stands in quotation marks. Several cards stand on a page where they
    fit.

    \b
    lodestep card "pas de valse" -o card.pdf
    lodestep card "natural turn" "reverse turn" --rhythm waltz -o lesson.pdf
    lodestep card --positions -o positions.pdf
    """
    if output.suffix.lower() not in FORMS:
        raise click.UsageError(f"'{output}' must end in .pdf, .svg or .png")
    if bool(names) == positions:
        raise click.UsageError("name the figures of the cards, or ask for --positions")
    try:
        figures = _figures(names, rhythm)
        refuse(output, ())
        _write(figures, output, paper_name, apart, language)
    except (Unusable, OutputFault) as fault:
        click.echo(printable(str(fault)), err=True)
        sys.exit(UNUSABLE)


def _figures(names: Sequence[str], rhythm: str | None) -> list[Figure]:
    """The figures of those names. Raises Unusable with what is wrong with a name."""
    knowledge = knowledge_beside(Path())
    row = find_rhythm(rhythm, knowledge.rhythms) if rhythm else None
    if rhythm and row is None:
        names = [one for r in knowledge.rhythms for one in (r.name, *r.also)]
        hint = did_you_mean(rhythm, names)[0] or "; 'lodestep terms' lists them"
        raise Unusable(f"there is no rhythm '{rhythm}'{hint}")
    return [_figure(name, row.name if row else None, knowledge.figures) for name in names]


def _figure(name: str, rhythm: str | None, library: Library) -> Figure:
    found = library.named(name)
    if not found:
        near = nearest_names(name, library)
        hint = f": did you mean {quoted_list(near)}?" if near else "; 'lodestep figures' lists the library"
        raise Unusable(f"there is no figure '{name}'{hint}")
    fitting = [figure for figure in found if rhythm is None or rhythm in figure.rhythms] or found
    own = [f for f in fitting if understood_name(f, name) and f.name.lower() == name.lower()] or fitting
    if len(own) == 1:
        return own[0]
    rhythms = quoted_list((figure.rhythms[0] for figure in own), quote="")
    raise Unusable(f"'{name}' stands for several figures; add --rhythm with {rhythms}")


def _write(figures: list[Figure], output: Path, paper_name: str, apart: bool, language: str | None) -> None:
    from notation.cli.setting import FORMS as PAINTERS
    from notation.cli.setting import faces
    from notation.page.content import Flow, Story
    from notation.page.fault import LayoutError
    from notation.page.frame import Document, Metadata
    from notation.page.paginate import set_story
    from notation.page.units import paper
    from notation.sheet.card import MARGIN, card_story, title_of, with_breaks
    from notation.sheet.card import card as card_flow
    from notation.sheet.feetchart import positions_story
    from notation.sheet.pagewords import CardWords, ChartWords, page_words

    knowledge = knowledge_beside(Path())
    words = page_vocabulary(knowledge, language)
    says, chart = page_words(words, CardWords), page_words(words, ChartWords)
    title = ", ".join(dict.fromkeys(map(title_of, figures))) or chart.title
    metadata = Metadata(title, subject=says.subject if figures else chart.subject, language=words.tag)

    def document(story: Story) -> Document:
        return set_story(story, metadata, faces())

    try:
        sheet = paper(paper_name)
        cards = [card_flow(f, knowledge, sheet.width - 2 * MARGIN, words) for f in figures]

        def fits(some: Sequence[tuple[Flow, ...]]) -> bool:
            return not apart and len(document(card_story(some, sheet, [False] * len(some), words)).pages) == 1

        breaks = with_breaks(cards, fits)
        story = card_story(cards, sheet, breaks, words) if cards else positions_story(sheet, words)
        made = document(story)
    except LayoutError as fault:
        raise Unusable(str(fault)) from fault
    empty = Source("<card>", b"", None, Report("<card>", (), ()))
    for path, data in PAINTERS[output.suffix.lower().removeprefix(".")](made, output, empty).items():
        write_whole(path, data)
        click.echo(f"{printable(str(path))}: written, {len(made.pages)} page{'s' if len(made.pages) > 1 else ''}")
