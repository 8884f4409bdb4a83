"""The desk in a real browser: write, see a finding, mend it, see the page change, play a bar, save, download; the
server killed in the middle. Accessibility by axe-core (Deque), whose rules follow WCAG 2.2 A and AA."""
import shutil
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from desking import EXAMPLES, Desk, browser, desk

sync_api = pytest.importorskip("playwright.sync_api")
axe = pytest.importorskip("axe_playwright_python.sync_playwright")
pytestmark = pytest.mark.skipif(browser() is None, reason="no Chromium on this machine")
NAME = "ferry-lane-saunter.yaml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copy(EXAMPLES / NAME, tmp_path)
    return tmp_path


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    with sync_api.sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=browser(), args=["--no-sandbox"])
        yield made
        made.close()


def until(true: Callable[[], Any], page: Any) -> None:
    end = time.monotonic() + 20
    while not true():
        assert time.monotonic() < end, page.inner_text("body")[:600]
        page.wait_for_timeout(30)


def opened(chromium: Any, running: Desk, width: int = 1366) -> Any:
    page = chromium.new_context(viewport={"width": width, "height": 800}, accept_downloads=True).new_page()
    page.errors = []
    page.on("pageerror", lambda fault: page.errors.append(str(fault)))
    page.on("request", lambda one: page.errors.append(one.url) if not one.url.startswith(
        (f"http://127.0.0.1:{running.port}/", "blob:", "data:")) else None)
    page.goto(running.address)
    page.wait_for_selector("#pages img")
    return page


def keys(page: Any) -> list[str]:
    return page.eval_on_selector_all("#pages img", "all => all.map(one => one.dataset.key)")  # type: ignore[no-any-return]


def title(page: Any, words: str) -> None:
    """Type at the end of the title, on line 2."""
    page.click(".cm-content")
    page.keyboard.press("Control+Home")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("End")
    page.keyboard.type(words)


def grave(page: Any) -> list[str]:
    found = axe.Axe().run(page).response["violations"]
    heavy = [one for one in found if one["impact"] in ("serious", "critical")]
    return [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in heavy]


def test_write_mend_play_save_download(chromium: Any, folder: Path) -> None:
    with desk(folder) as running:
        page = opened(chromium, running)
        before = keys(page)
        title(page, " Again")
        until(lambda: keys(page) and keys(page) != before, page)
        assert grave(page) == []
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
        page.wait_for_timeout(1500)  # the floor of the mended text takes the place of the one before
        until(lambda: page.is_enabled("#play"), page)
        page.click("#play")
        until(lambda: "count" in page.inner_text("#count") and page.query_selector("#gent-body"), page)
        first = page.get_attribute("#gent-body", "style")
        until(lambda: page.get_attribute("#gent-body", "style") != first, page)
        assert grave(page) == []
        until(lambda: page.inner_text("#play") == "Play", page)
        page.click("#save")
        until(lambda: "Again" in (folder / NAME).read_text(), page)
        with page.expect_download() as download:
            page.click("#pdf")
        assert Path(download.value.path()).read_bytes().startswith(b"%PDF")
        assert page.errors == []


def test_nothing_is_lost_when_the_server_is_killed(chromium: Any, folder: Path) -> None:
    with desk(folder) as running:
        page, port, saved = opened(chromium, running), running.port, (folder / NAME).read_text()
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
        elsewhere = opened(chromium, again)
        until(lambda: "One Two" in elsewhere.inner_text(".cm-content"), elsewhere)
        assert (folder / NAME).read_text() == saved


def test_a_change_on_disk_is_shown(chromium: Any, folder: Path) -> None:
    with desk(folder) as running:
        page = opened(chromium, running)
        title(page, " Mine")
        theirs = (folder / NAME).read_text().replace("title: ", "title: Their ")
        (folder / NAME).write_text(theirs)
        page.keyboard.press("Control+s")
        page.wait_for_selector("#conflict[open]")
        assert "Mine" in page.inner_text("#differences") and "Their" in page.inner_text("#differences")
        assert grave(page) == [] and (folder / NAME).read_text() == theirs
        page.click("#keep-mine")
        until(lambda: "Mine" in (folder / NAME).read_text(), page)
        assert [one.read_text() for one in (folder / ".lodestep-desk").glob("*.yaml")] == [theirs]


@pytest.mark.parametrize("width", [640, 820], ids=["at twice the size", "tablet"])
def test_narrow_pages_need_no_sideways_scrolling(chromium: Any, folder: Path, width: int) -> None:
    with desk(folder) as running:
        page = opened(chromium, running, width)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        assert grave(page) == []
