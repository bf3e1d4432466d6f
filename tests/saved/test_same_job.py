"""What was measured of a job's boards and frames: it is there for the next plan of that job and for
its pieces made again, and for no other job."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sequencer import pipeline
from sequencer.cli.run import main
from sequencer.contract import from_json, to_json
from sequencer.job.identity import same, whole
from sequencer.job.load import load_job
from sequencer.job.schema import Job
from sequencer.job.shop import load_shop
from sequencer.measured import Measured
from sequencer.plan import Plan
from sequencer.records import replace
from sequencer.saved.evidence import Noted
from sequencer.saved.planning import given_with_saved
from sequencer.saved.store import Store
from tests.saved.test_known_saw import HUTCH, OWN
from tests.saved.test_story import FIRST, SECOND
from tests.sawside.test_saving import Keeping

SHOP = load_shop(OWN, "shop.toml", "in")
THIN = Fraction("0.735")


def job(text: str) -> Job:
    return load_job(text, "job.toml")


def measure(saw: Keeping) -> None:
    """The frame's boards, the thinnest and the thickest of them, then the panel's as planned."""
    saw.read("0.735")
    saw.read("0.735")
    saw.tick()
    saw.read(saw.wanted())
    saw.read(saw.wanted())


def kept_of(path: Path) -> list[Noted]:
    with Store(path, lambda: "now") as store:
        return [each for each in store.noted() if each.what == "thickness"]


@pytest.fixture(scope="module")
def settings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The hutch was followed; its boards came out of the planer thinner than 3/4."""
    folder = tmp_path_factory.mktemp("same")
    saw = Keeping(folder / "events.sqlite", HUTCH)
    saw.go_to_measure("stock")
    assert saw.card.points[saw.unit.point or 0].target == Fraction(3, 4)
    measure(saw)
    return saw.settings


def planned(text: str, settings: Path) -> tuple[Plan, list[str]]:
    given, trouble = given_with_saved(str(settings), [job(text)], SHOP)
    return pipeline.planned(given), [fact.kind.id for each in trouble for fact in each]


def thick(plan: Plan) -> set[Fraction]:
    return {part.size.thickness for part in plan.parts if part.role in ("stile", "rail")}


def test_the_same_job_has_its_boards_as_they_were_measured(settings: Path) -> None:
    (seen,) = kept_of(settings)
    assert (seen.planned, seen.value) == (Fraction(3, 4), THIN)
    made, said = planned(FIRST, settings)
    measured = Measured(thickness={Fraction(3, 4): THIN})
    assert thick(made) == {THIN}
    assert made.proven
    assert made.thickness == {"3/4": THIN}
    assert from_json(to_json(made)) == made
    assert said == ["command.thickness-as-measured", "command.other-boards"]
    # With another rail it is the same job still.
    other = [job(FIRST.replace('bottom = "2 1/4"', 'bottom = "2 3/8"'))]
    assert given_with_saved(str(settings), other, SHOP)[0].measured == measured


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(SECOND, id="another job"),
        pytest.param(FIRST.replace('width = "14"', 'width = "15"'), id="another opening"),
        pytest.param(FIRST.replace('name = "hutch"', 'name = "case"'), id="another name"),
        pytest.param(FIRST.replace("cherry", "black walnut"), id="another wood"),
        pytest.param(FIRST.replace('thickness = "3/4"', 'thickness = "7/8"'), id="other stock"),
    ],
)
def test_other_boards_are_what_their_own_job_says(settings: Path, text: str) -> None:
    given, trouble = given_with_saved(str(settings), [job(text)], SHOP)
    assert given.measured.thickness == {}
    assert trouble == []


def test_it_is_seen_and_forgotten(
    settings: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = tmp_path / "settings.sqlite"
    own.write_bytes(settings.read_bytes())
    (seen,) = kept_of(own)
    name = f"n{seen.number}"
    assert main(["setups", "--settings", str(own), "readings"]) == 0
    shown = capsys.readouterr().out
    assert [line for line in shown.splitlines() if line.startswith(f"{name} ") and "hutch" in line]
    assert main(["setups", "--settings", str(own), "forget", name]) == 0
    given, trouble = given_with_saved(str(own), [job(FIRST)], SHOP)
    assert (given.measured.thickness, trouble) == ({}, [])


@pytest.mark.large
def test_whoever_follows_such_a_plan_goes_on_from_it(settings: Path, tmp_path: Path) -> None:
    """The next follower of the job begins with the boards as they are; what its own file of events
    found of them is not taken a second time."""
    (tmp_path / "settings.sqlite").write_bytes(settings.read_bytes())
    saw = Keeping(tmp_path / "events.sqlite", HUTCH)
    assert thick(saw.state.base.plan) == {THIN}
    assert saw.state.base.given.measured.thickness == {Fraction(3, 4): THIN}
    saw.go_to_measure("stock")
    assert saw.card.points[saw.unit.point or 0].exact == THIN
    measure(saw)
    assert thick(saw.state.plan) == {THIN}
    (seen,) = kept_of(settings)
    follows = seen.uid.partition("/")[0]
    given, trouble = given_with_saved(str(settings), [job(FIRST)], SHOP, follows)
    assert (given.measured.thickness, trouble) == ({}, [])


def test_a_piece_is_made_again_as_its_mates_were_found(
    settings: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file of events is gone, as on another machine: the memory has what was measured."""
    own, events = tmp_path / "settings.sqlite", tmp_path / "data"
    own.write_bytes(settings.read_bytes())
    monkeypatch.setenv("XDG_DATA_HOME", str(events))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(FIRST)
    (tmp_path / "shop.toml").write_text(OWN)
    before = pipeline.plan([job(FIRST)], SHOP)
    Path("printed.json").write_text(to_json(before))
    with Store(own, lambda: "now") as store:
        (board,) = kept_of(own)
        wide = replace(
            board, uid="x/slot", what="slot", planned=Fraction(1, 4), value=Fraction("0.253")
        )
        store.note([wide, replace(wide, uid="y/slot", belongs=whole([job(SECOND)]))])
    assert main([
        "recut", "job.toml", "A3", "--plan", "printed.json", "--shop", "shop.toml",
        "--settings", str(own), "-o", "again", "--no-pdf",
    ]) == 0  # fmt: skip
    made = from_json(Path("again/plan.json").read_text())
    (rail,) = made.parts
    assert rail.size.thickness == THIN
    cheeks = [f.box[2] for f in rail.features if f.kind == "cheek"]
    tenon = THIN - sum(high - low for low, high in set(cheeks))
    planned_tenon = Fraction("0.25") - job(FIRST).doors[0].joint.clearance
    assert tenon == planned_tenon + Fraction("0.003")
    assert "command.as-found" in {note.kind.id for note in made.notes}


def test_jobs_are_told_apart_by_name_wood_and_openings() -> None:
    one = whole([job(FIRST)])
    assert same(one, one)
    assert not same(one, "")
    assert not same("", "")
    assert not same(one, whole([job(FIRST), job(SECOND)]))
    assert not same(one, whole([replace(job(FIRST), doors=())]))
