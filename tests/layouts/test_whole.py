"""Short, long and awkward dances in every layout: nothing lost, outside or overprinted, in the order of the dance."""
from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from drawn import DANCES, set_dance
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from notation.dance.script import GENT, LADY, Worked
from notation.dance.work import work_out
from notation.installed import data_folder
from notation.layout import Layout
from notation.page.fonts import Faces
from notation.page.frame import Document, Frame, PlacedShape, PlacedText
from notation.page.pdf import paint_pdf
from notation.page.units import paper
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import layout_names, load_layout
from notation.sheet import set_sheet
from notation.sheet.script import sheet_speaker

FACES = Faces()
APART = 400  # letters: heads, cautions and the like may stand between a step and the next
PRINTABLE = 14.17  # points: 5 mm, what the margins of a layout are at least
KERN = 0.6  # points that kerning may draw two words together
LEAST = {"large-print": 16.0, "prompt": 10.0, "pocket": 5.5, "teaching": 7.0}
"""Points, smallest type of each layout on A4, six where nothing is said. Large print is 16 to 18 points by the Clear
Print guidance of the Royal National Institute of Blind People (value from memory); WCAG 2.2 sets no least size. The
others: common practice, no source."""


def layout_of(name: str) -> Layout:
    return load_layout(name)


def texts(page: Frame) -> list[PlacedText]:
    return [item for item in page.items if isinstance(item, PlacedText)]


def box(text: PlacedText) -> tuple[float, float, float, float]:
    """About the ink of a text: from its x-height to a little below its baseline."""
    advances = FACES.face(text.face).advances
    words = text.text.rstrip()
    wide = (sum(advances[c] for c in words) + sum(text.adjust[: len(words)])) * text.size / 1000
    tall, deep = 0.55 * text.size, 0.05 * text.size
    if text.turned:
        return text.x - wide, text.y - deep, text.x, text.y + tall
    return text.x, text.y - tall, text.x + wide, text.y + deep


def assert_whole(made: Document) -> None:
    for page in made.pages:
        boxes = sorted(box(text) for text in texts(page) if text.text.strip())
        for number, one in enumerate(boxes):
            assert one[0] >= PRINTABLE and one[2] <= page.width - PRINTABLE
            assert one[1] >= PRINTABLE and one[3] <= page.height - PRINTABLE
            for two in boxes[number + 1 :]:
                if two[0] >= one[2] - KERN:
                    break
                assert two[1] >= one[3] or one[1] >= two[3] or two[2] <= one[0] + KERN, (one, two)


@pytest.mark.parametrize("on", ["A4", "A5", "Letter"])
@pytest.mark.parametrize("layout", layout_names())
@pytest.mark.parametrize("name", ["short", "awkward"])
def test_nothing_is_outside_or_on_top_of_another_thing(name: str, layout: str, on: str) -> None:
    assert_whole(set_dance(name, layout, on))


def worked(source: bytes) -> Worked:
    reading = read_dance(source, "test.yaml", load_knowledge())
    assert reading.dance is not None, reading.findings
    return work_out(reading.dance, load_knowledge())


def said_in_order(of: Worked, layout: Layout) -> list[str]:
    """The words of the dance as written down: bar by bar, count by count, the gent's then the lady's."""
    says = sheet_speaker(of, load_knowledge(), layout)
    found: list[str] = []
    for passage in of.passages:
        if passage.written.repeat is not None and layout.repeats.value == "instruction":
            continue
        found += passage.figure.split()
        moments = sorted({(d.bar, d.beat, d.count) for part in (GENT, LADY) for d in passage.part(part)})
        for bar, beat, count in moments:
            found += [count.replace("-", "\u2013")]
            for part in (GENT, LADY):
                steps = [d for d in passage.part(part) if (d.bar, d.beat, d.count) == (bar, beat, count)]
                found += [word for d in steps for word in says.step(d.step).replace("\u00a0", " ").split()]
    return found


@pytest.mark.parametrize("layout", ["script", "entry", "teaching", "pocket", "large-print"])
@pytest.mark.parametrize("name", ["short", "long"])
def test_words_come_out_in_the_order_of_the_dance(name: str, layout: str, tmp_path: Path) -> None:
    """What poppler's `pdftotext -raw` reads, which goes by the content of the page, without its layout."""
    chosen, file = load_layout(layout), tmp_path / "sheet.pdf"
    file.write_bytes(paint_pdf(set_dance(name, layout, "A4"), data_folder("fonts")))
    read = subprocess.run(["pdftotext", "-raw", str(file), "-"], capture_output=True, text=True, check=True).stdout
    printed = "".join(read.split())
    at = 0
    for word in said_in_order(worked(DANCES[name].read_bytes()), chosen):
        found = printed.find(word, at)
        near = printed[at : at + 80]
        assert 0 <= found - at < (APART if at else len(printed)), f"{word!r} is not where it should be, near {near!r}"
        at = found + len(word)


