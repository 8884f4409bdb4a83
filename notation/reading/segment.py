"""What a segment of a step line says, field by field, whatever the order of its words."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from notation.dance.feet import Aerial, End, Foot, Fourth
from notation.dance.room import Alignment, Mode, Room, Side, Turn
from notation.dance.step import Action, Body, Direction, Footwork, Rise, Size
from notation.reading.headline import HEAD_UNCLEAR, head_line
from notation.reading.lexing import REMEMBERED, WORD, Lexeme, Trouble, lexemes
from notation.reading.words import Lexicon

FIRST = ("foot", "footless", "action", "gesture")
LATER = ("place", "footwork", "rise", "body", "size", "direction", "foot", "action", "gesture", "footless")
CHANGES = ("head", "hold", "position")
NEXT_TO = frozenset(
    {
        Action.CLOSE, Action.CROSS_IN_FRONT, Action.CROSS_BEHIND, Action.LOCK_IN_FRONT, Action.LOCK_BEHIND,
        Action.TOUCH, Action.TAP, Action.POINT, Action.BRUSH, Action.CIRCLE,
    }
)
"""Actions after which a second foot is the one that the first joins: 'LF close RF', 'LF lock behind RF'."""

PLACES: dict[str, tuple[str, object]] = {
    **{str(n): ("position", n) for n in range(1, 6)},
    **{e.value: ("end", e) for e in End},
    **{f.value: ("fourth", f) for f in Fourth},
    **{a.value: ("aerial", a) for a in Aerial},
}
SIMPLE: dict[str, tuple[str, Any]] = {
    "foot": ("foot", Foot),
    "action": ("action", Action),
    "gesture": ("action", Action),
    "footless": ("action", Action),
    "direction": ("direction", Direction),
    "footwork": ("footwork", Footwork),
    "size": ("size", Size),
    "rise": ("rise", Rise),
    "body": ("body", Body),
}
"""Kinds of word that say one field by themselves: the field and the type of its value."""


@dataclass(frozen=True, slots=True)
class Saying:
    """A field of a step and its value. sure: False where it comes from a guess at an unknown word."""

    field: str
    value: Any
    start: int
    end: int
    sure: bool = True


@dataclass(slots=True)
class _Heard:
    """A segment while its words are taken. action, footed, placed: what it has said so far. lost: a word is unknown."""

    first: bool
    placed: bool
    spoken: list[Saying | Trouble] = field(default_factory=list)
    action: Action | None = None
    footed: bool = False
    lost: bool = False

    def say(self, name: str, value: object, *words: Lexeme) -> None:
        sure = all(word.trouble is None for word in words)
        self.spoken.append(Saying(name, value, words[0].start, words[-1].end, sure))
        self.action = value if isinstance(value, Action) else self.action
        self.footed = self.footed or name == "foot"
        self.placed = self.placed or (name == "place" and isinstance(value, tuple) and value[0] == "position")

    def complain(self, rule: str, message: str, *words: Lexeme, suggestion: str | None = None) -> None:
        """A finding, unless an unknown word beside these has one already."""
        if not self.lost and all(word.trouble is None for word in words):
            self.spoken.append(Trouble(rule, message, words[0].start, words[-1].end, suggestion))


@lru_cache(maxsize=REMEMBERED)
def sayings(text: str, first: bool, placed: bool, lexicon: Lexicon) -> tuple[Saying | Trouble, ...]:
    """What a segment says and what is wrong in it, in the order of its words.

    first: it is the segment of the foot and the action. placed: one of the five positions has been said before.
    """
    heard = _Heard(first, placed)
    change = _change_at(text, first)
    if change is not None:
        _take_change(text, change, lexicon, heard)
    words = lexemes(text if change is None else text[:change], lexicon)
    heard.spoken += [word.trouble for word in words if word.trouble]
    heard.lost = any(word.trouble and word.eighths is None for word in words)
    at = 0
    while at < len(words):
        at += _take_pair(words, at, heard) or _take_turn(words, at, heard) or _take_one(words, at, heard)
    return tuple(heard.spoken)


def _change_at(text: str, first: bool) -> int | None:
    """Where 'head L', 'hold double' or 'position closed' begins; what follows in the segment belongs to it."""
    tokens = list(WORD.finditer(text))
    for at, token in enumerate(tokens[:-1]):
        if token.group().lower() in CHANGES and not (first and at == 0):
            return token.start()
    return None


def _take_change(text: str, start: int, lexicon: Lexicon, heard: _Heard) -> None:
    name, rest = text[start:].split(maxsplit=1)
    begun, name = len(text) - len(rest), name.lower()
    end = begun + len(rest.rstrip())
    if name != "head":
        heard.spoken.append(Saying(name, rest.strip(), start, end))
        return
    words = _moved(lexemes(rest, lexicon), begun)
    heard.spoken += [word.trouble for word in words if word.trouble]
    head = head_line(words)
    if head is not None:
        heard.spoken.append(Saying("head", head, start, end))
    elif all(word.trouble is None for word in words):
        heard.spoken.append(Trouble("head-unclear", HEAD_UNCLEAR, start, end))


def _moved(words: tuple[Lexeme, ...], by: int) -> tuple[Lexeme, ...]:
    return tuple(
        replace(w, start=w.start + by, end=w.end + by, trouble=w.trouble and replace(
            w.trouble, start=w.trouble.start + by, end=w.trouble.end + by)) for w in words
    )


def _take_pair(words: tuple[Lexeme, ...], at: int, heard: _Heard) -> int:
    """Two words that mean something together: 'facing DW', 'to wall', 'past RF', 'sway L'. How many were taken."""
    if at + 1 >= len(words):
        return 0
    one, two = words[at], words[at + 1]
    joined = one.named("joined")
    if (mode := one.named("mode")) and (room := two.named("room")):
        heard.say("alignment", Alignment(Mode(mode), Room[room]), one, two)
    elif (one.named("travel") or joined == "to") and (room := two.named("room")):
        heard.say("travel", Room[room], one, two)
    elif joined and (foot := two.named("foot")):
        heard.say("joins" if joined == "to" else "passes", Foot(foot), one, two)
    elif one.named("sway") and (side := two.named("side")):
        heard.say("sway", Side[side], one, two)
    elif joined == "to" and (direction := two.named("direction")):
        heard.say("direction", Direction(direction), one, two)
    else:
        return 0
    return 2


def _take_turn(words: tuple[Lexeme, ...], at: int, heard: _Heard) -> int:
    """A turn: '1/8 L', 'turn R 3/8', '1/2 turn to R', 'no turn', 'commence to turn R'. How many words were taken."""
    run = dict(_turning(words[at:]))
    if not run or set(run) == {"side"}:
        return 0
    taken = tuple(run.values())
    _say_turn(run, taken, heard)
    return len(taken)


def _turning(words: tuple[Lexeme, ...]) -> Iterator[tuple[str, Lexeme]]:
    """The words of a turn, each kind once, in any order."""
    seen: set[str] = set()
    for word in words:
        kind = "amount" if word.amount is not None else next((k for k in ("side", "turn") if word.named(k)), None)
        if kind is None or kind in seen:
            return
        seen.add(kind)
        yield kind, word


def _say_turn(run: dict[str, Lexeme], taken: tuple[Lexeme, ...], heard: _Heard) -> None:
    eighths = run["amount"].amount if "amount" in run else None
    side = run["side"].named("side") if "side" in run else None
    how = run["turn"].named("turn") if "turn" in run else None
    if how == "no-turn" and (eighths or side):
        heard.complain("turn-unclear", "'no turn' and a turn together; keep one", *taken)
    elif how == "no-turn" or eighths == 0:
        heard.say("turn", Turn(0), *taken)
    elif eighths and side is None:
        heard.complain("turn-sense-missing", "this turn has no sense; say L or R after it", *taken)
    elif side is None:
        message = "say how far and which way: 'turn 1/4 R', 'commence to turn R' or 'no turn'"
        heard.complain("turn-unclear", message, *taken)
    elif eighths is None and how != "commence-to-turn":
        message = f"how far? say '1/4 {side[0]}' or 'commence to turn {side[0]}'"
        heard.complain("turn-unclear", message, *taken)
    else:
        sense = Side[side]
        heard.say("turn", Turn(eighths * sense.value) if eighths else Turn(0, sense), *taken)


def _take_one(words: tuple[Lexeme, ...], at: int, heard: _Heard) -> int:
    word = words[at]
    kind = _kind(word, heard)
    name = word.named(kind) if kind else None
    if name is None or kind is None:
        return _complain(words, at, heard)
    if kind == "weight":
        heard.say("weight", name == "with-weight", word)
    elif kind == "place":
        heard.say("place", PLACES[name], word)
    elif kind == "foot" and heard.footed and heard.action in NEXT_TO:
        heard.say("joins", Foot(name), word)
    else:
        field_name, make = SIMPLE[kind]
        heard.say(field_name, make(name), word)
    return 1


def _kind(word: Lexeme, heard: _Heard) -> str | None:
    """Which of its meanings a word has here: foot and action come first, then what is said of them."""
    if word.named("weight"):
        return "weight"
    order: tuple[str, ...] = FIRST + LATER if heard.first and heard.action is None else LATER
    if not heard.placed and word.named("direction") is not None:
        order = (*(kind for kind in order if kind != "place"), "place")
    return next((kind for kind in order if word.named(kind)), None)


def _complain(words: tuple[Lexeme, ...], at: int, heard: _Heard) -> int:
    """Says what is missing around a known word that means nothing alone. How many words were taken."""
    word, name = words[at], words[at].text
    partner = at + 1 < len(words) and words[at + 1].named("head") == "partner"
    taken, better = words[at : at + 1], None
    if word.trouble is None and word.named("room"):
        better = f"facing {name}"
        message = f"'{name}' alone is not clear; say 'facing {name}' or 'moving {name}'"
    elif (side := word.named("side")) and heard.first and not heard.footed and len(name) == 1:
        foot = Foot[side]
        message, better = f"'{name}' is a side; the foot is '{foot.value}'", foot.value
        heard.footed = True
        heard.spoken.append(Saying("foot", foot, word.start, word.end, False))
    elif word.named("side"):
        message = f"'{name}' alone is not clear; say how far you turn, 'sway {name}' or 'head {name}'"
    elif word.named("mode") and partner:
        taken = words[at : at + 2]
        message = "an alignment names the room: LOD, wall, centre, DW ...; put other words in round brackets"
    elif word.named("mode") or word.named("travel"):
        message = f"'{name}' where? say LOD, ALOD, wall, centre, DW, DC, DWA or DCA after it"
    elif word.named("change"):
        message = f"'{name}' needs its name here, such as '{name} closed'"
    else:
        message = f"'{name}' means nothing in this place; say more, or put it in round brackets"
    heard.complain("word-out-of-place", message, *taken, suggestion=better)
    return len(taken)
