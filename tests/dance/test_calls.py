"""Figures called by name: feet, halves, variants, alignment, the partner's part, and what does not run on.

What a call gives is checked against the turned-out set (common practice, no source), the published waltz charts
(charts.py) and the same steps written out.
"""
from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import charts
import pytest
from worked import EXAMPLES, steps

from notation.dance.checks import check
from notation.dance.feet import Foot
from notation.dance.figure import Shelf
from notation.dance.finding import Finding
from notation.dance.room import Room, Side
from notation.dance.script import GENT, LADY, Worked
from notation.dance.step import Action, HeadLine
from notation.dance.together import aligned_parts
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.knowledge import knowledge_beside, load_knowledge

KINDS = {
    "old-time waltz": ("side by side", "LF 3rd front, facing DW", "RF 3rd front, facing DC"),
    "waltz": ("closed", "RF, facing DW", "LF, backing DW"),
    "quickstep": ("closed", "RF, facing DW", "LF, backing DW"),
    "rumba": ("closed", "LF, facing LOD", "RF, backing LOD"),
    "saunter": ("closed", "LF, facing LOD", "RF, backing LOD"),
}
HEADING = """\
format: 1
title: Capstan Waltz
rhythm: {rhythm}
length: {length}
start:
  position: {position}
  hold: closed
  gent: {gent}
  lady: {lady}
sequence:
{passages}"""


def passage(bars: str, gent: str, lady: str = "opposite", **more: str) -> str:
    rows = {"gent": gent, "lady": lady, **more}
    return f"  - bars: {bars}\n" + "".join(f"    {key}: {value}\n" for key, value in rows.items())


def dance(*passages: str, rhythm: str = "old-time waltz", length: int = 0, gent: str = "", lady: str = "") -> Worked:
    position, his, hers = KINDS[rhythm]
    bars = length or int(passages[-1].split("\n")[0].split(":")[1].split("-")[-1])
    text = HEADING.format(rhythm=rhythm, length=bars, position=position, gent=gent or his, lady=lady or hers,
                          passages="".join(passages))
    return work(text)


def work(text: str) -> Worked:
    reading = read_dance(text.encode(), "dance.yaml", load_knowledge())
    assert reading.dance is not None and not reading.findings, reading.findings
    return work_out(reading.dance, load_knowledge())


def rules(worked: Worked) -> list[str]:
    return [f.rule for f in worked.findings]


def one(worked: Worked) -> Finding:
    """The one finding; the checks add nothing to it at the same place."""
    assert len(worked.findings) == 1
    finding = worked.findings[0]
    assert [f for f in check(worked, load_knowledge()) if f.mark == finding.mark] == [finding]
    return finding


def acts(worked: Worked, part: str = GENT) -> list[str]:
    return [f"{d.bar} {d.count} {d.step.foot.value if d.step.foot else ''} {d.step.action.value}"
            for d in worked.steps(part)]


def feet(worked: Worked, part: str) -> list[Room | None]:
    return [aligned.feet for aligned in aligned_parts(worked)[part]]


def eighths(worked: Worked, part: str) -> int:
    return sum(aligned.eighths for aligned in aligned_parts(worked)[part])


LANTERN = Path(__file__).parent / "calls" / "lantern-quay.yaml"
"""The example by which the format is explained, calls and all."""


def test_the_dance_that_explains_the_format() -> None:
    """Its calls are danced as they stand. Three changes of weight a bar leave LF free after bar 8, where the
    natural turn
    begins with RF: that is told once for each partner, and nothing follows from it in those bars."""
    worked = work(LANTERN.read_text())
    assert acts(worked)[6:12] == [
        "3 1 LF side", "3 2 RF close", "3 3 LF in-place", "4 1 RF side", "4 2 LF close", "4 3 RF in-place",
    ]
    assert [s.replace("LF", "X").replace("RF", "LF").replace("X", "RF") for s in acts(worked)[6:12]] == \
        acts(worked, LADY)[6:12]
    assert [d.step.head for d in worked.steps(GENT)[6:12:3]] == [HeadLine(side=Side.RIGHT), HeadLine(side=Side.LEFT)]
    assert feet(worked, GENT)[24:36:3] == [Room.LOD, Room.ALOD, Room.LOD, Room.ALOD]
    assert feet(worked, GENT)[26] is Room.ALOD and feet(worked, LADY)[26] is Room.LOD
    assert [f.part for f in worked.findings if f.rule == "figure-wrong-foot"] == [GENT, LADY]
    assert {f.suggestion for f in worked.findings} == {"reverse turn"}
    assert {f.mark.line for f in check(worked, load_knowledge()) if f.bar in range(9, 13)} == {42, 43}


