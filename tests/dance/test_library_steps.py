"""Latin and old-time figures of the library against published step lists, foot and action, count by count."""
from __future__ import annotations

import pytest
from test_library_charts import steps

from notation.dance.script import GENT, LADY

PUBLISHED = {
    # rumba box: latinamericandances.com; wikibooks, Social Ballroom Dancing (the lady dances the other half)
    ("rumba-box", GENT): "S LF forward, Q RF side, Q LF close, S RF back, Q LF side, Q RF close",
    ("rumba-box", LADY): "S RF back, Q LF side, Q RF close, S LF forward, Q RF side, Q LF close",
    # cha-cha chasse and lock: study cards freezingblue.com 125675
    ("cha-cha-chasse", GENT): "1 RF side, & LF close, 2 RF side",
    ("cha-cha-lock", GENT): "1 RF forward, & LF cross-behind, 2 RF forward",
    # three steps, the second closes: regencydancecentre.com, glossary
    ("chasse", GENT): "Q LF side, Q RF close, S LF side",
    ("jive-chasse", GENT): "1 LF side, a RF close, 2 LF side",
    # Society of Folk Dance Historians 1987, Boston Two-Step
    ("pas-de-basque-six-eight", GENT): "1 LF side, 3 RF close, 4-6 LF in-place",
    ("side-and-close", GENT): "1-3 LF side, 4-6 RF close",
    # Routledge's Manual of Etiquette (19th century); Cellarius 1858 p.20: slide, bring up, fall
    ("polka-step", GENT): "1 LF side, & RF close, 2 LF spring",
    # Gilbert 1890 (kickery.com); Wilkinson about 1904: slide, draw, slide, hop
    ("schottische-step", GENT): "1 LF side, 2 RF close, 3 LF side, 4 LF hop",
    ("step-hops", GENT): "1 LF side, 2 LF hop, 3 RF side, 4 RF hop",
    ("step-hops", LADY): "1 RF side, 2 RF hop, 3 LF side, 4 LF hop",
    # libraryofdance.org, Military Schottische: L R L hop
    ("three-steps-and-hop", GENT): "1 LF forward, 2 RF forward, 3 LF forward, 4 LF hop",
    # kickery.com: two-step, galop (slide, close, slide); balance of the 1930s (step, then touch)
    ("two-step", GENT): "1 LF side, 3 RF close, 4-6 LF side",
    ("galop-slides", GENT): "1 LF side, & RF close, 2 LF side, & RF close",
    ("balance", GENT): "1 LF forward, 2-3 RF touch, 1 RF back, 2-3 LF touch",
    ("balance", LADY): "1 RF back, 2-3 LF touch, 1 LF forward, 2-3 RF touch",
    # Lloyd Shaw cue sheets: step on 1, close on 3
    ("canter", GENT): "1-2 LF side, 3 RF close",
    # ceilidhminogue.co.uk, thebigshoogle, Military Two-Step: heel, toe, heel, toe of one foot, no weight
    ("heel-and-toe", GENT): "1-3 LF heel, 4-6 LF toe, 1-3 LF heel, 4-6 LF toe",
}


@pytest.mark.parametrize(("name", "part"), PUBLISHED, ids=str)
def test_the_steps_are_the_published_ones(name: str, part: str) -> None:
    made = [f"{s.count.text} {s.foot.value if s.foot else ''} {s.action.value}" for s in steps(name, part)]
    assert made == [step.strip() for step in PUBLISHED[name, part].split(",")]


def test_touches_bear_no_weight() -> None:
    assert [s.weight for s in steps("heel-and-toe")] == [False] * 4
    assert [s.weight for s in steps("balance")] == [True, False] * 2
