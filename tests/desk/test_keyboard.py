"""The desk by keyboard alone: nothing is clicked here. WCAG 2.2, 2.1.1 (all by keyboard), 2.1.2 (no trap), 2.4.7 and
2.4.11 (the focus is seen)."""
from pathlib import Path
from typing import Any

from browsing import keys, opened, until, written
from desking import Desk, desk

A5_WIDTH = 420
"""148 mm (ISO 216) in points."""
FOCUSED = """(goal) => {
  const one = document.activeElement, box = one.getBoundingClientRect(), ring = getComputedStyle(one);
  const editor = one.closest('#editor') && getComputedStyle(document.getElementById('editor'), '::after');
  const seen = ring.outlineStyle !== 'none' && parseFloat(ring.outlineWidth) >= 2
    || editor && editor.content !== 'none' && parseFloat(editor.borderTopWidth) >= 2;
  const inside = box.right > 0 && box.bottom > 0 && box.left < innerWidth && box.top < innerHeight;
  return {name: one.id || one.className || one.textContent.trim(), words: one.textContent, seen: seen && inside,
          tag: one.tagName, there: goal && one.matches(goal)};
}"""


def focused(page: Any, goal: str = "") -> dict[str, Any]:
    """What has the focus, whether that is seen, and whether it is the goal."""
    return page.evaluate(FOCUSED, goal)  # type: ignore[no-any-return]


def tab_to(page: Any, goal: str, back: bool = False) -> None:
    """Press Tab until the goal has the focus; at each stop on the way the focus must be seen."""
    for _ in range(60):
        page.keyboard.press("Shift+Tab" if back else "Tab")
        stop = focused(page, goal)
        assert stop["tag"] == "BODY" or stop["seen"], stop
        if stop["there"]:
            return
    raise AssertionError(f"{goal} is not reached")


def line(page: Any, number: int) -> None:
    """The cursor to the end of a line."""
    page.keyboard.press("Control+Home")
    for _ in range(number - 1):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("End")


def test_write_mend_and_save_by_keys(chromium: Any, running: Desk, dance: Path) -> None:
    page = opened(chromium.shared, running, height=1600, dance="tinsmiths-two-step.yaml")
    tab_to(page, f"#dances [data-name='{dance.name}']")
    page.keyboard.press("Enter")
    until(lambda: page.inner_text("#heading") == "Ferry Lane Saunter", page)
    tab_to(page, ".cm-content")
    page.keyboard.press("Tab")
    assert not page.evaluate("document.activeElement.closest('.cm-content')")
    tab_to(page, ".cm-content", back=True)
    line(page, 20)
    for _ in ", facing LOD, H":
        page.keyboard.press("Backspace")
    page.keyboard.type("rd")  # 'fwdrd'
    until(lambda: "fwdrd" in page.inner_text("#found"), page)
    line(page, 1)
    page.keyboard.press("F8")
    page.keyboard.type("x")
    until(lambda: "LF xfwdrd" in written(page), page)
    page.keyboard.press("Backspace")
    until(lambda: page.is_visible("#found li button:not(.place)"), page)
    tab_to(page, "#found .place")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.closest('.cm-content') !== null")
    tab_to(page, "#found li button:not(.place)")
    page.keyboard.press("Enter")
    until(lambda: "S  LF fwd\n" in written(page), page)
    tab_to(page, "#save", back=True)
    page.keyboard.press("Enter")
    until(lambda: "S  LF fwd\n" in dance.read_text(), page)
    assert focused(page)["name"] == "save"
    tab_to(page, "#pdf")
    with page.expect_download() as download:
        page.keyboard.press("Enter")
    assert Path(download.value.path()).read_bytes().startswith(b"%PDF") and page.errors == []


