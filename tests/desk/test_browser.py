"""The desk in a real browser: write, see a finding, mend it, see the page change, play a bar, save, download; the
server or the browser killed in the middle; a file that was changed on disk. Accessibility by axe-core (Deque), whose
rules follow WCAG 2.2 A and AA."""
import shutil
from pathlib import Path
from typing import Any

from browsers import grave
from browsing import crashing_browser, floor_stands, floors_of, keys, opened, title, until, written
from desking import EXAMPLES, NAME, Desk, desk

from notation.cli.ordering import make_order
from notation.cli.report import Report
from notation.cli.setting import faces
from notation.cli.sources import load
from notation.page.frame import Document, PlacedText
from notation.reading.knowledge import load_knowledge
from notation.sheet import set_sheet

TITLE = "Ferry Lane Saunter"
WATCHED = """() => {
  window.places = new Set();
  const look = () => { const body = document.getElementById('gent-body'); if (body) places.add(body.style.transform); };
  const all = {subtree: true, childList: true, attributes: true};
  new MutationObserver(look).observe(document.getElementById('stage'), all);
}"""
"""Keeps each place to which the gent is moved from now on, however late it is asked for."""


def test_write_mend_play_save_download(chromium: Any, running: Desk, dance: Path) -> None:
    mended = dance.read_text().replace(TITLE, f"{TITLE} Again")
    page = opened(chromium.shared, running, dance=dance.name)
    floors, before = floors_of(page), keys(page)
    title(page, " Again")
    until(lambda: keys(page) and keys(page) != before, page)
    page.keyboard.press("ArrowDown")
    page.keyboard.press("End")
    page.keyboard.type("\nnonsense: 1")
    until(lambda: "nonsense" in page.inner_text("#found"), page)
    assert grave(page) == []
    page.keyboard.press("Home")
    page.keyboard.press("Shift+End")
    page.keyboard.press("Delete")
    page.keyboard.press("Backspace")
    until(lambda: "nonsense" not in page.inner_text("#found"), page)
    floor_stands(page, floors, mended)
    page.evaluate(WATCHED)
    page.select_option("#pace", "brisk")
    page.click("#play")
    until(lambda: "count" in page.inner_text("#count") and page.query_selector("#gent-body"), page)
    until(lambda: page.evaluate("places.size") > 1, page)
    assert grave(page) == []
    until(lambda: page.inner_text("#play") == "Play", page)
    page.click("#save")
    until(lambda: "Again" in dance.read_text(), page)
    with page.expect_download() as download:
        page.click("#pdf")
    assert Path(download.value.path()).read_bytes().startswith(b"%PDF")
    assert page.errors == []


def test_nothing_is_lost_when_the_server_is_killed(chromium: Any, tmp_path: Path) -> None:
    folder = Path(shutil.copy(EXAMPLES / NAME, tmp_path)).parent
    with desk(folder) as running:
        page, port, saved = opened(chromium.new_context(), running), running.port, (folder / NAME).read_text()
        title(page, " One")
        until(lambda: list((folder / ".lodestep-desk").glob("*.draft.json")), page)
        running.kill()
        page.keyboard.type(" Two")
        until(lambda: "does not answer" in page.inner_text("#state"), page)
    with desk(folder, port) as again:
        other = page.context.new_page()
        other.goto(again.address)
        until(lambda: "One Two" in other.inner_text(".cm-content"), other)
        assert "not saved are back" in other.inner_text("#notice")
        assert grave(other) == []
        until(lambda: "does not answer" not in page.inner_text("#state"), page)
        elsewhere = opened(chromium.new_context(), again)
        until(lambda: "One Two" in elsewhere.inner_text(".cm-content"), elsewhere)
        assert (folder / NAME).read_text() == saved


def test_a_change_on_disk_is_shown(chromium: Any, running: Desk, dance: Path) -> None:
    page = opened(chromium.shared, running, height=2400, dance=dance.name)
    title(page, " Mine")
    theirs = dance.read_text().replace("title: ", "title: Their ")
    dance.write_text(theirs)
    page.keyboard.press("Control+s")
    page.wait_for_selector("#conflict[open]")
    assert page.inner_text("#differences").startswith("From line 1:")
    assert "Mine" in page.inner_text("#differences") and "Their" in page.inner_text("#differences")
    assert grave(page) == [] and dance.read_text() == theirs
    page.click("#keep-mine")
    until(lambda: "Mine" in dance.read_text(), page)
    assert [one.read_text() for one in (running.folder / ".lodestep-desk").glob(f"{dance.stem}-*.yaml")] == [theirs]
    title(page, " Once more")
    mine, theirs = written(page), theirs.replace("Their", "Another's")
    dance.write_text(theirs)
    page.keyboard.press("Control+s")
    page.wait_for_selector("#conflict[open]")
    page.click("#take-file")
    until(lambda: written(page) == theirs, page)
    assert mine in [one.read_text() for one in (running.folder / ".lodestep-desk").glob(f"{dance.stem}-*.yaml")]
    assert dance.read_text() == theirs and page.errors == []


def test_nothing_is_lost_when_the_browser_is_killed(chromium: Any, running: Desk, dance: Path, tmp_path: Path) -> None:
    """The browser's process is killed while she types without a pause; another one, that knows nothing, opens the desk.

    Letters of the last half second may be lost, not more: drafts go to the folder while she types.
    """
    with crashing_browser(chromium.playwright, tmp_path) as (other, crash):
        page = opened(other.new_context(), running, dance=dance.name)
        title(page, " ")
        for letter in "abcdefghijkl":
            page.keyboard.type(letter)
            page.wait_for_timeout(60)
        crash()
    again = opened(chromium.new_context(), running, height=2400, dance=dance.name)
    until(lambda: "not saved are back" in again.inner_text("#notice"), again)
    assert " abcdef" in written(again) and dance.read_text() != written(again)


def set_example(path: Path) -> Document:
    """The standard sheet, as the command sets it."""
    worked, order = load(str(path)).worked, make_order("script", None, None, "pdf", False)
    assert worked is not None and not isinstance(order, Report)
    return set_sheet(worked, load_knowledge(), order.layout, order.paper, faces())


def run_length(item: PlacedText) -> float:
    """Points from where a text begins to the end of its last letter."""
    widths = [faces().face(item.face).advances[letter] for letter in item.text]
    return (sum(widths) + sum(item.adjust[: len(widths) - 1])) * item.size / 1000


def test_words_on_the_desk_stand_where_they_are_printed(chromium: Any, running: Desk, dance: Path) -> None:
    """Each stretch of letters is as long in the browser, with the same faces, as it was measured for paper: to half a
    point over a whole line (0.37 was seen over 280 points), where a letter is five points wide."""
    document = set_example(dance)
    measured = [(item.text, item.x + run_length(item)) for page in document.pages for item in page.items
                if isinstance(item, PlacedText) and item.text.strip()]
    page = opened(chromium.shared, running, dance=dance.name)
    page.evaluate("document.fonts.ready")
    page.eval_on_selector_all("#pages .page", "all => all.map(one => one.style.contentVisibility = 'visible')")
    shown = page.eval_on_selector_all("#pages text", """all => all.map(one =>
        [one.textContent, one.getEndPositionOfChar(one.getNumberOfChars() - 1).x])""")
    assert [words for words, _ in shown] == [words for words, _ in measured]
    assert max(abs(end - other) for (_, end), (_, other) in zip(shown, measured, strict=True)) < 0.5
