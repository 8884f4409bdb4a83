"""Names that must not be told: where a text, or a dance's own words, give an arranger away.

Letters are compared without case, without accents and by how they look. A word of a name that is a word of the trade
or of every sheet (an arranger called Close) tells nothing by itself, so it is sought only within the whole name.
"""
from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark, Said
from notation.dance.script import PARTS, Call, DancedPassage, Worked
from notation.dance.step import HeadLine, Step
from notation.dance.words import Vocabulary

LEAST_WORD = 2
"""Letters of the shortest word of a name that is sought by itself; an initial tells nothing."""
LEAST_INSIDE = 5
"""Letters from which a word of a name is found inside a longer one too ('Ferriersong')."""
ENDINGS = r"(?:['\u2019]?s['\u2019]?)?"
LETTER = r"[^\W\d_]"
SPELT_OUT = re.compile(r"(?<!\w)(\w)[ .\u00b7-]+(?=\w(?!\w))")
"""Between letters that stand one by one: 'P y m', 'P.Y.M.'."""
OF_NAMES = frozenset((
    "and", "the", "van", "von", "der", "den", "del", "della", "las", "los", "mac", "bin", "ibn", "dos", "mrs", "miss",
    "prof",
))
"""Words that stand in many names and tell none."""


@dataclass(frozen=True, slots=True)
class Secrets:
    """What must not be told, in plain letters (see `plain_letters`).

    phrases: whole names and other particulars. words: single words of names. spared: words of names that are sought
    only within the whole name, because they are words of the trade or allowed by hand.
    """

    phrases: tuple[str, ...]
    words: tuple[str, ...]
    spared: tuple[str, ...] = ()

    def hits(self, text: str) -> tuple[str, ...]:
        """The phrases and words that a text tells, in plain letters, longest first."""
        plain = skeleton(plain_letters(text))
        spelt = SPELT_OUT.sub(r"\1", plain)
        found = [*self._found(plain), *(hit for hit in self._found(spelt) if spelt != plain and len(hit) > LEAST_WORD)]
        return tuple(dict.fromkeys(found))

    def _found(self, plain: str) -> Iterator[str]:
        for phrase in self.phrases:
            if _pattern(skeleton(phrase)).search(plain):
                yield phrase
        for word in self.words:
            if _pattern(skeleton(word)).search(plain) or (len(word) >= LEAST_INSIDE and skeleton(word) in plain):
                yield word


@lru_cache(maxsize=512)
def _pattern(phrase: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!{LETTER}){re.escape(phrase)}{ENDINGS}(?!{LETTER})")


def plain_letters(text: str) -> str:
    """Lower case, no accents, no letters that are not seen, every run of white space one space.

    >>> plain_letters("Zoë  LØVSTRÖM")
    'zoe lovstrom'
    """
    letters = (c for c in unicodedata.normalize("NFKD", text.translate(BARE))
               if not unicodedata.combining(c) and unicodedata.category(c) != "Cf")
    return " ".join("".join(letters).casefold().split())


BARE = str.maketrans({"ø": "o", "Ø": "O", "ł": "l", "Ł": "L", "đ": "d", "Đ": "D", "æ": "ae", "Æ": "AE", "œ": "oe",
                      "Œ": "OE", "þ": "th", "Þ": "Th", "ð": "d", "Ð": "D", "ı": "i", "’": "'"})
"""Letters that have no accent to take away but are often written otherwise."""

LOOKALIKES = str.maketrans(
    "\u0430\u0435\u043e\u0440\u0441\u0443\u0445\u0455\u0456\u0458\u0501\u051b\u051d\u04bb"  # Cyrillic
    "\u03b1\u03b3\u03b9\u03bd\u03bf\u03c1\u03c5",  # Greek
    "aeopcyxsijdqwh" "ayivopu",
)
"""Small letters of other alphabets that look like Latin ones (Unicode Technical Standard 39, confusables.txt)."""


def skeleton(plain: str) -> str:
    """Plain letters in which those that look alike are the same, as the skeletons of Unicode Technical Standard 39.

    >>> skeleton(plain_letters("\u0420\u0443m"))
    'pym'
    """
    return plain.translate(LOOKALIKES)


