"""Steps of library figures in shorthand and in words, without a sheet around them."""
from __future__ import annotations

from functools import cache

from notation.dance.step import Step
from notation.dance.words import Vocabulary
from notation.layout import Wording
from notation.sheet.speakers import speaker
from notation.sheet.wording import Speaker


@cache
def figure_speaker(vocabulary: Vocabulary, shorthand: bool) -> Speaker:
    """A speaker that says heads and holds among the words of a step."""
    return speaker(vocabulary, Wording(shorthand=shorthand), hold_column=False, head_column=False)


def step_words(step: Step, vocabulary: Vocabulary, shorthand: bool = True) -> str:
    """The step in one line."""
    return figure_speaker(vocabulary, shorthand).step(step)