def test_partners_dance_opposite_halves() -> None:
    """Common practice, no source: in couple hold one dances the forward half while the other dances the
    backward half."""
    worked = dance(
        passage("1-4", "natural turn, twice", "natural turn, twice, from rotary half", position="closed"),
        gent="RF, facing LOD", lady="LF, backing LOD",
    )
    assert rules(worked) == []
    assert eighths(worked, GENT) == eighths(worked, LADY) == -16
    his, hers = worked.steps(GENT), worked.steps(LADY)
    assert [d.step.action for d in hers[:3]] == [d.step.action for d in his[3:6]]
    assert [d.step.action for d in hers[3:6]] == [d.step.action for d in his[:3]]
    for mine, theirs in zip(feet(worked, GENT)[2::3], feet(worked, LADY)[2::3], strict=True):
        assert mine is not None and theirs is mine.backing


def test_opposite_of_a_turn_is_its_other_half() -> None:
    given = {"gent": "RF, facing LOD", "lady": "LF, backing LOD"}
    said = dance(passage("1-2", "natural turn", "natural turn, from rotary half", position="closed"), **given)
    derived = dance(passage("1-2", "natural turn", position="closed"), **given)
    assert acts(said, LADY) == acts(derived, LADY)
    assert feet(said, LADY) == feet(derived, LADY)
    back = dance(passage("1-2", "natural turn, from rotary half", position="closed"),
                 gent="LF, backing LOD", lady="RF, facing LOD")
    assert acts(back, LADY) == acts(said, GENT) and rules(back) == []


def test_natural_against_reverse() -> None:
    worked = dance(passage("1-2", "natural turn, solo", "reverse turn, solo"),
                   gent="RF 3rd front, facing LOD", lady="LF 3rd front, facing LOD")
    assert rules(worked) == []
    assert (eighths(worked, GENT), eighths(worked, LADY)) == (-8, 8)
    assert worked.steps(GENT)[3].step.remarks == ()


def test_figure_of_either_foot_begins_on_the_free_one_and_goes_on() -> None:
    called = dance(passage("1-4", "pas de basque, three times", "mirror").replace("1-4", "1-3"))
    assert [d.step.foot for d in called.steps(GENT)[::3]] == [Foot.LEFT, Foot.RIGHT, Foot.LEFT]
    assert [d.step.foot for d in called.steps(LADY)[::3]] == [Foot.RIGHT, Foot.LEFT, Foot.RIGHT]
    named = dance(passage("1-4", "pas de valse, LF then RF, twice", "mirror"))
    assert [d.step.foot for d in named.steps(GENT)[::3]] == [Foot.LEFT, Foot.RIGHT] * 2
    assert rules(called) == rules(named) == []


def test_pas_de_valse_stays_on_the_line_of_dance() -> None:
    """Common practice, no source: from the gent's DW and the lady's DC both go forward along LOD; heads on
    their diagonals."""
    worked = dance(passage("1-2", "pas de valse, LF then RF", "mirror"))
    assert set(feet(worked, GENT)) == set(feet(worked, LADY)) == {Room.LOD}
    assert worked.steps(GENT)[0].step.head == HeadLine(room=Room.DC)
    assert worked.steps(LADY)[0].step.head == HeadLine(room=Room.DW)
    own = dance(passage("1-2", "pas de valse, LF then RF", "pas de valse, RF then LF"))
    assert acts(own, LADY) == acts(worked, LADY) and feet(own, LADY) == feet(worked, LADY)
    assert own.steps(LADY)[0].step.head == HeadLine(room=Room.DW)


