"""A page above the saw an evening: which setups stand on it, and what the saw is left with."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations
from typing import Any

import pytest
import weasyprint  # type: ignore[import-untyped]  # it ships no types
from hypothesis import given
from hypothesis import strategies as st

from sequencer.instructions.figures import Scale
from sequencer.plan import Plan
from sequencer.sheets import html
from sequencer.sheets.above import above
from sequencer.sheets.blocks import blocks
from sequencer.sheets.evenings import Row, parted
from sequencer.sheets.heights import WIDE
from sequencer.sheets.pinned import HIGH, LARGE, Pinned, pinned
from sequencer.sheets.pins import Bench, Pin, high
from sequencer.sheets.render import drawn_apart, paper_for
from sequencer.wording import for_plan
from tests.reader.jobs import planned
from tests.sheets.jobs import plan_of

MOST = 300.0
benches = st.builds(Row, st.sampled_from((14.0, 34.0)), minutes=st.just(0.0), setup=st.just(False))
rows = st.lists(
    st.builds(
        Row,
        high=st.sampled_from((14.0, 78.0, 98.0, 140.0)),
        minutes=st.sampled_from((1.0, 3.5, 11.0)),
        setup=st.just(True),
        stand=st.sampled_from((0, 1, 2)),
        last=st.sampled_from((14.0, 24.0)),
    )
    | benches,
    min_size=1,
    max_size=9,
).filter(lambda made: any(row.setup for row in made))


def pages(evening: list[Row], under: float) -> int:
    """How many pages of two columns it takes."""
    columns, used = 1, 0.0
    for tall in [*(row.high for row in evening), *([under] if under else [])]:
        if used and used + tall > MOST:
            columns, used = columns + 1, 0.0
        used += tall
    return (columns + 1) // 2


def cost(made: list[Row], starts: tuple[int, ...]) -> float:
    """By the words of `parted`: pages beyond one an evening, how unlike evenings are in length, and
    what stands over night."""
    mean = sum(row.minutes for row in made) / (len(starts))
    ends = [*starts[1:], len(made)]
    evenings = [made[start:end] for start, end in zip(starts, ends, strict=True)]
    under = [*(made[start].last for start in starts[1:]), 0.0]
    over = sum(pages(each, low) - 1 for each, low in zip(evenings, under, strict=True))
    uneven = sum((sum(row.minutes for row in each) / mean - 1) ** 2 for each in evenings)
    return 100 * over + uneven + sum(made[start].stand for start in starts[1:]) / 4


def ways(made: list[Row], count: int) -> list[tuple[int, ...]]:
    """All partings: an evening begins with a setup, and the first with all before it."""
    setups = [at for at, row in enumerate(made) if row.setup]
    return [(0, *chosen) for chosen in combinations(setups[1:], count - 1)]


@given(rows, st.integers(1, 4))
def test_no_parting_is_better(made: list[Row], count: int) -> None:
    found = ways(made, count)
    if not found:
        return
    starts = tuple(parted(made, MOST, count))
    assert starts in found
    assert cost(made, starts) == pytest.approx(min(cost(made, each) for each in found))


@given(rows)
def test_untold_there_are_as_few_as_go_on_a_page_each(made: list[Row]) -> None:
    starts = parted(made, MOST, None)
    assert cost(made, tuple(starts)) < 100
    for count in range(1, len(starts)):
        assert all(cost(made, each) >= 100 for each in ways(made, count))


def sheets_of(
    plan: Plan, evenings: int | None, paper: str = "", *, brief: bool = False
) -> tuple[Pinned, ...]:
    room = for_plan(plan)
    made = blocks(plan, Scale.of(plan, room))
    return pinned(plan, made, paper or paper_for(plan), room, brief=brief, evenings=evenings)


def rows_of(sheet: Pinned) -> list[Pin | Bench]:
    return [row for column in sheet.columns for row in column]


def numbers(sheet: Pinned) -> list[int]:
    return [row.number for row in rows_of(sheet) if isinstance(row, Pin)]


@pytest.mark.parametrize("evenings", [None, 1, 2, 3])
@pytest.mark.parametrize("name", ["wall-cabinet", "clock-case", "china-cabinet"])
def test_each_setup_stands_on_one_page_and_all_minutes_are_told(
    name: str, evenings: int | None
) -> None:
    plan, _ = planned(name)
    sheets = sheets_of(plan, evenings)
    assert [n for sheet in sheets for n in numbers(sheet)] == [s.number for s in plan.setups]
    assert sum(plan.taking.values()) == plan.ordering.minutes
    room = for_plan(plan)
    for sheet in sheets:
        told = sum((plan.taking[n] for n in numbers(sheet)), Fraction(0))
        alone = len(sheets) == 1
        assert (room.minutes(told) in sheet.setups) != alone
    if evenings and evenings > 1:
        whole = [sheet.setups.partition(":")[0] for sheet in sheets]
        assert [*dict.fromkeys(whole)] == [
            f"evening {n} of {evenings}" for n in range(1, evenings + 1)
        ]


@pytest.mark.parametrize("most", range(350, 390, 4))
def test_what_has_to_stand_is_told_where_an_evening_takes_several_pages(
    most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On whatever page it comes to stand; what is done at the bench before it too."""
    monkeypatch.setitem(HIGH, "letter", float(most))
    plan, _ = planned("wall-cabinet")
    sheets = sheets_of(plan, 2)
    rows = [row for sheet in sheets for row in rows_of(sheet)]
    told = [row.numbers for row in rows if isinstance(row, Bench)]
    assert sum(each.startswith("until setup ") for each in told) == 1
    assert {"steps 1–2", "step 21"} <= set(told)
    assert not any(sheet.setups.endswith(": ") for sheet in sheets)


