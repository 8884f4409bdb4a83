"""All that is known beforehand, read once in a process."""
from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from notation.dance.knowledge import Knowledge
from notation.reading.figures import FigureShelves, figures_beside, installed_figures
from notation.reading.languages import Languages
from notation.reading.positions import load_holds, load_positions
from notation.reading.rhythms import load_rhythms
from notation.reading.words import load_vocabulary


@cache
def load_knowledge(language: str = "en") -> Knowledge:
    """Vocabulary, rhythms, positions, holds, figures. Raises KeyError for a language without words."""
    figures = FigureShelves((installed_figures(language),))
    return Knowledge(load_vocabulary(language), load_rhythms(), load_positions(), load_holds(), figures, Languages())


def knowledge_beside(folder: Path, language: str = "en") -> Knowledge:
    """The same, with the writer's own figures in the folder `figures` of that folder before those of the library."""
    return replace(load_knowledge(language), figures=figures_beside(folder, language))
