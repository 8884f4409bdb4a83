"""What the tests do with a browser that looks at a desk."""
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from browsers import browser
from desking import Desk


def until(true: Callable[[], Any], page: Any) -> None:
    end = time.monotonic() + 20
    while not true():
        assert time.monotonic() < end, page.inner_text("body")[:600]
        page.wait_for_timeout(30)


def watched(page: Any, running: Desk) -> Any:
    """The page, with a list of its faults: what scripts throw, what the policy forbids, what is asked of others.

    Chromium itself puts a style on letters typed in place of coloured ones; the policy forbids it, to no harm.
    """
    def forbidden(said: Any) -> None:
        if "Content Security" in said.text and "inline style" not in said.text:
            page.errors.append(said.text)

    page.errors = []
    page.on("pageerror", lambda fault: page.errors.append(str(fault)))
    page.on("console", forbidden)
    page.on("request", lambda one: page.errors.append(one.url) if not one.url.startswith(
        (f"http://127.0.0.1:{running.port}/", f"blob:http://127.0.0.1:{running.port}/", "data:")) else None)
    return page


def opened(context: Any, running: Desk, width: int = 1366, height: int = 800, dance: str = "") -> Any:
    """A page of the desk, when its first sheet and floor are there."""
    page = watched(context.new_page(), running)
    page.set_viewport_size({"width": width, "height": height})
    page.goto(running.address + (f"#{dance}" if dance else ""))
    page.wait_for_selector("#pages .page")
    page.wait_for_selector("#stage img")
    return page


def floors_of(page: Any) -> list[str]:
    """Fills with the texts of which the floor has come."""
    texts: list[str] = []
    page.on("requestfinished", lambda one: texts.append(one.post_data_json["text"]) if "/do/floor" in one.url else None)
    return texts


def floor_stands(page: Any, floors: list[str], text: str) -> None:
    """Wait until the floor is that of the text: when it comes it ends what is played or counted."""
    until(lambda: floors[-1:] == [text], page)
    page.evaluate("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")


def keys(page: Any) -> list[str]:
    return page.eval_on_selector_all("#pages .page", "all => all.map(one => one.dataset.key)")  # type: ignore[no-any-return]


def written(page: Any) -> str:
    """The text in the editor; its lines must all be in view, as those of short dances are in a tall window."""
    lines = page.eval_on_selector_all(".cm-line", "all => all.map(one => one.textContent)")
    return "\n".join(lines)


def title(page: Any, words: str) -> None:
    """Type at the end of the title, on line 2."""
    page.click(".cm-content")
    page.keyboard.press("Control+Home")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("End")
    page.keyboard.type(words)


@contextmanager
def crashing_browser(playwright: Any, profile: Path) -> Iterator[tuple[Any, Callable[[], None]]]:
    """A browser in a process of its own, and what kills it."""
    words = [str(browser()), "--headless=new", "--no-sandbox", "--remote-debugging-port=0"]
    words += [f"--user-data-dir={profile}", "about:blank"]
    process = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

    def crash() -> None:
        process.kill()
        process.wait()

    try:
        told = profile / "DevToolsActivePort"
        end = time.monotonic() + 20
        while not (told.exists() and told.read_text().count("\n")):
            assert time.monotonic() < end, "the browser does not start"
            time.sleep(0.05)
        yield playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{told.read_text().split()[0]}"), crash
    finally:
        crash()
