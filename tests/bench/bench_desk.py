"""From key press to new page on the desk, in a real browser. Run by hand: python tests/bench/bench_desk.py [TIMES]

The 32-bar example is open, three pages on A4. A letter is typed into the remark of the last step, and the time is
taken in the page itself, from the key to the moment when the browser has painted the new page. Beside it the processor
time of the server for each key, the search for the size of the type at rest included, and the bare canvas.
"""
from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
from pathlib import Path

from canvas import bare_canvas, processor_time
from playwright.sync_api import Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "desk"))
from browsers import browser
from desking import EXAMPLES, desk

NAME = "harbour-bell-waltz.yaml"
WATCH = """() => {
  window.times = []; window.began = 0;
  document.addEventListener("keydown", () => { window.began = performance.now(); }, true);
  const pages = document.querySelector("#pages");
  new MutationObserver(() => {
    if (!window.began) return;
    const began = window.began; window.began = 0;
    requestAnimationFrame(() => setTimeout(() => window.times.push(performance.now() - began)));
  }).observe(pages, { childList: true });
}"""


def measured(page: Page, times: int) -> list[float]:
    """Milliseconds from each key to its page."""
    page.evaluate("() => { window.times = window.times || []; window.times.length = 0; }")
    found: list[float] = []
    for number in range(times):
        page.keyboard.type("abcdefgh"[number % 8])
        for _ in range(400):
            page.wait_for_timeout(50)
            if page.evaluate("window.times.length") > number:
                break
        page.wait_for_timeout(900)
        found = page.evaluate("window.times")
    return found


def main(times: int) -> None:
    folder = Path(tempfile.mkdtemp())
    shutil.copy(EXAMPLES / NAME, folder)
    text = (folder / NAME).read_text().rstrip()
    (folder / NAME).write_text(f"{text} (x)")
    with desk(folder) as running, sync_playwright() as playwright:
        page = playwright.chromium.launch(executable_path=browser(), args=["--no-sandbox"]).new_page(
            viewport={"width": 1440, "height": 900})
        page.goto(f"{running.address}#{NAME}")
        page.wait_for_selector("#pages .page", timeout=30_000)
        page.wait_for_timeout(3000)
        page.evaluate(WATCH)
        page.click(".cm-content")
        page.keyboard.press("Control+End")
        page.keyboard.press("ArrowLeft")
        measured(page, 3)
        spent = processor_time(running.process.pid)
        found = sorted(measured(page, times))
        spent = (processor_time(running.process.pid) - spent) / times
        print(f"key press to page: median {statistics.median(found):.0f} ms, {found[0]:.0f} to {found[-1]:.0f}; "
              f"{spent:.0f} ms of the server's processor a key, the page at rest included")
        print(bare_canvas())


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