def test_head_line_of_the_passage_comes_first() -> None:
    worked = dance(passage("1", "pas de basque", "mirror", head="fwd"))
    assert worked.steps(GENT)[0].step.head is None


@pytest.mark.parametrize("derived", ["opposite", "natural turn"])
def test_waltz_turn_called_equals_the_charts_of_both_partners(derived: str) -> None:
    worked = dance(passage("1-2", "natural turn", derived), rhythm="waltz")
    assert rules(worked) == []
    for part, of in ((GENT, charts.NATURAL_GENT), (LADY, charts.NATURAL_LADY)):
        made = [d.step for d in worked.steps(part)]
        assert [(s.foot, s.action, s.alignment, s.turn, s.footwork) for s in made] == [
            (s.foot, s.action, s.alignment, s.turn, s.footwork) for s in of
        ]


def test_practice_order_closes() -> None:
    """Wikipedia, Change step: natural turn, RF change, reverse turn, LF change; 18 steps, 6 bars, no turn left
    over."""
    worked = dance(
        passage("1-2", "natural turn"), passage("3", "RF closed change"),
        passage("4-5", "reverse turn"), passage("6", "LF closed change"), rhythm="waltz",
    )
    assert {f.rule for f in check(worked, load_knowledge())} == {"particulars-missing"}
    for part in (GENT, LADY):
        assert len(worked.steps(part)) == 18 and eighths(worked, part) == 0
        assert feet(worked, part)[-1] is (Room.DW if part == GENT else Room.DW.backing)


def test_figure_is_turned_to_where_the_dancer_stands() -> None:
    """A natural turn begun facing the centre ends as much further round as its chart says: 6/8 to R, DWA."""
    worked = dance(passage("1-2", "natural turn"), rhythm="waltz", gent="RF, facing centre", lady="LF, backing centre")
    assert feet(worked, GENT)[0] is Room.CENTRE and feet(worked, GENT)[-1] is Room.CENTRE.turned(-6)
    assert feet(worked, LADY)[-1] is Room.CENTRE.turned(-6).backing
    assert rules(worked) == []


def test_called_steps_are_those_written_out() -> None:
    lines = ("S  LF fwd", "Q  RF side", "Q  LF close", "S  RF back", "Q  LF side", "Q  RF close")
    written = "|" + "".join(f"\n      {line}" for line in lines)
    called, out = dance(passage("1-2", "rumba box"), rhythm="rumba"), dance(passage("1-2", written), rhythm="rumba")
    for part in (GENT, LADY):
        assert acts(called, part) == acts(out, part)
        assert [(d.beat, d.lasts) for d in called.steps(part)] == [(d.beat, d.lasts) for d in out.steps(part)]


def test_whisk_leads_into_promenade() -> None:
    worked = dance(passage("1", "whisk"), passage("2", "chasse from promenade"), rhythm="waltz",
                   gent="LF, facing DW", lady="RF, backing DW")
    assert rules(worked) == []
    finding = one(dance(passage("1", "LF closed change"), passage("2", "chasse from promenade"), rhythm="waltz",
                        gent="LF, facing DW", lady="RF, backing DW"))
    assert finding.rule == "figure-does-not-join" and "promenade position" in finding.message
    assert finding.suggestion == "position: promenade"


def test_figures_of_a_bar_and_a_half() -> None:
    worked = dance(passage("1-3", "forward lock, twice"), rhythm="quickstep")
    assert [(d.bar, d.beat) for d in worked.steps(GENT)] == [
        (1, 0), (1, 2), (1, 3), (2, 0), (2, 2), (3, 0), (3, 1), (3, 2),
    ]
    assert rules(worked) == []


def test_line_under_a_derived_call() -> None:
    worked = dance(passage("1-2", "balance", "|\n      opposite\n      2.1  LF fwd, small"), gent="LF, facing LOD")
    assert worked.steps(LADY)[2].step.action is Action.FORWARD
    assert rules(worked) == []


