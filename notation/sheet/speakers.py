"""A speaker for a language and the wording of a layout."""
from __future__ import annotations

from dataclasses import fields, replace

from notation.dance.knowledge import Knowledge
from notation.dance.words import Vocabulary
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
    words = {(word.name, word.kind): word for word in vocabulary.words}
    phrases = printed_phrases(vocabulary, changed)
    wording = replace(wording, gent=wording.gent or phrases.gent, lady=wording.lady or phrases.lady)
    return Speaker(wording, phrases, words, dict(vocabulary.names), hold_column, head_column)


def printed_phrases(vocabulary: Vocabulary, changed: Changed = ()) -> Phrases:
    """The phrases of a language, with those that a layout says otherwise. KeyError where the language lacks one."""
    said = dict((*vocabulary.phrases, *changed))
    return Phrases(**{field.name: said[field.name.replace("_", " ").strip()] for field in fields(Phrases)})
