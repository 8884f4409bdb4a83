"""The written parts of a dance with their counts placed: what the checks of time look at."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from notation.dance.counting import Counted, count_lines
from notation.dance.metre import Metre
from notation.dance.script import PARTS, Passage, Worked, Written
from notation.kept import Same


@dataclass(frozen=True, slots=True)
class CountedPart:
    """A written part. name: 'gent' or 'lady'. late_start: the part before it runs over into its first bar."""

    passage: Passage
    name: str
    part: Written
    steps: tuple[Counted, ...]
    metre: Metre
    late_start: bool

    @property
    def bars(self) -> int:
        return self.passage.last - self.passage.first + 1

    @property
    def beats(self) -> Fraction:
        return Fraction(self.bars * self.metre.beats)

    @property
    def bars_used(self) -> int:
        return max((c.bar for c in self.steps), default=0)

    def bar_number(self, onset: Fraction) -> int:
        """The bar of the sequence that a beat of this part stands in."""
        return self.passage.first + int(onset // self.metre.beats)

    def beat_number(self, onset: Fraction) -> int:
        """The count at that beat, from 1."""
        return int(onset % self.metre.beats) + 1


def counted_parts(worked: Worked) -> tuple[CountedPart, ...]:
    """Every part that is written out, in file order. Silent where the metre is not known."""
    return _counted(Same(worked))


@lru_cache(maxsize=2)
def _counted(key: Same[Worked]) -> tuple[CountedPart, ...]:
    return tuple(_parts(key.value))


def _parts(worked: Worked) -> Iterator[CountedPart]:
    if worked.dance.metre is None:
        return
    for name in PARTS:
        runs_over = _runs_over_end(worked, name)
        for passage in worked.dance.passages:
            part = passage.gent if name == PARTS[0] else passage.lady
            if not isinstance(part, Written):
                runs_over = False
                continue
            made = CountedPart(passage, name, part, count_lines(part.lines, worked.metre), worked.metre, runs_over)
            runs_over = _runs_over(made)
            yield made


def _runs_over_end(worked: Worked, name: str) -> bool:
    """Whether the end of the sequence runs over into its beginning."""
    last = worked.dance.passages[-1]
    part = last.gent if name == PARTS[0] else last.lady
    if not isinstance(part, Written):
        return False
    return _runs_over(CountedPart(last, name, part, count_lines(part.lines, worked.metre), worked.metre, False))


def _runs_over(part: CountedPart) -> bool:
    end = part.steps[-1].end if part.steps else None
    return end is not None and end > part.beats