def test_heading_is_the_name_of_the_figure() -> None:
    worked = dance(passage("1-2", "pas de valse, LF then RF", "mirror"))
    assert worked.passages[0].figure == "Pas de valse"
    assert worked.passages[0].called[0].text == "pas de valse, LF then RF"


@pytest.mark.parametrize(
    ("call", "rule", "words", "suggestion"),
    [
        ("pas de bask", "figure-unknown", "did you mean 'pas de basque'", "pas de basque"),
        ("zzz", "figure-unknown", "'lodestep figures' lists", None),
        ("rumba box", "figure-other-rhythm", "belongs to rumba, not to old-time waltz", None),
        ("pas de basque, from rotary half", "figure-modifier", "nothing that can be said of", None),
        ("pas de basque, twise", "figure-modifier", "did you mean 'twice'", "twice"),
        ("pas de basque, 0 times", "figure-modifier", "stand LF, RF, LF then RF, twice, three times", None),
        ("pas de basque, RF", "figure-wrong-foot", "the gent's LF is free at the start", "pas de basque, LF"),
        ("natural turn, LF", "figure-wrong-foot", "on LF it is the reverse turn", "reverse turn"),
        ("natural turn", "figure-wrong-foot", "begins with RF, but the gent's LF is free", "reverse turn"),
        ("pas de basque", "figure-does-not-fit", "takes 1 bar, but the passage has 2 bars; danced 2 times", None),
        ("reverse turn, facing ALOD", "figure-does-not-join", "3/8 to R is missing", None),
    ],
)
def test_one_clear_message(call: str, rule: str, words: str, suggestion: str | None) -> None:
    finding = one(dance(passage("1-2", call, "mirror")))
    assert finding.rule == rule
    assert words in finding.message
    assert finding.suggestion == suggestion
    assert finding.part == GENT and finding.bar == 1


def test_ambiguous_name() -> None:
    finding = one(dance(passage("1-2", "hesitation"), rhythm="waltz"))
    assert finding.rule == "figure-ambiguous" and "'balance' or 'hesitation change'" in finding.message


def test_weight_that_does_not_run_on() -> None:
    finding = one(dance(passage("1-2", "RF closed change, twice"), rhythm="waltz"))
    assert finding.rule == "figure-does-not-join" and "LF is free" in finding.message


def test_nothing_is_called_without_a_library() -> None:
    knowledge = replace(load_knowledge(), figures=Shelf())
    reading = read_dance(LANTERN.read_bytes(), "dance.yaml", knowledge)
    assert reading.dance is not None
    assert {f.rule for f in work_out(reading.dance, knowledge).findings} == {"figure-unknown"}


OWN = """\
name: pas de basque
family: turned-out
metre: 3/4
bars: 1
foot: either
start: LF 3rd front, facing LOD
steps: |
  1    LF side, small
  2-3  RF touch
turn: no turn
free: RF
"""


def own(folder: Path, text: str) -> Worked:
    (folder / "figures").mkdir(exist_ok=True)
    (folder / "figures" / "mine.yaml").write_text(text)
    knowledge = knowledge_beside(folder)
    position, gent, lady = KINDS["old-time waltz"]
    source = HEADING.format(rhythm="old-time waltz", length=1, position=position, gent=gent, lady=lady,
                            passages=passage("1", "pas de basque", "mirror"))
    reading = read_dance(source.encode(), "dance.yaml", knowledge)
    assert reading.dance is not None
    return work_out(reading.dance, knowledge)


def test_own_figures_come_first(tmp_path: Path) -> None:
    worked = own(tmp_path, OWN)
    assert acts(worked) == ["1 1 LF side", "1 2-3 RF touch"]
    assert rules(worked) == []


