"""The sheet as a web page: on a telephone, in letters of twice the size, and printed, in a real browser.

WCAG 2.2 (W3C): 1.4.10, no scrolling sideways at 320 CSS pixels; 1.4.4, letters of twice the size; 1.3.1, the table
stays one for those who hear it. Accessibility by axe-core (Deque)."""
import re
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from browsers import grave, heard

from notation.cli.setting import WORDS, Order
from notation.dance.script import Worked
from notation.dance.work import work_out
from notation.page.units import paper
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import layout_names, load_layout

HERE = Path(__file__).parent.parent
DANCES = (HERE / "layouts" / "short.yaml", HERE / "layouts" / "awkward.yaml",
          HERE.parent / "examples" / "harbour-bell-waltz.yaml")
USUAL, TWICE = 16, 32
"""CSS pixels of a browser's usual letters, and twice that."""
PIXELS = 96 / 25.4
MARGIN = 14
"""Millimetres of white around a printed page, as the style says."""
A4, A5 = 210, 148
"""Millimetres across (ISO 216)."""
WINDOWS = (("screen", TWICE, 320), ("screen", USUAL, 400), ("screen", USUAL, 320),
           ("print", USUAL, int((A4 - 2 * MARGIN) * PIXELS)))
FAULTS = """() => {
  const wide = document.documentElement.clientWidth, found = [];
  if (document.documentElement.scrollWidth > wide) found.push('it scrolls sideways');
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const text = texts.currentNode, range = document.createRange();
    const cell = text.parentElement.closest('td, th, dt, dd');
    if (!text.textContent.trim() || text.parentElement.closest('thead')) continue;
    range.selectNodeContents(text);
    const room = cell ? cell.getBoundingClientRect() : {left: 0, right: wide};
    for (const box of range.getClientRects())
      if (box.left < Math.max(0, room.left - 1) || box.right > Math.min(wide, room.right + 1))
        found.push(text.textContent);
  }
  for (const shape of document.querySelectorAll('svg'))
    if (shape.getBoundingClientRect().right > wide) found.push('a drawing');
  for (const cell of document.querySelectorAll('td[data-head]:not(:empty)'))
    if (cell.closest('table').querySelector('thead').getBoundingClientRect().width < 9
        && !getComputedStyle(cell, '::before').content.includes(cell.dataset.head)) found.push(cell.textContent);
  return [...new Set(found)];
}"""
"""What is cut: text that leaves the window or its cell, and cells that have lost the head of their column."""


@cache
def worked(path: Path) -> Worked:
    dance = read_dance(path.read_bytes(), path.name, load_knowledge()).dance
    assert dance is not None
    return work_out(dance, load_knowledge())


def web_page(path: Path, layout: str) -> str:
    """As `lodestep sheet --as html` writes it."""
    return WORDS["html"](worked(path), Order(load_layout(layout), paper("A4"), "html", False))


@pytest.fixture(scope="module")
def window(chromium: Any) -> Iterator[Any]:
    page = chromium.new_page()
    yield page
    page.close()


@pytest.mark.parametrize("layout", layout_names())
def test_nothing_is_cut_in_narrow_windows_or_on_paper(window: Any, layout: str) -> None:
    """A short dance, an awkward one and a long one, one under the other."""
    window.set_content("".join(web_page(path, layout) for path in DANCES))
    letters = window.context.new_cdp_session(window)
    for media, size, wide in WINDOWS:
        window.emulate_media(media=media)
        letters.send("Page.setFontSizes", {"fontSizes": {"standard": size, "fixed": size}})
        window.set_viewport_size({"width": wide, "height": 800})
        assert window.evaluate(FAULTS) == [], (media, size, wide)
    window.emulate_media(media="screen")


def test_it_is_heard_as_a_table_and_grave_faults_are_none(window: Any) -> None:
    told = []
    for wide in (1000, 320):
        window.set_viewport_size({"width": wide, "height": 800})
        window.set_content(web_page(DANCES[1], "script"))
        told.append([(node["role"], node["name"]) for node in heard(window) if node["role"].endswith("header")])
    assert told[0] == told[1] and {("columnheader", "Lady"), ("rowheader", "12")} <= set(told[0])
    assert grave(window) == []


def test_it_prints_within_its_margins(window: Any, tmp_path: Path) -> None:
    """The printed file as poppler reads it: no word stands in the margins."""
    window.set_content(web_page(DANCES[1], "script"))
    file = tmp_path / "printed.pdf"
    window.pdf(path=file, format="A5")
    read = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
    words = [tuple(map(float, box)) for box in re.findall(
        r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)"', read)]
    wide, edge = A5 / 25.4 * 72, MARGIN / 25.4 * 72 - 1
    assert len(words) > 300 and min(box[0] for box in words) >= edge and max(box[2] for box in words) <= wide - edge
