"""A cutter's kerf by ordinary readings of jobs, against a saw whose real kerf is known here alone;
and which walls answer to the kerf, against plans of one job with two blades."""

from __future__ import annotations

from collections.abc import Generator, Iterator
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.job.load import load_job
from sequencer.job.shop import load_shop
from sequencer.records import replace
from sequencer.saved import kerfs
from sequencer.saved.command import open_store
from sequencer.saved.evidence import Noted, Reading
from sequencer.saved.listing import kerfs as listed
from sequencer.saved.planning import given_with_saved
from sequencer.saved.store import Store
from sequencer.saw.measures import BETWEEN, TO_FAR, Measure, What
from sequencer.wording import Room
from tests.once import planned
from tests.saved.maker import PASS, READ, SET
from tests.saved.test_story import FIRST

ROOT = Path(__file__).resolve().parents[2]
SHOP = 'unit = "in"\nname = "s"\n[saw]\nid = "s"\n[[cutter]]\nname = "thin"\nkerf = "{}"\n{}'
TAKEN = Fraction(1, 8)


class Sawing:
    """Housings cut at two settings of a stop whose scale is off: the near wall, then the far one,
    each read, and corrected where it is not good."""

    def __init__(self, seed: int, kerf: float, off: float = 0.02) -> None:
        self.chance, self.kerf, self.off, self.count = Random(seed), kerf, off, 0

    def job(self, n: int, taken: Fraction = TAKEN, sharpened: int = 0) -> Iterator[Reading]:
        for _ in range(2):
            near = Fraction(self.chance.randrange(64, 640), 64)
            width = Fraction(3, 8)
            far = near + width - taken
            wall = yield from self.good(n, near, near, taken, sharpened, "to-housing", 0.0)
            yield from self.good(n, far, width, taken, sharpened, "housing-width", wall)

    def good(
        self, n: int, number: Fraction, planned: Fraction, taken: Fraction, sharpened: int,
        measure: str, wall: float,
    ) -> Generator[Reading, None, float]:  # fmt: skip
        """Readings until one is good; where the cut's near side is then."""
        near = measure == "to-housing"
        shown, stands = number, float(number) - self.off + self.chance.gauss(0, SET)
        for _ in range(9):
            here = stands + self.chance.gauss(0, PASS)
            came = here if near else here + self.kerf - wall
            step = Fraction(1, 64) if near else Fraction(1, 1000)
            read = round(Fraction(came + self.chance.gauss(0, READ)) / step) * step
            self.count += 1
            at = f"2025-{n + 1:02d}-01T10:{self.count // 60:02d}:{self.count % 60:02d}"
            yield Reading(
                f"{self.count}", at, f"job {n}", "s", "", "thin", sharpened, "crosscut-sled",
                "stop", taken, "in", number, shown, measure, planned, read, Fraction(1),
                "rule" if near else "caliper",
            )  # fmt: skip
            if abs(read - planned) <= (Fraction(1, 64) if near else Fraction(3, 1000)):
                break
            shown += planned - read
            stands += float(planned - read) + self.chance.gauss(0, SET / 2)
        return here


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "settings.sqlite"


@pytest.mark.parametrize("seed", range(5))
def test_the_kerf_comes_out_of_housings_whatever_the_scale_is_off(path: Path, seed: int) -> None:
    """The blade is four thousandths thinner than the file says, and nobody measures it."""
    saw = Sawing(seed, 0.121)
    with Store(path, lambda: "now") as store:
        for n in range(9):
            if n == 4:
                saw.off += 0.03  # the stop was knocked: no matter
            store.note(saw.job(n))
        found = store.kerf("s", "thin", 0, "in", TAKEN)
        assert store.kerf("another saw", "thin", 0, "in") is None
        assert store.kerf("s", "thin", 1, "in") is None
        (line,) = listed(store.kerfs("in"), "in", Room("US"))
        assert line.startswith("s, thin: kerf 0.12")
    assert found is not None
    assert found.count >= kerfs.LEAST
    assert abs(float(found.kerf) - 0.121) < 3 * float(found.sigma) < 0.006
    assert found.differs(TAKEN)
    assert not found.since


@pytest.mark.parametrize("seed", range(3))
def test_a_blade_that_came_back_thinner_is_noticed(path: Path, seed: int) -> None:
    """The file says nothing of the grinder: the cuts do, and since when."""
    saw = Sawing(seed, 0.125)
    with Store(path, lambda: "now") as store:
        for n in range(10):
            if n == 5:
                saw.kerf = 0.105
            store.note(saw.job(n))
        found = store.kerf("s", "thin", 0, "in", TAKEN)
    assert found is not None
    assert found.since.startswith("2025-06")
    assert abs(float(found.was) - 0.125) < 0.004
    assert abs(float(found.kerf) - 0.105) < 0.004


JOB = load_job(FIRST, "job.toml")


def told(path: Path, kerf: str = "0.125", more: str = "") -> tuple[Fraction, list[list[str]]]:
    shop = load_shop(SHOP.format(kerf, more), "shop.toml", "in")
    known, trouble = given_with_saved(str(path), [JOB], shop)
    return known.cutter.kerf, [[fact.kind.id for fact in each] for each in trouble]