@pytest.mark.parametrize("layout", layout_names())
def test_type_is_not_too_small_and_drawings_are_dark_enough(layout: str) -> None:
    """Contrast of what must be understood at least 3:1 (WCAG 2.2, success criterion 1.4.11); hairlines only divide."""
    made = set_dance("awkward", layout, "A4")
    assert min(text.size for page in made.pages for text in texts(page)) >= LEAST.get(layout, 6.0)
    for page in made.pages:
        for shape in (item for item in page.items if isinstance(item, PlacedShape) and item.fill is not None):
            level = ((shape.fill + 0.055) / 1.055) ** 2.4 if (shape.fill or 0) > 0.04045 else (shape.fill or 0) / 12.92
            assert shape.fill == 1.0 or 1.05 / (level + 0.05) >= 3.0


BREAK_AFTER = re.compile(r"(?:\b(?:LF|RF|facing|backing|pointing|moving)|[\d\u00bc\u00bd\u00be\u215b-\u215e])$")


def lines_of_cells(made: Document) -> list[list[str]]:
    """The lines of each element, top to bottom."""
    found: list[list[str]] = []
    for page in made.pages:
        by_tag: dict[int, dict[float, str]] = {}
        for text in texts(page):
            if isinstance(text.tag, int):
                line = by_tag.setdefault(text.tag, {})
                line[text.y] = line.get(text.y, "") + text.text
        found += [[line for _, line in sorted(lines.items())] for lines in by_tag.values()]
    return found


@pytest.mark.parametrize("on", ["A4", "A5", "A6"])
@pytest.mark.parametrize("name", ["short", "long"])
def test_what_belongs_together_stays_on_one_line(name: str, on: str) -> None:
    """Foot and action, number and unit, amount and side, way and alignment; counts are never broken. Common practice of
    printers, no source."""
    for lines in lines_of_cells(set_dance(name, "script", on)):
        for line in lines[:-1]:
            assert not BREAK_AFTER.search(line.strip()), lines
        if re.fullmatch(r"[\d&ea\u2013]+", lines[0]):
            assert len(lines) == 1


LETTERS = "abcdefg hijk-AVTW\u00e9\u00bd"
REMARKS = st.text(LETTERS, min_size=1, max_size=50).map(lambda t: " ".join(t.split())).filter(bool)
STEPS = st.sampled_from((
    "LF fwd", "RF back, small", "LF side, 3/8 R, pointing DC", "RF close 5th rear, TH, rise, sway L",
    "LF point fwd, low aerial", "hold", "RF cross behind, facing DCA"))


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.tuples(STEPS, REMARKS), min_size=1, max_size=7), REMARKS, REMARKS, st.sampled_from(layout_names()),
    st.sampled_from(["A4", "A5", "A6", "Letter"]),
)
def test_any_dance_that_reads_is_set_whole(
    steps: list[tuple[str, str]], title: str, note: str, name: str, on: str
) -> None:
    lines = "\n".join(f"      {1 + n % 3} {said} ({words})" for n, (said, words) in enumerate(steps))
    bars = (len(steps) + 2) // 3
    text = (f"format: 1\ntitle: \"T {title}\"\nrhythm: waltz\nlength: {bars}\nnotes: \"N {note}\"\nsequence:\n"
            f"  - bars: 1-{bars}\n    figure: \"F {title}\"\n    note: \"S {note}\"\n    gent: |\n{lines}\n"
            "    lady: opposite\n")
    layout = load_layout(name)
    made = set_sheet(worked(text.encode()), load_knowledge(), layout, paper(on), FACES)
    assert_whole(made)
    by_tag: dict[int, str] = {}
    for said_here in (t for p in made.pages for t in texts(p)):
        if isinstance(said_here.tag, int):
            by_tag[said_here.tag] = by_tag.get(said_here.tag, "") + re.sub(r"[\s-]", "", said_here.text)
    letters = "\n".join(by_tag.values())
    wanted = [f"T {title}", f"F {title}"]
    wanted += [f"N {note}", f"S {note}"] if layout.shows.notes else []
    wanted += [f"({words})" for _, words in steps] if layout.rows.value == "steps" else []
    for said in wanted:
        assert re.sub(r"[\s-]", "", said) in letters
