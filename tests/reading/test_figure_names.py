"""Names of the figures of a folder: whole for everyone who asks, also while another thread looks through the files."""
from collections.abc import Iterator
from pathlib import Path

import pytest

from notation.reading import figures
from notation.reading.figures import FOLDER, FigureFolder


def test_whoever_asks_meanwhile_gets_all_names(monkeypatch: pytest.MonkeyPatch) -> None:
    folder, looked, answers = FigureFolder(FOLDER), figures._names, []

    def asked_meanwhile(path: Path) -> Iterator[str]:
        if not answers:
            answers.append(())
            answers[0] = folder.names()
        return looked(path)

    monkeypatch.setattr(figures, "_names", asked_meanwhile)
    assert folder.names() == answers[0] and "pas de valse" in folder.names()
    assert folder.named("pas de valse")
