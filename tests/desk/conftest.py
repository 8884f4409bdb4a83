"""A browser and a folder for the tests of the desk; where no browser is, the tests that need one are skipped."""
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from browsing import NOWHERE
from desking import EXAMPLES, NAME, Desk, browser, desk


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


@pytest.fixture(scope="session")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """One desk for all tests that leave it running; each has a dance of its own there."""
    folder = tmp_path_factory.mktemp("dances")
    shutil.copy(EXAMPLES / "tinsmiths-two-step.yaml", folder)
    with desk(folder) as made:
        yield made


@pytest.fixture
def dance(running: Desk, request: pytest.FixtureRequest) -> Path:
    """A sixteen-bar saunter in a file of this test's name."""
    return Path(shutil.copy(EXAMPLES / NAME, running.folder / f"{request.node.name}.yaml"))
