"""Files that are edited and changed back, plans that were kept and altered: what was done to wood
stays done, and nothing is shown that is not proven."""

from __future__ import annotations

import json
import sqlite3
from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.facts import answers
from sequencer.sawside import view
from sequencer.sawside.comparing import compared
from sequencer.sawside.fold import current
from sequencer.sawside.kept import sealed, unsealed
from sequencer.wording import Room
from tests.sawside.driver import PANTRY, WALL, Saw, exact, files_of

OTHER = files_of(PANTRY, lambda text: text.replace('"640"', '"650"'))


def test_changing_a_file_back_brings_everything_back(saw: Saw) -> None:
    """Nothing is lost by an edit that was a slip, however often, and in between work goes on: nor
    what was cut and measured after the rest had been planned to suit a slot."""
    saw.go_to_measure("channel-width/slot")
    saw.keep("5.93")
    saw.go_to_measure("tenon")
    saw.step()
    files, units, done = saw.files, dict(saw.state.units), dict(saw.state.done)
    readings = {place: len(each) for place, each in saw.state.readings.items()}
    at = saw.card
    for _ in range(2):
        saw.restart(OTHER)
        assert len(saw.state.units) < len(units)
        kinds = {each.kind: each for each in saw.state.says}
        assert kinds[answers.CUTS_GONE].given["marks"]
        # Said on the page until the first tap.
        assert "look at #2" in view.stand(saw.state)["news"]
        saw.restart(files)
        assert saw.state.units == units
        assert saw.state.done == done
        assert {place: len(each) for place, each in saw.state.readings.items()} == readings
        assert saw.card == at
    saw.restart(OTHER)
    saw.step()
    assert view.stand(saw.state)["news"] == ""
    saw.restart(files)
    assert saw.state.units == units
    saw.finish()


def test_what_was_cut_by_the_other_file_in_between_does_not_come_back(saw: Saw) -> None:
    """A piece that was cut otherwise meanwhile is no longer what it was."""
    saw.go(lambda card, _: card.kind == "work" and card.label == "12")
    saw.tick()
    files, done = saw.files, dict(saw.state.done)
    assert "A3/crosscut" in done
    # The rails shorter: the same strips, cut at another mark.
    saw.restart(files_of(PANTRY, lambda text: text.replace('width = "4', 'width = "3')))
    if "A3/crosscut" in saw.state.done:
        pytest.fail("the change does not touch the rails")
    while current(saw.state) is not None and "A3/crosscut" not in saw.state.done:
        saw.step()
    saw.restart(files)
    assert "A3/crosscut" not in saw.state.done
    assert set(saw.state.done) < set(done)


def test_an_edit_is_shown_before_it_counts(saw: Saw) -> None:
    """Until it is taken everything stands as it did, over restarts too; one that is left aside is
    offered no more, and can be taken later."""
    saw.go_to_measure("channel-width/slot")
    files, labels, units = saw.files, saw.labels(), dict(saw.state.units)
    for _ in range(2):
        saw.restart(OTHER, take=False)
        assert saw.engine.offered == OTHER.digest
        assert (saw.labels(), saw.state.units) == (labels, units)
    after = saw.engine.changed()
    assert after is not None
    told = compared(saw.state, after, OTHER.digest, Room("UK"))
    assert told["digest"] == OTHER.digest
    assert "ticks hold" in told["words"]
    assert "look at #2" in told["words"]
    assert told["lost"][0] == "Step 4: #2, #3"
    assert {"what": "Setup 13: Stop", "before": "518 mm",
            "after": "528 mm"} in told["changes"]  # fmt: skip
    assert (saw.labels(), saw.state.units) == (labels, units)
    # An answer to other files than those that lie there counts for nothing.
    assert not saw.send(kind="adopt", digest=files.digest).kept
    assert not saw.send(kind="adopt", digest=["a"]).kept
    saw.do(kind="decline", digest=OTHER.digest)
    assert saw.engine.offered is None
    saw.tick() if saw.unit.point is None else saw.read(saw.wanted())
    saw.restart(take=False)
    assert saw.engine.offered is None
    assert saw.labels() == labels
    done = dict(saw.state.done)
    # Taken after all, and given back: what was done in between by the old file is there again.
    saw.do(kind="adopt", digest=OTHER.digest)
    assert saw.state.base.digest == OTHER.digest
    assert len(saw.state.done) < len(done)
    saw.restart(files)
    assert saw.state.done == done


