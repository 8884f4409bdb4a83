"""Generated cases are the same in every run, so that a change is judged by what it changes;
one browser serves all tests.

`HYPOTHESIS_PROFILE=random python -m pytest` looks further afield; what it finds becomes an example.
"""
import os
from collections.abc import Iterator
from typing import Any

import pytest
from browsers import NOWHERE, browser
from hypothesis import settings

settings.register_profile("repeatable", derandomize=True)
settings.register_profile("random")
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "repeatable"))


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """One browser, and in it a room (its context) that most tests share. Where no browser is, they are skipped."""
    sync_api = pytest.importorskip("playwright.sync_api")
    pytest.importorskip("axe_playwright_python")
    if browser() is None:
        pytest.skip("no Chromium on this machine")
    with sync_api.sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=browser(), args=NOWHERE)
        made.playwright, made.shared = playwright, made.new_context(accept_downloads=True)
        yield made
        made.close()