def test_skips_sheet_and_floor_by_keys(chromium: Any, running: Desk, dance: Path) -> None:
    page = opened(chromium.shared, running, dance=dance.name)
    for link, goal in enumerate((".cm-content", "#findings", "#sheet", "#floor"), 1):
        page.focus(f".skips a:nth-child({link})")
        page.keyboard.press("Enter")
        assert page.evaluate("goal => document.activeElement.matches(goal)", goal)
    assert page.url.endswith(f"#{dance.name}")
    before = keys(page)
    tab_to(page, "#layout")
    page.keyboard.type("large")
    until(lambda: len(keys(page)) > len(before), page)
    tab_to(page, "#paper")
    page.keyboard.type("A5")
    width = "Math.round(document.querySelector('#pages .page svg').viewBox.baseVal.width)"
    until(lambda: page.evaluate(width) == A5_WIDTH, page)
    tab_to(page, "summary:not(#shelf *)")
    page.keyboard.press("Enter")
    page.wait_for_selector("#in-words table")
    tab_to(page, "#bar-on")
    for _ in range(16):
        page.keyboard.press("Enter")
    until(lambda: "Bar 16" in page.inner_text("#count"), page)
    assert focused(page)["name"] == "bar-on" and not page.is_enabled("#bar-on")
    tab_to(page, "#count-on")
    page.keyboard.press("Space")
    until(lambda: "before the bar" in page.inner_text("#count"), page)
    page.keyboard.press("Space")
    assert "count S" in page.inner_text("#count")
    tab_to(page, "#play", back=True)
    page.keyboard.press("Enter")
    until(lambda: page.inner_text("#play") == "Stop", page)
    page.keyboard.press("Enter")
    assert page.inner_text("#play") == "Play" and page.errors == []


COMPLETED = [
    (5, "rhythm: ", "fox", "rhythm: foxtrot"),
    (7, "", "leng", "length: "),
    (13, "  hold: ", "doub", "  hold: double"),
    (18, "    figure: ", "pas de v", "    figure: pas de valse"),
    (19, "    gent: ", "natural tur", "    gent: natural turn"),
    (19, "    gent: natural turn, ", "twi", "    gent: natural turn, twice"),
    (20, "      S  ", "LF cross in", "      S  LF cross in front"),
    (25, "    lady: ", "oppo", "    lady: opposite"),
]


def test_words_figures_holds_and_rhythms_are_completed(chromium: Any, running: Desk, dance: Path) -> None:
    """Words as `lodestep terms` lists them and figures of the library; Enter takes the first that is offered."""
    page = opened(chromium.shared, running, dance=dance.name, height=1600)
    page.focus(".cm-content")
    page.keyboard.press("Control+Home")
    at = 1
    for number, before, typed, wanted in COMPLETED:
        for _ in range(number - at):
            page.keyboard.press("ArrowDown")
        at = number
        page.keyboard.press("End")
        page.keyboard.press("Shift+Home")
        page.keyboard.press("Shift+Home")
        page.keyboard.insert_text(before + typed[:-1])
        page.keyboard.type(typed[-1])
        page.wait_for_selector(".cm-tooltip-autocomplete li[aria-selected]", timeout=5000)
        offered = page.eval_on_selector_all(".cm-completionLabel", "all => all.map(one => one.textContent)")
        page.wait_for_timeout(80)  # a list takes no Enter in its first 75 ms
        page.keyboard.press("Enter")
        assert written(page).split("\n")[number - 1] == wanted, offered
        page.keyboard.press("Control+z")
    assert page.errors == []


def test_a_dance_is_begun(chromium: Any, tmp_path: Path) -> None:
    """In an empty folder; nothing can be typed where it would not be kept."""
    with desk(tmp_path) as running:
        page = chromium.shared.new_page()
        page.goto(running.address)
        until(lambda: focused(page)["name"] == "new-title", page)
        assert page.evaluate("document.querySelector('.cm-content').getAttribute('aria-readonly')") == "true"
        page.keyboard.type("Harbour Lights")
        tab_to(page, "#new-rhythm")
        page.keyboard.type("waltz")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        until(lambda: page.inner_text("#heading") == "Harbour Lights", page)
        assert "title: Harbour Lights" in (tmp_path / "harbour-lights.yaml").read_text()
        until(lambda: page.inner_text("#tally") == "Nothing found", page)
        page.keyboard.type("# mine\n")
        until(lambda: "# mine" in written(page), page)
        tab_to(page, "#new-title", back=True)
        page.keyboard.type("Harbour Lights")
        page.keyboard.press("Enter")
        until(lambda: "exists already" in page.inner_text("#notice"), page)
        assert "# mine" not in (tmp_path / "harbour-lights.yaml").read_text()


def test_the_conflict_is_left_by_keys(chromium: Any, running: Desk, dance: Path) -> None:
    page = opened(chromium.shared, running, dance=dance.name)
    page.focus(".cm-content")
    page.keyboard.type("# mine\n")
    dance.write_text(dance.read_text() + "# theirs\n")
    page.keyboard.press("Control+s")
    page.wait_for_selector("#conflict[open]")
    tab_to(page, "#decide-later")
    page.keyboard.press("Escape")
    until(lambda: not page.is_visible("#conflict"), page)
    assert page.evaluate("document.activeElement.closest('.cm-content') !== null")
    assert "# mine" in written(page) and "# mine" not in dance.read_text()
