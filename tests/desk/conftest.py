"""A folder, a desk and a dance for the tests of the desk."""
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from desking import EXAMPLES, NAME, Desk, desk


@pytest.fixture(autouse=True)
def left_tidy(request: pytest.FixtureRequest) -> Iterator[None]:
    """Pages that a test opened end with it."""
    yield
    if "chromium" in request.fixturenames:
        made = request.getfixturevalue("chromium")
        for page in made.shared.pages:
            page.close()
        for context in made.contexts:
            if context is not made.shared:
                context.close()


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