def test_own_figure_with_a_mistake_says_where(tmp_path: Path) -> None:
    finding = one(own(tmp_path, OWN.replace("small", "smal")))
    assert finding.rule == "figure-unknown"
    assert "mine.yaml:8:17: unknown word 'smal': did you mean 'small'?" in finding.message


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("bars: 0", "'bars' is how many bars"), ("metre: 5/0", "is no metre"), ("turn: sideways", "said like '3/4 R'"),
        ("free: left", "LF, RF or none"), ("family: Baltic", "'family' is one of"), ("start: LOD", ""),
        ("steps: ' # '", "neither 'steps' nor 'gent'"), ("colour: red", "unknown key 'colour'"),
    ],
)
def test_faulty_own_figures_get_one_message(tmp_path: Path, line: str, words: str) -> None:
    key = line.split(":")[0]
    rows = [row for row in OWN.splitlines() if row.split(":")[0] != key]
    if key == "steps":
        rows = [row for row in rows if not row.startswith("  ")]
    finding = one(own(tmp_path, "\n".join([*rows, line]) + "\n"))
    assert finding.rule == "figure-unknown" and words in finding.message


WRITTEN_OUT = {
    (1, 2): (
        "1  LF fwd, facing LOD", "2  RF fwd, T", "3  LF close 3rd rear, TH",
        "1  RF fwd", "2  LF fwd, T", "3  RF close 3rd rear, TH",
    ),
    (9, 10): (
        "1  RF fwd, facing LOD, commence to turn R", "2  LF fwd past RF, 1/4 R, facing wall, T",
        "3  RF close 5th front, 1/4 R, backing LOD, TH", "1  LF back, backing LOD, IE", "2  RF close 5th rear, bend",
        "3  LF in place (turn on both toes), 1/2 R, facing LOD, rise",
    ),
}
"""Steps of an example as it stood before its figures were called by name."""


@pytest.mark.parametrize("bars", WRITTEN_OUT)
def test_example_with_calls_is_danced_as_it_was_written_out(bars: tuple[int, int]) -> None:
    worked = work((EXAMPLES / "lantern-quay-waltz.yaml").read_text())
    assert worked.findings == () and worked.passages[0].called
    made = [d for d in worked.steps(GENT) if bars[0] <= d.bar <= bars[1]]
    written = steps("\n".join(WRITTEN_OUT[bars]))
    for one, other in zip(made, written, strict=True):
        same = (other.count.text, other.foot, other.action, other.place, other.turn)
        assert (one.count, one.step.foot, one.step.action, one.step.place, one.step.turn) == same
        assert other.footwork in (one.step.footwork, None)
    turned = [a.feet for a in aligned_parts(worked)[GENT] if a.danced in made]
    if bars == (9, 10):
        assert turned == [other.alignment.toward if other.alignment else turned[i] for i, other in enumerate(written)]
        assert turned == [Room.LOD, Room.WALL, Room.ALOD, Room.ALOD, Room.ALOD, Room.LOD]
    else:
        assert set(turned) == {Room.LOD}


@pytest.mark.parametrize(
    ("call", "rule", "words"),
    [
        ("spot turn", "figure-other-rhythm", "not to waltz; near it in this rhythm: 'balance turn'"),
        ("jive chasse", "figure-other-rhythm", "near it in this rhythm: 'chasse from promenade'"),
        ("natral spin", "figure-unknown", "did you mean 'natural spin turn'?"),
        ("whisk", "figure-wrong-foot", "'whisk' begins with LF, but the gent's RF is free at the start"),
        ("closed change", "figure-unknown", "'RF closed change', 'LF closed change' or"),
    ],
)
def test_nearest_names_are_of_figures_that_fit_each_once(call: str, rule: str, words: str) -> None:
    finding = one(dance(passage("1", call), rhythm="waltz"))
    assert finding.rule == rule and words in finding.message
    assert finding.message.count("chasse") <= 2


def test_how_often_is_said_only_of_what_can_follow_itself() -> None:
    """A whisk leaves the other foot free, so that two of them do not fill two bars."""
    given = {"rhythm": "waltz", "gent": "LF, facing DW", "lady": "RF, backing DW"}
    assert one(dance(passage("1-2", "whisk"), **given)).message.endswith("but the passage has 2 bars")
    assert one(dance(passage("1-2", "canter"), **given)).message.endswith("danced 2 times it fills them")
