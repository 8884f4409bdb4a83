"""The vocabulary file, and the lexicon made of it: which words a run of letters can be."""
from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Mapping as Texts
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from notation.dance.naming import plain
from notation.dance.words import Vocabulary, Word
from notation.reading.nodes import Mapping, Node, Scalar, Sequence, read_nodes

FOLDER = Path(__file__).parent.parent / "words"
FILES = {"en": "english.yaml", "de": "german.yaml"}
"""The language files, by language. Dances are read in English; any of these a sheet is printed in. What other pages say
stands beside each, in `english-pages.yaml` and the like."""
NAMES = {"positions": "position", "holds": "hold", "rhythms": "rhythm", "families": "family",
         "particulars": "particular", "feet": "feet"}
"""Parts of a language file that give printed names, where they are not printed as the tables have them."""


@dataclass(frozen=True, slots=True, eq=False)
class Lexicon:
    """Every spelling that is read, with the words it can be.

    phrases: by the spelling's parts in small letters. exact: spellings whose capitals matter ('T' is toe, 'C' is
    centre). longest: parts in the longest spelling that begins with that part.
    """

    phrases: dict[tuple[str, ...], tuple[Word, ...]]
    exact: dict[str, tuple[Word, ...]]
    longest: dict[str, int]
    spellings: tuple[str, ...]

    def words(self, parts: tuple[str, ...]) -> tuple[Word, ...]:
        """The words that these parts of a line, as written, can be."""
        found = self.phrases.get(tuple(part.lower() for part in parts), ())
        strict = self.exact.get(parts[0], ()) if len(parts) == 1 else ()
        return (*strict, *(w for w in found if w not in strict)) if strict else found


def _spellings(word: Word) -> tuple[str, ...]:
    return tuple(dict.fromkeys((word.words, word.short, *word.accepts)))


def _strict(word: Word, spelling: str) -> bool:
    """Whether capitals matter: in footwork letters and single capitals."""
    return spelling.isupper() and (len(spelling) == 1 or word.kind == "footwork")


@cache
def load_vocabulary(language: str = "en") -> Vocabulary:
    """The vocabulary of that language (a BCP 47 tag). Raises KeyError where there is none."""
    path = FOLDER / FILES[language]
    root = read_nodes(path.read_bytes(), path.name)
    assert isinstance(root, Mapping)
    words = (_word(entry.key.text, row) for entry in root.entries for row in _items(entry.value))
    parts = {entry.key.text: entry.value for entry in root.entries}
    tag = _text(parts["tag"]) if "tag" in parts else language
    names = tuple(((NAMES[part], plain(of)), said) for part in NAMES for of, said in _pairs(parts.get(part)))
    return Vocabulary(language, tuple(words), tag, tuple(_pairs(parts.get("phrases"))), names, PageTexts(language))


@dataclass(frozen=True, slots=True)
class PageTexts(Texts[tuple[str, str], str]):
    """What pages other than sheets say in a language, by kind of page and name; read when it is first asked for, since
    most commands print no such page."""

    language: str

    def __getitem__(self, key: tuple[str, str]) -> str:
        return _page_texts(self.language)[key]

    def __iter__(self) -> Iterator[tuple[str, str]]:
        return iter(_page_texts(self.language))

    def __len__(self) -> int:
        return len(_page_texts(self.language))


@cache
def _page_texts(language: str) -> dict[tuple[str, str], str]:
    path = FOLDER / FILES[language]
    path = path.with_stem(f"{path.stem}-pages")
    root = read_nodes(path.read_bytes(), path.name)
    assert isinstance(root, Mapping)
    return {(page.key.text, name): text for page in root.entries for name, text in _pairs(page.value)}


def _pairs(node: Node | None) -> list[tuple[str, str]]:
    """Keys and texts of a mapping."""
    entries = node.entries if isinstance(node, Mapping) else ()
    return [(entry.key.text, _text(entry.value)) for entry in entries]


def _items(node: Node) -> tuple[Node, ...]:
    return node.items if isinstance(node, Sequence) else ()


def _word(kind: str, row: Node) -> Word:
    name, words, short, *more = _items(row)
    accepts = tuple(_text(item) for item in _items(more[0])) if more else ()
    meaning = _text(more[1]) if len(more) > 1 else ""
    return Word(_text(name), kind, _text(words), _text(short), accepts, meaning)


def _text(node: Node) -> str:
    assert isinstance(node, Scalar)
    return node.text


@cache
def lexicon(language: str = "en") -> Lexicon:
    """The lexicon of that language."""
    phrases: dict[tuple[str, ...], tuple[Word, ...]] = {}
    exact: dict[str, tuple[Word, ...]] = {}
    longest: dict[str, int] = {}
    pairs = [(word, spelling) for word in load_vocabulary(language).words for spelling in _spellings(word)]
    for word, spelling in pairs:
        parts = tuple(spelling.lower().split())
        longest[parts[0]] = max(longest.get(parts[0], 1), len(parts))
        if _strict(word, spelling):
            exact[spelling] = (*exact.get(spelling, ()), word)
        else:
            phrases[parts] = (*phrases.get(parts, ()), word)
    return Lexicon(phrases, exact, longest, tuple(dict.fromkeys(spelling for _, spelling in pairs)))