@pytest.mark.parametrize("name", ["wall-cabinet", "broom-cupboard", "china-cabinet"])
def test_what_has_to_stand_over_night_is_told(name: str) -> None:
    """Against the states of the order: a setting that the next setup which goes by it has as it was
    at the end of the evening."""
    plan, _ = planned(name)
    state: dict[int, dict[str, str]] = {}
    setup_of = {each: step.setup for step in plan.steps for each in step.operations}
    for placed in plan.ordering.order:
        if (number := setup_of.get(placed.operation)) is not None:
            state[number] = dict(placed.state)
    at_night = 0
    for evenings in (2, 3, 5, len(plan.setups)):
        for sheet in sheets_of(plan, evenings)[:-1]:
            *_, last = rows_of(sheet)
            done = numbers(sheet)[-1]
            assert isinstance(last, Bench)
            assert last.numbers == f"until setup {done + 1}"
            told = set(last.titles.partition(": ")[2].replace(" and ", ", ").split(", ")) - {""}
            wanted: set[str] = set()
            met: set[str] = set()
            for setup in plan.setups[done:]:
                fence = plan.shop.guide_knob(setup.carrier)
                for knob in ("height", fence):
                    if knob in met or (knob == fence and setup.guide is None):
                        continue
                    met.add(knob)
                    if state[done].get(knob) == state[setup.number][knob]:
                        wanted.add(knob)
            assert told == wanted, (evenings, done)
            at_night += bool(told)
    assert at_night


@pytest.mark.parametrize(
    ("name", "evenings"),
    [
        ("pantry", 2),
        ("dresser", None),
        ("broom-cupboard", 3),
        pytest.param("linen-press", None, marks=pytest.mark.large),
        pytest.param("wall-cabinet", 4, marks=pytest.mark.large),
    ],
)
def test_an_evening_is_a_page_in_print_and_no_row_is_higher_than_reckoned(
    name: str, evenings: int | None
) -> None:
    plan, _ = planned(name)
    paper = paper_for(plan)
    document = weasyprint.HTML(string=above(plan, paper, evenings)).render()
    _, larger, _ = LARGE[paper]
    as_reckoned(document.pages, sheets_of(plan, evenings, f"{paper} twice"), paper, larger)


def test_an_evening_is_a_page_of_the_short_form_too() -> None:
    plan, _ = planned("wall-cabinet")
    document = weasyprint.HTML(string=drawn_apart(html(plan, short=True, evenings=3))).render()
    as_reckoned(document.pages[-3:], sheets_of(plan, 3, brief=True), "letter", 1.0)


def as_reckoned(
    printed: Sequence[Any], sheets: Sequence[Pinned], paper: str, larger: float
) -> None:
    """Each row on its page, and no higher than reckoned."""
    for sheet, page in zip(sheets, printed, strict=True):
        boxes = [box for box in page._page_box.descendants() if type(box).__name__ == "BlockBox"]
        found = {box.element.get("id"): box.height * 0.75 / larger for box in boxes}
        beside = sheet.times > 1
        wide = WIDE[paper] / sheet.times if beside else WIDE[paper] / 2 - 12
        for row in rows_of(sheet):
            if isinstance(row, Pin):
                reckoned = high(row, wide, beside=beside) * sheet.times
                assert reckoned - 36 < found[f"pin-{row.number}"] <= reckoned


def test_fewer_setups_on_a_page_are_larger() -> None:
    plan, _ = planned("wall-cabinet")
    (one,), two, three = (sheets_of(plan, evenings) for evenings in (1, 2, 3))
    assert one.times == 1
    assert all(sheet.times > 1.2 for sheet in (*two, *three))
    assert min(sheet.times for sheet in three) > min(sheet.times for sheet in two)


def test_evenings_are_told_on_the_pages_of_the_plan() -> None:
    page = html(plan_of("single"), evenings=2)
    assert page.count('<section class="pinned"') == 2
    assert "evening 2 of 2: " in page
