"""Sheets in another language than the dance is written in: nothing of the first language is left on them."""
from __future__ import annotations

import dataclasses
import re
from dataclasses import replace
from functools import cache

import pytest

from notation.dance.floor import dance_floor
from notation.dance.words import Vocabulary
from notation.layout import Layout, Phrases
from notation.page.hyphenate import syllables
from notation.page.units import paper
from notation.reading.layout import layout_names, load_layout, read_layout
from notation.reading.words import FILES, load_vocabulary
from notation.sheet import set_sheet, sheet_metadata
from notation.sheet.floor import passage_figures
from notation.sheet.html import story_html
from notation.sheet.script import script_story, sheet_speaker
from notation.sheet.text import story_text
from tests.sheet.paged import DANCE
from tests.sheet.setting import Faces, dance, knowledge, passage, printed_words, worked

UNPRINTED = {"amount", "change", "derivation", "foot-after"}
"""Kinds of words that are only read, or that a language needs for its grammar."""
WITH_TITLES = {("chart", "sources"), ("chart", "turned out note")}
"""Texts of pages that name English books."""
LETTERS = re.compile(r"[^\W\d_]+")
OTHERS = [language for language in FILES if language != "en"]



@cache
def tokens_of(language: str) -> frozenset[str]:
    """The words that the tables of a language print, in small letters."""
    words = load_vocabulary(language)
    texts = [form for word in words.words for form in (word.words, word.short)]
    texts += [re.sub(r"\{\w+\}", "", text) for _, text in words.phrases] + [text for _, text in words.names]
    texts += [re.sub(r"\{\w+\}", "", text) for key, text in words.pages.items() if key not in WITH_TITLES]
    if language == "en":
        texts += [row.name for row in (*knowledge().positions, *knowledge().holds, *knowledge().rhythms)]
    return frozenset(token.lower() for text in texts for token in LETTERS.findall(text) if len(token) > 1)


def foreign(text: str, language: str) -> set[str]:
    """English words in a text that the language does not have too."""
    return {token.lower() for token in LETTERS.findall(text)} & (tokens_of("en") - tokens_of(language))


def printed_kinds(words: Vocabulary) -> set[tuple[str, str]]:
    return {(word.kind, word.name) for word in words.words if word.kind not in UNPRINTED}


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_every_word_that_is_printed(language: str) -> None:
    assert printed_kinds(load_vocabulary(language)) == printed_kinds(load_vocabulary("en"))


@pytest.mark.parametrize("language", FILES)
def test_a_language_has_every_phrase_with_its_places(language: str) -> None:
    said, english = (dict(load_vocabulary(name).phrases) for name in (language, "en"))
    assert set(said) == {field.name.replace("_", " ").strip() for field in dataclasses.fields(Phrases)}
    assert {name: set(re.findall(r"\{\w+\}", text)) for name, text in said.items()} == {
        name: set(re.findall(r"\{\w+\}", text)) for name, text in english.items()}


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_names_every_position_hold_and_rhythm(language: str) -> None:
    said = {key for key, _ in load_vocabulary(language).names}
    printed = knowledge().languages[language].names
    for kind, rows in (("position", knowledge().positions), ("hold", knowledge().holds),
                       ("rhythm", knowledge().rhythms)):
        assert len([key for key in said if key[0] == kind]) == len(rows)
        assert len([key for key, _ in printed if key[0] == kind]) >= sum(1 + len(row.also) for row in rows)


@pytest.mark.parametrize("name", layout_names())
def test_no_english_word_is_left_on_a_german_sheet(name: str) -> None:
    of, layout = worked(DANCE), replace(load_layout(name), language="de")
    floor = passage_figures(of, dance_floor(of, knowledge()), sheet_speaker(of, knowledge(), layout))
    story = script_story(of, knowledge(), layout, paper(layout.paper), 9.0, diagrams=floor)
    made = set_sheet(of, knowledge(), layout, paper(layout.paper, layout.landscape), Faces(), diagrams=floor)
    assert foreign(story_text(story), "de") == set()
    assert foreign(" ".join(word.text for word in printed_words(made)), "de") == set()
    metadata = sheet_metadata(of, knowledge(), layout)
    alternatives = re.findall(r'aria-label="([^"]*)"', story_html(story, metadata))
    assert alternatives or not layout.shows.key
    assert foreign(" ".join(alternatives), "de") == set()
    assert foreign(" ".join((metadata.subject, *metadata.keywords)), "de") == set()


def test_english_words_are_found_on_an_english_sheet() -> None:
    """The check above can fail: the same sheet in English is full of them."""
    story = script_story(worked(DANCE), knowledge(), Layout(), paper("A4"), 9.0)
    assert {"lady", "hold", "bar", "facing", "point", "waltz"} <= foreign(story_text(story), "de")


def test_german_words_of_the_trade() -> None:
    """Tanzrichtung, Gegentanzrichtung: de.wikibooks.org, Tanzen: Tanzfläche. Schluss: tanzbibliothek.de.
    Zweihandfassung: de.wikipedia.org, Volkstanzbegriffe. Langsamer Walzer: tanzbibliothek.de."""
    story = script_story(worked(DANCE), knowledge(), replace(Layout(), language="de"), paper("A4"), 9.0)
    text = " ".join(story_text(story).split())
    for words in ("Langsamer Walzer", "LF vor", "Schluss", "GTR", "Zweihandfassung", "Takt 4: wie Takt 3",
                  "28,3–30 Takte pro Minute", "mit dem anderen Fuß", "Herr diag. Mitte", "fünfmal", "offene Fassung"):
        assert words in text, words


def test_a_case_after_a_preposition() -> None:
    layout = replace(load_layout("one-part"), language="de")
    of = dance(passage("1 LF fwd past RF; 2 RF side; 3 LF close to RF"))
    text = " ".join(story_text(script_story(of, knowledge(), layout, paper("A4"), 11.0)).split())
    assert "vorbei am rechten Fuß" in text and "schließt zum rechten Fuß" in text


def test_the_document_names_its_language() -> None:
    """BCP 47 tags; ISO 14289-1, 7.2 asks for the language of the text."""
    of = worked(DANCE)
    tags = [set_sheet(of, knowledge(), replace(Layout(), language=name), paper("A4"), Faces()).metadata.language
            for name in ("en", "de")]
    assert tags == ["en-GB", "de"]


def test_words_are_divided_by_the_patterns_of_the_language() -> None:
    """Rat für deutsche Rechtschreibung, Regelwerk 2024, § 110 (s and t may be parted)."""
    assert syllables("Zusammengestellt", "de") != syllables("Zusammengestellt", "en-GB")
    assert "-".join(syllables("Gegentanzrichtung", "de")) in ("Gegen-tanz-rich-tung", "Gegen-tanz-richtung")


def test_a_layout_chooses_the_language_and_may_say_otherwise() -> None:
    source = b"format: 1\nlayout: meins\nlanguage: de\nphrases: {column hold: Haltung}\nwording: {lady: Tanzende}\n"
    reading = read_layout(source, "meins.yaml")
    assert reading.layout is not None and reading.findings == ()
    text = story_text(script_story(worked(DANCE), knowledge(), reading.layout, paper("A4"), 9.0))
    assert "Haltung" in text and "Tanzende" in text and "Herr" in text
    unknown = read_layout(b"format: 1\nlanguage: dee\n", "x.yaml")
    assert [finding.suggestion for finding in unknown.findings] == ["de"]