def test_an_edit_that_another_program_takes_is_no_edit_of_this_one(saw: Saw) -> None:
    saw.go_to_step("3")
    other = Saw(saw.path, saw.files)
    other.restart(OTHER)
    saw.engine.catch_up()
    assert saw.state.base.digest == OTHER.digest
    assert (saw.engine.edited, saw.engine.offered) == (False, None)
    other.store.close()


def test_leaving_an_edit_aside_can_be_undone(saw: Saw) -> None:
    saw.go_to_step("3")
    saw.restart(OTHER, take=False)
    saw.do(kind="decline", digest=OTHER.digest)
    saw.do(kind="undo", of=saw.state.taps[-1][0])
    assert saw.engine.offered == OTHER.digest


def test_what_nobody_would_see_is_taken_at_once(saw: Saw) -> None:
    """A comment; and any edit before anything is done."""
    saw.restart(OTHER, take=False)
    assert (saw.engine.offered, saw.state.base.digest) == (None, OTHER.digest)
    saw.go_to_step("3")
    remark = files_of(PANTRY, lambda text: text.replace('"640"', '"650"') + "\n# for later\n")
    saw.restart(remark, take=False)
    assert (saw.engine.offered, saw.state.base.digest) == (None, remark.digest)


def kept_plan(path: Path) -> tuple[str, str]:
    db = sqlite3.connect(path)
    (key, text), *_ = db.execute("select key, body from plans where key like 'base %'").fetchall()
    db.close()
    body = unsealed(key, text)
    assert body is not None
    return key, body


def keep(path: Path, key: str, text: str) -> None:
    db = sqlite3.connect(path)
    db.execute("update plans set body = ? where key = ?", (text, key))
    db.commit()
    db.close()


def moved(body: str) -> str:
    """The plan with its first stop eight millimetres off."""
    plan = json.loads(body)
    stop = next(each for each in plan["setups"] if "sled" in each["carrier"] and each["guide"])
    for name in ("guide", "reading"):
        if stop[name] is not None:
            stop[name] = str(Fraction(stop[name]) + 8)
    return json.dumps(plan)


@pytest.mark.parametrize("how", ["altered", "sealed anew", "other version", "of before", "torn"])
def test_a_kept_plan_that_is_wrong_is_made_again(store: Path, how: str) -> None:
    key, body = kept_plan(store)
    older = json.dumps({**json.loads(body), "schema": "sequencer-plan/1"})
    text = {
        "altered": sealed(key, body).replace(body, moved(body)),
        "sealed anew": sealed(key, moved(body)),
        "other version": sealed(key, older),
        "of before": body,
        "torn": sealed(key, body)[: len(body) // 2],
    }[how]
    assert text != sealed(key, body)
    keep(store, key, text)
    saw = Saw(store)
    assert kept_plan(store)[1] == body
    assert saw.state.plan.proven
    saw.store.close()


def test_a_request_that_names_a_list_is_refused_as_any_other(saw: Saw) -> None:
    assert not saw.send(kind="measure", what=["k"], name=["k"], text="3").kept
    assert not saw.send(kind="tick", card=["k"], unit={}).kept
    assert not saw.send(kind=["k"]).kept


@pytest.mark.parametrize(
    ("leaves", "wider"),
    [
        (("0.08", "0.1"), "0.08"),
        (("0.1", "0.08"), "0.08"),
        (("-0.06", "0.09"), "-0.06"),
        (("-0.06", "-0.1"), "-0.1"),
        (("0.09", "0"), "0"),
    ],
)
def test_both_panels_of_a_pair_follow_the_smaller_opening(
    leaves: tuple[str, str], wider: str, tmp_path: Path
) -> None:
    """Up as well as down, whichever leaf is measured first."""
    saw = Saw(tmp_path / "a.sqlite", files_of(WALL))
    saw.go_to_measure("opening-width")
    planned = next(p.size for p in saw.state.plan.parts if p.role == "panel")
    card, off = saw.card, iter(leaves)
    while saw.card is card:
        point = None if saw.unit.point is None else card.points[saw.unit.point]
        if point is None or str(point.measure) != "opening-width":
            saw.step()
            continue
        text = exact(point.exact + Fraction(next(off)), saw.state)
        saw.do(kind="read", card=card.key, unit=saw.unit.name, text=text)
    assert not saw.state.trouble
    panel = next(p.size for p in saw.state.plan.parts if p.role == "panel")
    assert panel.width - planned.width == Fraction(wider)
    saw.store.close()
