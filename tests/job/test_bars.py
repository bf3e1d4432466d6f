"""Mid rails and mullions as the file says them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, Length, bars, seasons
from sequencer.job.bars import MOST_BARS, widest_light
from sequencer.job.checked import Checked
from sequencer.job.free import with_value
from sequencer.job.kinds import Bar
from sequencer.job.load import load_job
from sequencer.job.schema import Door
from tests.told import inch, refused

JOB = """unit = "in"
{head}
[stock]
thickness = "3/4"
{shared}
[[door]]
{own}
[door.opening]
width = "14 3/16"
height = "22 3/16"
"""
"""A leaf of 14 × 22 in, with stiles and rails of 2 in: 10 × 18 in of sight."""
MID_RAIL = '[[bar]]\nkind = "mid rail"\nwidth = "1"\n'


def door(own: str = "", shared: str = "", head: str = "") -> Door:
    (only,) = load_job(JOB.format(head=head, shared=shared, own=own), "job.toml").doors
    return only


def bar(kind: str, **said: str | int) -> str:
    lines = [f'{k} = "{v}"' if isinstance(v, str) else f"{k} = {v}" for k, v in said.items()]
    return "\n".join(["[[door.bar]]", f'kind = "{kind}"', *lines, ""])


def test_a_doors_bars_stand_instead_of_the_files() -> None:
    mid = Bar("mid rail", Fraction(1), None)
    assert door(shared=MID_RAIL).bars == (mid,)
    assert door(bar("mullion", width="3/4", at="5", row=1), MID_RAIL).bars == (
        Bar("mullion", Fraction(3, 4), Fraction(5), 1),
    )
    assert door("bar = []", MID_RAIL).bars == ()


def test_a_bar_is_as_wide_as_the_top_rail_unless_said() -> None:
    made = door('rails.top = "2 1/2"\n' + bar("mid rail"))
    assert made.bars[0].width == Fraction("2.5")


def test_a_bar_without_a_width_follows_a_top_rail_that_is_left_free() -> None:
    own = 'rails.top = "2 to 2 1/4"\n' + bar("mid rail") + bar("mullion", width="1")
    made = with_value(door(own), "rails.top", Fraction("2.25"))
    assert [each.width for each in made.bars] == [Fraction("2.25"), 1]


def test_bars_are_converted_like_all_lengths() -> None:
    text = JOB.format(head="", shared="", own=bar("mullion", width="1", at="6", row=1))
    (mm,) = load_job(text, "job.toml", "mm").doors
    inch = Fraction(127, 5)
    assert mm.bars == (Bar("mullion", inch, 6 * inch, 1),)


def test_a_files_bars_say_nothing_of_a_slab() -> None:
    year = '[wood]\nmoisture = "8"\n[room]\nregion = "most of the US"\n'
    shared = MID_RAIL + year + '[gaps]\nlock = "1/2"\n'
    assert door("slab = {}\nspecies = 'cherry'", shared).bars == ()


NARROW = bars.SMALL_LIGHT(left=inch("63/64"), way="wide")
LOW = bars.SMALL_LIGHT(left=inch("63/64"), way="high")
SIXTH = bars.SMALL_LIGHT(left=Length(Fraction(5, 6), "in"), way="wide")
WIDE_ENOUGH = bars.WIDE_ENOUGH(least=inch("3/4"), depth=inch("1/4"))
LOWER = bars.SMALL_LIGHT(left=inch("1/2"), way="high")


# Equal mullions of 1 in, lights of at least 1 in: five leave (10 − 5)/6 in, four (10 − 4)/5.
@pytest.mark.parametrize(
    ("good", "bad", "says"),
    [
        (bar("mullion", width="1") * 4, bar("mullion", width="1") * 5, SIXTH),
        # Beside the left stile: from 2 + 1 + 1/2; beside the right one as far.
        (bar("mullion", width="1", at="3 1/2"), bar("mullion", width="1", at="3 31/64"), NARROW),
        (bar("mullion", width="1", at="10 1/2"), bar("mullion", width="1", at="10 33/64"), NARROW),
        # Above the bottom rail 2 + 1 + 1/2, below the top one 22 − 2 − 1 − 1/2.
        (bar("mid rail", width="1", at="3 1/2"), bar("mid rail", width="1", at="3 31/64"), LOW),
        (bar("mid rail", width="1", at="18 1/2"), bar("mid rail", width="1", at="19"), LOWER),
        # Grooves 1/4 in deep along both edges, 1/4 in between them.
        (bar("mullion", width="3/4"), bar("mullion", width="47/64"), WIDE_ENOUGH),
        (
            bar("mid rail", width="1") + bar("mullion", width="1", row=2),
            bar("mid rail", width="1") + bar("mullion", width="1", row=3),
            bars.NO_SUCH_ROW(row=3, rows=2),
        ),
        (
            bar("mullion", width="1", at="5") + bar("mullion", width="1", at="8"),
            bar("mullion", width="1", at="5") + bar("mullion", width="1"),
            bars.PARTLY_PLACED(bar="muntin"),
        ),
        (
            bar("mid rail", width="1") + bar("mullion", width="1", at="5", row=1)
            + bar("mullion", width="1", row=2),
            bar("mid rail", width="1") + bar("mullion", width="1", at="5", row=1)
            + bar("mullion", width="1"),
            bars.PARTLY_PLACED(bar="muntin"),
        ),
    ],
)  # fmt: skip
def test_a_rule_at_its_threshold(good: str, bad: str, says: Fact) -> None:
    assert door(good).bars
    assert says in refused(lambda: door(bad))


def test_t_bridles_may_not_meet() -> None:
    def crossing(joint: str, second: str) -> Door:
        own = f'joint.bars = "{joint}"\n' + bar("mid rail", width="1")
        own += bar("mullion", width="1", at="5", row=1)
        return door(own + bar("mullion", width="1", at=second, row=2))

    assert crossing("stub tenon", "5").bars
    assert crossing("T-bridle", "6").bars
    told = refused(lambda: crossing("T-bridle", "5 63/64"))
    assert told == (bars.BRIDLES_MEET(), bars.STUB_OR_CLEAR())


def test_more_bars_than_anybody_wants() -> None:
    told = refused(lambda: door(bar("mullion", width="1") * (MOST_BARS + 1)))
    assert bars.TOO_MANY(most=MOST_BARS) in told


def test_the_widest_light_is_what_a_panel_moves_in() -> None:
    """10 in of sight: a mullion of 1 in, its middle 5 from the left, leaves 2 1/2 and 6 1/2."""
    made = door(bar("mullion", width="1", at="5"))
    assert widest_light(made, Checked(made, "in").width) == Fraction("6.5")
    assert widest_light(door(), Fraction(14)) == 10


def test_a_mullion_is_a_remedy_for_a_panel_that_moves_too_much() -> None:
    """Wide flat-sawn beech leaves its groove in the driest season; two narrower panels do not."""
    year = '[wood]\nmoisture = "9"\n[room]\ndriest = "5"\nwettest = "12"\n'
    wide = JOB.replace("14 3/16", "20").replace("[[door]]", year + "[[door]]\nspecies = 'beech'")
    wide = wide.replace("{own}", 'gaps.lock = "1/4"\n{own}')
    told = refused(lambda: load_job(wide.format(head="", shared="", own=""), "job.toml"))
    assert seasons.SIDE_BY_SIDE(count=2, between=inch("2")) in told
    own = bar("mullion", width="2")
    (made,) = load_job(wide.format(head="", shared="", own=own), "job.toml").doors
    assert made.bars