def test_a_plan_takes_it_and_says_so(path: Path) -> None:
    saw = Sawing(1, 0.119)
    with Store(path, lambda: "now") as store:
        store.note(saw.job(0))
    assert told(path) == (TAKEN, [])  # two cuts are too few
    with Store(path, lambda: "now") as store:
        for n in range(1, 6):
            store.note(saw.job(n))
    kerf, said = told(path)
    assert abs(float(kerf) - 0.119) < 0.003
    assert said == [["command.kerf-by-cuts", "command.write-kerf"]]
    # Whoever writes another kerf, or that the blade was sharpened, knows better.
    assert told(path, "0.118") == (Fraction(59, 500), [])
    assert told(path, more="sharpened = 1\n") == (TAKEN, [])
    # What was measured by itself after all these cuts holds.
    with open_store(str(path)) as store:
        store.note([
            Noted("m", "2025-11-01T10:00:00", "job", "s", "kerf", "thin", TAKEN, Fraction("0.12"),
                  "in")
        ])  # fmt: skip
    kerf, said = told(path)
    assert (kerf, said[0][0]) == (Fraction("0.12"), "command.kerf-as-measured")


def test_a_kerf_that_is_as_the_file_says_is_not_told_of(path: Path) -> None:
    saw = Sawing(2, 0.125)
    with Store(path, lambda: "now") as store:
        for n in range(8):
            store.note(saw.job(n))
    assert told(path) == (TAKEN, [])


def test_a_change_is_asked_about(path: Path) -> None:
    saw = Sawing(3, 0.125)
    with Store(path, lambda: "now") as store:
        for n in range(10):
            saw.kerf = 0.125 if n < 5 else 0.105
            store.note(saw.job(n))
    assert told(path)[1] == [["command.kerf-changed", "command.count-sharpening"]]


@given(st.floats(-0.03, 0.03), st.integers(4, 20), st.integers(0, 100))
def test_one_slip_of_a_caliper_moves_little(slip: float, count: int, seed: int) -> None:
    """However far it is off, the middle stays among the others."""
    chance = Random(seed)
    true = [0.125 + chance.gauss(0, 0.002) for _ in range(count)]
    seen = [kerfs.Told(f"{n:02d}", "job", kerf) for n, kerf in enumerate(true)]
    before = kerfs.fit(seen, "in")
    seen[count // 2] = kerfs.Told("", "job", true[count // 2] + slip)
    after = kerfs.fit(seen, "in")
    assert before is not None
    assert after is not None
    fine = 0.0005
    assert min(true) - fine <= float(after.kerf) <= max(true) + fine


@pytest.mark.parametrize(
    "example",
    [
        "spice-cupboard",
        pytest.param("china-cabinet", marks=pytest.mark.large),
        pytest.param("linen-press", marks=pytest.mark.large),
    ],
)
def test_walls_answer_to_the_kerf_as_plans_with_two_blades_have_it(example: str) -> None:
    """The same doors with another blade: where the guide gives way by as much as the kerf grew, the
    far side makes what is measured; where it stays, the near side does."""
    file = ROOT / "examples" / example / "job.toml"
    job = load_job(file.read_text("utf-8"), str(file))
    seen: dict[str, set[tuple[What, Fraction, Fraction]]] = {}
    for kerf in ("0.125", "0.121"):
        shop = load_shop(f'unit = "{job.unit}"\nname = "s"\n', "shop.toml", job.unit)
        blade = shop.joinery_blade
        thin = Fraction(kerf) * (1 if job.unit == "in" else Fraction(127, 5))
        shop = replace(shop, cutters=tuple(
            replace(c, kerf=thin, plate=None) if c is blade else c for c in shop.cutters
        ))  # fmt: skip
        made = planned([job], shop)
        setups = {setup.number: setup for setup in made.setups}
        for check in made.checkpoints:
            if check.setup is None or check.knob in (None, "height") or not check.per_unit:
                continue
            number = setups[check.setup].along
            assert number is not None
            seen.setdefault(kerf, set()).add((check.measure.what, check.exact, number))
    grown = (Fraction("0.125") - Fraction("0.121")) * (1 if job.unit == "in" else Fraction(127, 5))
    for what, exact, number in seen["0.125"]:
        then = [n for w, e, n in seen["0.121"] if (w, e) == (what, exact)]
        if not then:
            continue
        far = what in TO_FAR or what in (What.SHOULDERS, What.HOUSING_WIDTH)
        far |= what is What.CHANNEL_WIDTH and example == "spice-cupboard"
        assert any(n - number == (grown if far else 0) for n in then), what
    assert any(what in BETWEEN for what, _, _ in seen["0.125"]) or example == "none"


def test_a_rule_tells_no_kerf(path: Path) -> None:
    saw = Sawing(5, 0.121)
    with Store(path, lambda: "now") as store:
        for n in range(4):
            store.note(replace(each, tool="rule") for each in saw.job(n))
        assert store.kerf("s", "thin", 0, "in") is None


def test_a_setting_with_a_name_of_its_own_is_passed_over(path: Path) -> None:
    saw = Sawing(4, 0.121)
    (first, *_) = saw.job(0)
    with Store(path, lambda: "now") as store:
        store.note([replace(first, measure="a wall", uid="w")])
        assert store.kerf("s", "thin", 0, "in") is None
    assert Measure(What.TO_HOUSING).what in BETWEEN.values()
