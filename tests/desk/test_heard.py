"""What a screen reader is told: the accessibility tree as Chromium hands it on (CDP, Accessibility.getFullAXTree).
WCAG 2.2, 1.1.1 (alternatives), 1.3.1 (headings, tables), 2.4.1 (skips), 4.1.2 (name, role), 4.1.3 (status messages)."""
import json
import re
from pathlib import Path
from typing import Any

from browsers import heard
from browsing import floor_stands, floors_of, opened, title, until
from desking import Desk

OPERATED = ("button", "link", "textbox", "searchbox", "combobox", "checkbox", "DisclosureTriangle", "option")
LANDMARKS = {("banner", ""), ("main", ""), ("navigation", "Skip to"), ("region", "Dances"), ("region", "Dance file"),
             ("region", "Findings"), ("region", "Sheet"), ("region", "Floor")}
CONTROLS = {
    ("button", "Save"), ("button", "Download PDF"), ("searchbox", "Find"), ("DisclosureTriangle", "New dance"),
    ("textbox", "Dance file"), ("combobox", "Layout"), ("combobox", "Paper"), ("combobox", "Held"),
    ("DisclosureTriangle", "The sheet in words"), ("button", "Bar before"), ("button", "Next bar"), ("button", "Play"),
    ("button", "Count back"), ("button", "Count on"), ("combobox", "Pace"),
}


def pairs(page: Any) -> set[tuple[str, str]]:
    return {(node["role"], node["name"]) for node in heard(page)}


def spoken(page: Any, words: str) -> None:
    """Wait until a region that is read out says so."""
    def said() -> bool:
        regions = page.eval_on_selector_all("[role=status], [role=alert]", "all => all.map(one => one.textContent)")
        return any(words in region for region in regions)

    until(said, page)


def test_controls_headings_and_pictures_have_names(chromium: Any, running: Desk, dance: Path) -> None:
    page = opened(chromium.shared, running, dance=dance.name)
    page.click("text=New dance")
    nodes = heard(page)
    assert pairs(page) >= LANDMARKS | CONTROLS
    assert [node for node in nodes if node["role"] in OPERATED and not node["name"].strip()] == []
    levels = [node["level"] for node in nodes if node["role"] == "heading"]
    assert levels.count(1) == 1 and all(two - one <= 1 for one, two in zip(levels, levels[1:], strict=False))
    assert ("heading", "Ferry Lane Saunter") in pairs(page)
    pictures = [node["name"] for node in nodes if node["role"] == "image"]
    assert "Page 1 of 1: Ferry Lane Saunter" in pictures
    assert any("gent's left foot forward" in name and "lady's right foot back" in name for name in pictures)
    current = page.eval_on_selector_all("#dances [aria-current=true]", "all => all.map(one => one.dataset.name)")
    assert current == [dance.name]
    for live in ("state", "spoken", "count", "unset"):
        assert page.get_attribute(f"#{live}", "role") == "status"


def test_what_happens_is_spoken(chromium: Any, running: Desk, dance: Path) -> None:
    page = opened(chromium.shared, running, dance=dance.name)
    floors = floors_of(page)
    spoken(page, f"Opened {dance.name}")
    spoken(page, "Nothing found")
    title(page, "\nrythm: waltz")
    spoken(page, "Not saved")
    spoken(page, "1 found, 1 of them an error. line 3")
    page.keyboard.press("Control+Home")
    page.keyboard.press("F8")
    spoken(page, "Line 3: ")
    page.click("#found .place")
    spoken(page, "Line 3: rythm: waltz")
    page.keyboard.press("Control+z")
    spoken(page, "Findings: Nothing found")
    floor_stands(page, floors, dance.read_text())
    page.click("#count-on")
    page.click("#count-on")
    spoken(page, "Bar 1, count S: gent LF forward; lady RF back")
    page.fill("#seek", "zzz")
    spoken(page, "0 dances")
    page.focus(".cm-content")
    page.keyboard.press("Control+End")
    page.keyboard.type("\n  - bars: 17\n    hold: dou")
    page.wait_for_selector(".cm-tooltip-autocomplete li[aria-selected]")
    assert ("option", "double") in pairs(page) and page.get_attribute(".cm-content", "aria-activedescendant")


def test_the_sheet_is_read_in_words(chromium: Any, running: Desk, dance: Path) -> None:
    """Every step of the page, under headings and in a table with header cells, whatever the letters of its picture."""
    page = opened(chromium.shared, running, dance=dance.name)
    said = {"name": dance.name, "text": dance.read_text()}
    page.click("text=The sheet in words")
    page.wait_for_selector("#in-words table")
    told = pairs(page)
    assert {("columnheader", word) for word in ("Bar", "Count", "Gent", "Lady", "Hold", "Head")} <= told
    assert {("rowheader", str(bar)) for bar in (1, 8, 13, 16)} <= told
    assert {("heading", "Two walks and a chasse"), ("heading", "Left square turn")} <= told
    counts = page.eval_on_selector_all("#in-words td.count", "all => all.map(one => one.textContent)")
    assert [count for count in counts if count] == re.findall(r"^ +([SQ])  [LR]F ", said["text"], re.MULTILINE)
    assert "RF bk, backing LOD, T" in page.inner_text("#in-words table").replace("\xa0", " ")
    assert not page.is_visible("#pages") and page.evaluate("document.querySelectorAll('h1').length") == 1
    title(page, " <script>alert(1)</script>")
    until(lambda: "<script>alert(1)</script>" in page.inner_text("#in-words h3"), page)
    assert page.query_selector("#in-words script") is None and page.errors == []
    answer = running.ask("words-of-sheet", {**said, "text": "title: x\n"})
    assert answer[0] == 422 and "mend the errors" in json.dumps(answer[1])