def secrets_of(
    names: Iterable[str], others: Iterable[str], known: Collection[str], allowed: Iterable[str] = ()
) -> Secrets:
    """What must not be told. names: of people, word by word too. others: particulars sought as they stand.

    known: words of the trade and of every sheet, in plain letters. allowed: words told by hand to be no name here.
    """
    people = [plain_letters(name) for name in names]
    spared = {plain_letters(word) for word in allowed}
    words = dict.fromkeys(w for name in people for w in re.findall(r"\w+(?:'\w+)*", name) if len(w) >= LEAST_WORD)
    secret = [w for w in words if w not in spared and w not in known and w not in OF_NAMES and not w.isdecimal()]
    whole = [p for p in (*people, *map(plain_letters, others)) if len(p) >= LEAST_WORD and p not in spared]
    phrases = sorted(set(whole), key=lambda p: (-len(p), p))
    return Secrets(tuple(phrases), tuple(w for w in secret if w not in phrases),
                   tuple(w for w in words if w not in secret and w not in OF_NAMES and w not in phrases))


def trade_words(knowledge: Knowledge, printed: Vocabulary) -> frozenset[str]:
    """Every word that the tool itself may print, in plain letters: the vocabulary and the tables. printed: the words of
    the language that the sheets are printed in."""
    words = (*knowledge.vocabulary.words, *printed.words)
    texts = [text for w in words for text in (w.words, w.short, w.meaning, *w.accepts)]
    texts += [text for _, text in printed.names]
    texts += [name for row in knowledge.rhythms for name in (row.name, *row.also)]
    texts += [name for position in knowledge.positions for name in (position.name, *position.also)]
    texts += [name for hold in knowledge.holds for name in (hold.name, *hold.also)]
    return frozenset(word for text in texts for word in re.findall(r"\w+", plain_letters(text)))


@dataclass(frozen=True, slots=True)
class FreeText:
    """Words of a writer's own. what: where they stand, as a message says it."""

    what: str
    text: str
    mark: Mark


def free_texts(worked: Worked) -> Iterator[FreeText]:
    """All words of a dance that are the writer's own, names of the arrangers left out, in the order of the sheet."""
    dance, start = worked.dance, worked.start
    yield FreeText("the title", dance.title, dance.mark_of("title"))
    yield from _said("the rhythm", dance.rhythm_said)
    yield FreeText("'music'", dance.music, dance.mark_of("music"))
    yield FreeText("'notes'", dance.notes, dance.mark_of("notes"))
    yield from _said("the position at the start", start.position)
    yield from _said("the hold at the start", start.hold)
    for passage in worked.passages:
        yield from _passage_texts(passage)


def _said(what: str, said: Said | None) -> Iterator[FreeText]:
    if said is not None:
        yield FreeText(what, said.text, said.mark)


def _passage_texts(passage: DancedPassage) -> Iterator[FreeText]:
    written, where = passage.written, f"of bars {passage.first}-{passage.last}"
    own = {"figure": written.figure, "position": written.position, "hold": written.hold, "arms": written.arms,
           "note": written.note}
    for key, said in own.items():
        yield from _said(f"'{key}' {where}", said)
    for head in (passage.head.gent, passage.head.lady):
        yield from _head(f"the head line {where}", head, written.mark_of("head"))
    for part in (written.gent, written.lady):
        if isinstance(part, Call):
            yield from _said(f"the figure {where}", part.name)
    for called in passage.called:
        for text in (called.figure, called.arms, *called.cautions):
            yield FreeText(f"the figure {where}", text, written.mark)
    for name in PARTS:
        for danced in passage.part(name):
            yield from _step_texts(danced.step, f"the {name}'s step at bar {danced.bar} count {danced.count}")


def _step_texts(step: Step, where: str) -> Iterator[FreeText]:
    for remark in step.remarks:
        yield FreeText(where, remark, step.mark)
    yield from _said(where, step.hold)
    yield from _said(where, step.position)
    yield from _head(where, step.head, step.mark)


def _head(what: str, head: HeadLine | None, mark: Mark) -> Iterator[FreeText]:
    if head is not None and head.words:
        yield FreeText(what, head.words, mark)
