"""Rules along words: underlined and struck out, where the face says, and passed over by who hears the page."""
from __future__ import annotations

from pathlib import Path as File

import pytest

from notation.installed import data_folder
from notation.page.content import Align, Paragraph, Rule, Run, Style
from notation.page.fonts import Faces
from notation.page.lines import lines

FACE = "SourceSans3-Italic"
PLAIN = Style(FACE, 10.0)


def ruled(rule: Rule) -> Style:
    return Style(FACE, 10.0, rule=rule)


@pytest.mark.parametrize("rule", list(Rule))
@pytest.mark.parametrize("face", ["SourceSans3-Italic", "SourceSans3-SemiBold", "AtkinsonHyperlegibleNext-Regular"])
def test_position_and_thickness_are_the_faces_own(rule: Rule, face: str) -> None:
    """Read anew from the file by fontTools: tables post and OS/2 (OpenType specification 1.9)."""
    tools = pytest.importorskip("fontTools.ttLib")
    font = tools.TTFont(data_folder("fonts") / f"{face}.ttf")
    post, os2, scale = font["post"], font["OS/2"], 12.0 / font["head"].unitsPerEm
    top, thick = ((post.underlinePosition, post.underlineThickness) if rule is Rule.UNDERLINE
                  else (os2.yStrikeoutPosition, os2.yStrikeoutSize))
    (line,) = lines(Paragraph((Run("Natural turn", Style(face, 12.0, rule=rule)),)), 400.0, Faces(), "en")
    drawn = line.pieces[0].rule
    assert drawn is not None
    assert drawn.bounds.y0 == pytest.approx(-top * scale, abs=0.01)
    assert drawn.bounds.height == pytest.approx(thick * scale, abs=0.01)
    assert drawn.bounds.width == pytest.approx(line.width, abs=0.01)


def test_only_the_words_of_the_run_are_ruled() -> None:
    runs = (Run("LF fwd (was ", PLAIN), Run("LF back ", ruled(Rule.STRIKEOUT)), Run(") and on", PLAIN))
    (line,) = lines(Paragraph(runs), 400.0, Faces(), "en")
    before, struck, after = line.pieces
    assert before.rule is None and after.rule is None and struck.rule is not None
    space = Faces().face(FACE).advances[" "] / 100
    assert struck.rule.bounds.width == pytest.approx(after.x - struck.x - space, abs=0.01)


def test_each_line_of_a_broken_run_has_its_rule() -> None:
    words = "commence to turn to the right between the feet"
    broken = lines(Paragraph((Run(words, ruled(Rule.UNDERLINE)),), Align.LEFT), 60.0, Faces(), "en")
    assert len(broken) > 3
    for line in broken:
        rule = line.pieces[0].rule
        assert rule is not None and rule.bounds.width == pytest.approx(line.width, abs=0.01)


def test_a_page_with_rules_is_heard_as_one_without(tmp_path: File) -> None:
    from notation.page.content import Paper, Story
    from notation.page.frame import Artifact, Metadata, PlacedShape, PlacedText
    from notation.page.units import paper

    sheet: Paper = paper("A6")
    made = []
    for style in (PLAIN, ruled(Rule.STRIKEOUT)):
        from notation.page.content import Margins
        from notation.page.paginate import set_story

        story = Story(sheet, Margins(30.0, 30.0, 30.0, 30.0), 12.0, (Paragraph((Run("LF fwd", style),)),), None)
        made.append(set_story(story, Metadata(title="t"), Faces()))
    plain, struck = made
    assert plain.elements == struck.elements
    (shape,) = [item for item in struck.pages[0].items if isinstance(item, PlacedShape)]
    (text,) = [item for item in struck.pages[0].items if isinstance(item, PlacedText)]
    assert shape.tag is Artifact.LAYOUT and shape.bounds.x0 == pytest.approx(text.x)
