"""Every kind of page in another language: nothing of English is left on it, and no text of the language is missing."""
from __future__ import annotations

import dataclasses
import re
from pathlib import Path

import pytest

import notation
from notation.dance import figure as of_dance
from notation.dance.floor import dance_floor
from notation.dance.hall import EMPRESS, Hall
from notation.dance.travel import corner_sentence, travel_of, travel_sentence
from notation.reading.words import FILES, load_vocabulary
from notation.sheet import cardwords
from notation.sheet.floorwords import corner_words, travel_words
from notation.sheet.pagewords import PageWords
from notation.sheet.toldwords import FactWords
from tests.sheet.paged import DANCE, PAGES, figures, page, said
from tests.sheet.setting import example, knowledge, worked
from tests.sheet.test_languages import foreign

OTHERS = [language for language in FILES if language != "en"]
KINDS = {kind.kind: kind for kind in PageWords.__subclasses__()}
ENGLISH = load_vocabulary("en")
CITED = {"chart": {"highland", "dance", "theory", "grade", "tip", "corpus", "positions"}}
"""Words of the titles of sources, which are not translated."""


def text(kind: str, language: str) -> str:
    return " ".join(said(page(kind, language)).split())


@pytest.mark.parametrize("language", FILES)
def test_a_language_has_every_text_of_every_page_with_its_places(language: str) -> None:
    here, english = load_vocabulary(language).pages, ENGLISH.pages
    fields = {(name, field.name.replace("_", " ").strip()) for name, kind in KINDS.items()
              for field in dataclasses.fields(kind)}
    assert set(here) == fields
    for key in fields:
        assert set(re.findall(r"\{\w+\}", here[key])) == set(re.findall(r"\{\w+\}", english[key])), key


def test_every_kind_of_page_is_looked_at() -> None:
    assert set(KINDS) - {"fact"} == set(PAGES)


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("kind", PAGES)
def test_no_english_word_is_left_on_a_page(kind: str, language: str) -> None:
    assert foreign(text(kind, language), language) - CITED.get(kind, set()) == set()
    assert page(kind, language).metadata.language == load_vocabulary(language).tag


@pytest.mark.parametrize("kind", PAGES)
def test_english_words_are_found_on_an_english_page(kind: str) -> None:
    """The check above can fail."""
    assert len(foreign(text(kind, "en"), "de")) > 2


@pytest.mark.parametrize(("kind", "words"), [
    ("card", ("Heben und Senken", "gegengleich", "Auswärts gedreht: Veleta", "1 Takt im 3/4-Takt", "Häufige Fehler",
              "¼ Drehung nach rechts", "Kopf diag. Mitte; Dame diag. Wand", "Lehrkraft oder ein Arzt")),
    ("chart", ("auswärts gedreht", "Höhlung des hinteren Fußes", "eine Fußlänge entfernt")),
    ("floor", ("Tanzrichtung", "0,5 m", "Saales von 20 mal 12,5 m", "Takt 1")),
    ("programme", ("Beginn 19.30 Uhr", "Ende gegen", "Langsamer Walzer", "fünf")),
    ("book", ("Inhalt", "Abkürzungen", "Tänze nach Titeln", "Andere Tänze", "2 Folgetänze", "Notizen", "Figuren")),
    ("entry", ("bis 31. März 2027", "1. April 2027", "16 oder 24 Takte", "28–29,5 Takte pro Minute", "5 Exemplare",
               "nur geschlossene Tanzhaltung; ohne Zweihandfassung", "Zweihandfassung (in Takt 2)",
               "höchstens 1 Seite A4", "Wertungsrichter", "2 Fehler", "steht nicht in den Angaben",
               "Langsamer Walzer oder Two-Step")),
    ("errata", ("Laternenufer: Änderungen", "Tempo: 29,5 statt 28,3-30", "Fassung: Kreuzfassung statt Zweihandfassung",
                "Takt 5 kommt hinzu: Neu", "Takt 5 der alten Fassung entfällt: Neu", "Länge: 5 Takte statt 4 Takte",
                "Nichts ist geändert", "durchgestrichen", "LF, 5. Pos. vorn, Ges. Wand statt LF, 3. Pos. vorn")),
    ("imposed", ("Bogen 1, Schöndruck", "Bogen 2, Widerdruck", "leer", "ausgeschossen")),
    ("catalogue", ("2 Tänze", "28,5", "2 Fehler, 1 Warnung, 3 Hinweise", "1 Fehler, 2 Warnungen, 1 Hinweis")),
])
def test_german_words_of_the_trade_on_pages(kind: str, words: tuple[str, ...]) -> None:
    """Heben und Senken: tanzmoves.com, Langsamer Walzer. gegengleich: dancilla.com, Benennungen. auswärts gedreht,
    Höhlung: theaterkompass.de, Fünf Positionen. Eine Fußlänge in der zweiten: kindernetz.de, Ballettpositionen.
    Schöndruck, Widerdruck, Bogen: fachsprachen.net, Schön- und Widerdruck.
    19.30 Uhr: textskizzen.de (Duden). Decimal comma: DIN 1333. Plain German else."""
    shown = text(kind, "de")
    for one in words:
        assert one in shown, one


@pytest.mark.parametrize("hall", [EMPRESS, Hall(20_000.0, 12_000.0)])
@pytest.mark.parametrize("name", ["harbour-bell-waltz", "ferry-lane-saunter", "lantern-quay-waltz"])
def test_a_page_says_of_the_floor_what_check_says(name: str, hall: Hall) -> None:
    made = dance_floor(example(name), knowledge())
    assert travel_words(made, hall, ENGLISH).replace("\u00a0", " ") == travel_sentence(travel_of(made), hall)
    assert corner_words(made, hall, ENGLISH) == corner_sentence(made, hall)


def test_a_card_says_of_a_figure_what_the_library_lists() -> None:
    for one in (*figures(), *knowledge().figures.figures()):
        assert cardwords.length_words(one, ENGLISH) == of_dance.length_words(one)
        for part in ("gent", "lady"):
            assert cardwords.end_words(one.part(part), ENGLISH) == of_dance.end_words(one.part(part))


def test_what_travels_little_is_said_in_words() -> None:
    """Decimals with a comma, the way against the line of dance by its name."""
    shown = travel_words(dance_floor(worked(DANCE), knowledge()), EMPRESS, load_vocabulary("de"))
    assert re.search(r"\d,\d\u00a0m|dort, wo sie beginnt", shown) and "." not in shown


def test_every_fact_of_a_checklist_has_its_words() -> None:
    """Those that the code names, one and several of what it counts, and no others."""
    made = set()
    for file in ("dance/entry.py", "cli/entering.py"):
        text = (Path(notation.__file__).parent / file).read_text()
        made |= {match[1] for match in re.finditer(r"\bfact\(f?\"(\w+)\"", text)}
        made |= {match[1] + end for match in re.finditer(r"\bcounted\(\"(\w+)\"", text) for end in ("", "s")}
    plain = {"months", "date", "or_", "head_partner", "head_forward"}
    fields = {field.name for field in dataclasses.fields(FactWords)} - plain
    found = {f"{where}_{what}" for where in ("in", "not_in") for what in ("dance_file", "particulars")}
    assert made | found | {"copy", "copies"} == fields


def test_every_text_is_put_into_its_place() -> None:
    for language in FILES:
        for kind in PAGES:
            assert not re.search(r"\{\w+\}", re.sub(r"\{pages?\}", "", text(kind, language))), (language, kind)
