"""Published waltz charts as steps, for both partners.

Sources: Wikipedia 'Natural and reverse turns', 'Change step', 'Whisk', 'Chasse (waltz)'; magicdanceworld.com reverse
turn and natural spin turn; Alex Moore, Ballroom Dancing, 10th ed. 2002 (man's natural turn; lady's step 2); study cards
freezingblue.com 258609 (closed changes); quickstep forward lock: dancecentral.info and ballroomdancers.com. The lady's
natural 4-6 is the mirror image of her reverse 4-6. 'NFR' where magicdanceworld.com prints it.
"""
from __future__ import annotations

from dataclasses import replace

from building import align, count, mark

from notation.dance.feet import Foot
from notation.dance.room import Side, Turn
from notation.dance.step import TAKES_WEIGHT, Action, Body, Footwork, Rise, Step

SIDES = {"L": Side.LEFT, "R": Side.RIGHT}


def chart(text: str) -> tuple[Step, ...]:
    """One step a line: count foot action, alignment, turn, footwork, body and sway, with '|' between."""
    return tuple(_row(row) for row in text.strip().splitlines())


def _row(row: str) -> Step:
    what, alignment, turn, footwork, rest = (cell.strip() for cell in row.split("|"))
    counted, foot, action = what.split()
    body = tuple(Body(word) for word in rest.split() if word in {b.value for b in Body})
    step = Step(count(counted), Action(action), Foot(foot), Action(action) in TAKES_WEIGHT, mark=mark())
    return replace(
        step, alignment=align(alignment), turn=_turn(turn), footwork=Footwork(footwork), body=body,
        rise=(Rise.NO_FOOT_RISE,) if "NFR" in rest else (),
        sway=next((side for word, side in SIDES.items() if f"sway-{word}" in rest), None),
    )


def _turn(text: str) -> Turn | None:
    if not text:
        return None
    amount, sense = text.split()
    side = SIDES[sense]
    return Turn(0, side) if amount == "begin" else Turn(int(amount) * side.value)


NATURAL_GENT = chart("""
1 RF forward | F DW | begin R | HT | cbm
2 LF side | B DC | 2 R | T | sway-R
3 RF close | B LOD | 1 R | TH | sway-R
1 LF back | B LOD | begin R | TH | cbm NFR
2 RF side | P DC | 3 R | T | sway-L body-turns-less
3 LF close | F DC | | TH | sway-L body-completes-turn
""")
NATURAL_LADY = chart("""
1 LF back | B DW | begin R | TH | cbm NFR
2 RF side | P LOD | 3 R | T | sway-L body-turns-less
3 LF close | F LOD | | TH | sway-L body-completes-turn
1 RF forward | F LOD | begin R | HT | cbm
2 LF side | B CENTRE | 2 R | T | sway-R
3 RF close | B DC | 1 R | TH | sway-R
""")
REVERSE_GENT = chart("""
1 LF forward | F DC | begin L | HT | cbm
2 RF side | B DW | 2 L | T | sway-L
3 LF close | B LOD | 1 L | TH | sway-L
1 RF back | B LOD | begin L | TH | cbm NFR
2 LF side | P DW | 3 L | T | sway-R body-turns-less
3 RF close | F DW | | TH | sway-R body-completes-turn
""")
REVERSE_LADY = chart("""
1 RF back | B DC | begin L | TH | cbm NFR
2 LF side | P LOD | 3 L | T | sway-R body-turns-less
3 RF close | F LOD | | TH | sway-R body-completes-turn
1 LF forward | F LOD | begin L | HT | cbm
2 RF side | B WALL | 2 L | T | sway-L
3 LF close | B DW | 1 L | TH | sway-L
""")
RF_CHANGE_GENT = chart("""
1 RF forward | F DC | | HT |
2 LF side | F DC | | T |
3 RF close | F DC | | TH |
""")
RF_CHANGE_LADY = chart("""
1 LF back | B DC | | TH |
2 RF side | B DC | | T |
3 LF close | B DC | | TH |
""")
LF_CHANGE_GENT = chart("""
1 LF forward | F DW | | HT |
2 RF side | F DW | | T |
3 LF close | F DW | | TH |
""")
LF_CHANGE_LADY = chart("""
1 RF back | B DW | | TH |
2 LF side | B DW | | T |
3 RF close | B DW | | TH |
""")
LOCK_GENT = chart("""
S RF forward | F DW | | HT | cbmp op
Q LF diagonally-forward | F DW | | T |
Q RF lock-behind | F DW | | T |
S LF diagonally-forward | F DW | | TH |
""")
LOCK_LADY = chart("""
S LF back | B DW | | TH | cbmp
Q RF back | B DW | | T |
Q LF lock-in-front | B DW | | T |
S RF diagonally-back | B DW | | TH |
""")
"""Her second step goes back, not diagonally: a step that a writer would replace."""
