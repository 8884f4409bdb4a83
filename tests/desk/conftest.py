"""A browser and a folder for the tests of the desk; where no browser is, the tests that need one are skipped."""
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from browsing import NOWHERE
from desking import EXAMPLES, NAME, browser


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copy(EXAMPLES / NAME, tmp_path)
    return tmp_path


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    sync_api = pytest.importorskip("playwright.sync_api")
    pytest.importorskip("axe_playwright_python")
    if browser() is None:
        pytest.skip("no Chromium on this machine")
    with sync_api.sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=browser(), args=NOWHERE)
        made.playwright = playwright
        yield made
        made.close()
