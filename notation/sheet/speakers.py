"""A speaker for a language and the wording of a layout."""
from __future__ import annotations

from dataclasses import fields, replace
from functools import lru_cache

from notation.dance.knowledge import Knowledge
from notation.dance.words import Vocabulary, Word
from notation.layout import Phrases, Wording
from notation.sheet.wording import Speaker

Changed = tuple[tuple[str, str], ...]
"""Names and texts of phrases."""


def words_in(knowledge: Knowledge, language: str) -> Vocabulary:
    """The words of that language; those that dances are read with where there is none of its name."""
    return knowledge.languages.get(language, knowledge.vocabulary)


def speaker(
    vocabulary: Vocabulary,
    wording: Wording,
    changed: Changed = (),
    hold_column: bool = True,
    head_column: bool = True,
) -> Speaker:
    """A speaker with the words of one language. changed: phrases that the layout says otherwise. hold_column,
    head_column: whether the sheet has these columns."""
    words, names = _tables(vocabulary)
    phrases = printed_phrases(vocabulary, changed)
    wording = replace(wording, gent=wording.gent or phrases.gent, lady=wording.lady or phrases.lady)
    return Speaker(wording, phrases, words, names, hold_column, head_column)


@lru_cache(maxsize=8)
def _tables(vocabulary: Vocabulary) -> tuple[dict[tuple[str, str], Word], dict[tuple[str, str], str]]:
    """The words by name and kind, and what the tables are called."""
    return {(word.name, word.kind): word for word in vocabulary.words}, dict(vocabulary.names)


def printed_phrases(vocabulary: Vocabulary, changed: Changed = ()) -> Phrases:
    """The phrases of a language, with those that a layout says otherwise. KeyError where the language lacks one."""
    said = dict((*vocabulary.phrases, *changed))
    return Phrases(**{field.name: said[field.name.replace("_", " ").strip()] for field in fields(Phrases)})
