"""The desk in small windows, under fingers, without motion and in colours of the system's choice. WCAG 2.2: 1.4.4 and
1.4.10 (twice the size; 320 CSS pixels without scrolling sideways), 2.5.8 (targets of 24 by 24 CSS pixels), 1.4.11;
`prefers-reduced-motion` and `forced-colors` of CSS Media Queries 5 (W3C)."""
import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from browsers import grave
from browsing import opened, until
from desking import Desk

WINDOWS = {"wide": (1280, 800), "tablet": (810, 1080), "tablet lying": (1024, 768), "twice the size": (640, 400),
           "four times the size": (320, 256)}
AFLOAT = """() => [...document.querySelectorAll('button, input, select, summary, #editor, #pages, #found li')]
  .filter(one => one.checkVisibility()).map(one => {
    one.scrollIntoView({block: 'nearest'});
    const box = one.getBoundingClientRect(), style = getComputedStyle(one);
    const x = box.left + box.width / 2, y = box.top + Math.min(box.height, innerHeight - box.top) / 2;
    const hit = document.elementFromPoint(x, y);
    const whole = box.left >= 0 && box.right <= innerWidth + .5;
    return {name: one.id || one.name || one.textContent.slice(0, 30), wide: box.width, high: box.height, whole,
            hit: Boolean(hit) && one.contains(hit)};
  })"""
"""Of everything that is operated and to be seen, once scrolled to: its size, and whether it is whole and uncovered."""


def faults(page: Any) -> list[Any]:
    """What is too small for a finger, cut off, covered, or wider than the window."""
    found = page.evaluate(AFLOAT)
    assert len(found) > 20
    page.evaluate("scrollTo(0, 0)")
    wide = page.evaluate("document.documentElement.scrollWidth > innerWidth")
    small = [one for one in found if one["wide"] < 24 or one["high"] < 24 or not one["whole"] or not one["hit"]]
    return [*small, *(["the page scrolls sideways"] if wide else [])]


def whole_in(windows: Iterable[str], page: Any) -> None:
    for name in windows:
        width, height = WINDOWS[name]
        page.set_viewport_size({"width": width, "height": height})
        assert faults(page) == [], name
    assert grave(page) == []


def test_nothing_is_lost_in_small_windows(chromium: Any, running: Desk, dance: Path) -> None:
    """With all open at once: a finding and what mends it, a notice, the search, a new dance, the sheet in words."""
    page = opened(chromium.new_context(has_touch=True), running, dance=dance.name)
    page.tap("text=New dance")
    page.fill("#new-title", "Tinsmiths Two-Step")
    page.tap("text=Begin it")
    page.wait_for_selector("#notice:not([hidden])")
    page.focus(".cm-content")
    page.keyboard.press("Control+Home")
    page.keyboard.insert_text("tempos: 28\n")
    page.keyboard.press("Control+f")
    page.wait_for_selector("#found li button:not(.place)")
    whole_in(WINDOWS, page)
    page.tap("#found li button:not(.place)")
    page.keyboard.press("Control+z")
    page.keyboard.press("Control+z")
    page.evaluate("document.querySelector('#reading').open = true")
    page.wait_for_selector("#in-words table")
    whole_in(("wide", "four times the size"), page)
    page.tap("#count-on")
    until(lambda: "before the bar" in page.inner_text("#count"), page)
    assert page.errors == []


MOVING = """async () => {
  const seen = new Set(), end = performance.now() + 20000, play = document.getElementById('play');
  while (play.textContent === 'Stop' && performance.now() < end) {
    const body = document.getElementById('gent-body');
    if (body) seen.add(getComputedStyle(body).transform);
    await new Promise(requestAnimationFrame);
  }
  return seen.size;
}"""
"""At how many places the gent is seen from one frame to the next, until the bar is danced."""


def test_dancers_step_without_gliding_where_motion_is_not_wanted(chromium: Any, running: Desk, dance: Path) -> None:
    page, places = opened(chromium.shared, running, dance=dance.name), {}
    page.select_option("#pace", "brisk")
    for motion in ("reduce", "no-preference"):
        page.emulate_media(reduced_motion=motion)
        page.click("#play")
        places[motion] = page.evaluate(MOVING)
    assert 2 <= places["reduce"] <= 3 and places["no-preference"] > 6  # the bar's two steps, and where it begins


COLOURS = """(goal) => { const style = getComputedStyle(document.querySelector(goal));
  return [style.color, style.backgroundColor, style.outlineColor, style.outlineStyle]; }"""


def hue(colour: str) -> list[str]:
    """Red, green, blue; of a background that lets all through, those of the window."""
    return re.findall(r"\d+", colour)[:3]


def test_chosen_things_are_told_apart_in_forced_colours(chromium: Any, running: Desk, dance: Path) -> None:
    """And where dark colours are preferred the desk keeps its paper and ink, which axe-core finds legible."""
    page = opened(chromium.shared, running, dance=dance.name)
    page.emulate_media(color_scheme="dark")
    assert grave(page) == []
    page.focus(".cm-content")
    page.keyboard.press("Control+Home")
    page.keyboard.press("Control+Space")
    page.wait_for_selector(".cm-tooltip-autocomplete li[aria-selected]")
    for scheme in ("light", "dark"):
        page.emulate_media(forced_colors="active", color_scheme=scheme)
        chosen = page.evaluate(COLOURS, ".cm-tooltip-autocomplete li[aria-selected]")
        other = page.evaluate(COLOURS, ".cm-tooltip-autocomplete li:not([aria-selected])")
        assert hue(chosen[1]) != hue(other[1]) and hue(chosen[0]) != hue(chosen[1])
        assert page.evaluate(COLOURS, "#dances [aria-current]")[3] == "solid"
        assert page.evaluate(COLOURS, "#save")[0] != page.evaluate(COLOURS, "#pdf")[0]
    page.click("#count-on")
    assert page.evaluate(COLOURS, "#stage svg")[1] == "rgb(255, 254, 251)"
    assert page.evaluate("getComputedStyle(document.querySelector('#gent-body path')).fill") == "rgb(28, 26, 23)"
