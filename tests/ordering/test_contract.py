"""The JSON contract, the command, and everything that a problem file may have wrong."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given

from sequencer.errors import InputError
from sequencer.ordering import Problem, as_json, check, from_json
from sequencer.ordering.contract import read
from sequencer.ordering.problem import Placed
from sequencer.wording import Room
from tests.benchmarks.doors import anywhere, job
from tests.ordering.problems import problems

GOOD: dict[str, Any] = {
    "knobs": [
        {"name": "height", "minutes": "1", "by_value": {"7/8": "1/2"}},
        {"name": "fence", "minutes": 2},
    ],
    "operations": [
        {"id": "rip", "alternatives": [{"minutes": "0", "needs": {"height": ["7/8", "1"]}}]},
        {"id": "crosscut", "alternatives": [{"needs": {"height": ["1"], "fence": ["9"]}}]},
    ],
    "before": [["rip", "crosscut", "rip on the long stick"]],
}


def _run(*arguments: str, text: str = "", seed: str = "0") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "sequencer.ordering", *arguments],
        input=text,
        text=True,
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONHASHSEED": seed},
        cwd=Path(__file__).parents[2],
        timeout=120,
    )


@given(problems(6))
def test_a_problem_survives_its_json(problem: Problem) -> None:
    again = from_json(json.loads(json.dumps(as_json(problem))), "p.json")
    assert as_json(again) == as_json(problem)
    assert again == problem


def test_the_command_prints_one_object_that_the_checker_accepts(tmp_path: Path) -> None:
    file = tmp_path / "problem.json"
    file.write_text(json.dumps(GOOD), encoding="utf-8")
    done = _run(str(file))
    assert (done.returncode, done.stderr) == (0, "")
    found = json.loads(done.stdout)
    assert sorted(found) == ["bound", "minutes", "order", "proven"]
    # Height straight to 1, which both accept, and the fence: by hand 1 + 2.
    assert (found["minutes"], found["bound"], found["proven"]) == ("3", "3", True)
    assert found["order"] == [
        {"operation": "rip", "alternative": 0, "state": {"height": "1"}},
        {"operation": "crosscut", "alternative": 0, "state": {"height": "1", "fence": "9"}},
    ]
    problem = from_json(GOOD, "p.json")
    ids = [operation.id for operation in problem.operations]
    steps = [
        Placed(ids.index(step["operation"]), step["alternative"], step["state"])
        for step in found["order"]
    ]
    assert check.recompute(problem, steps).minutes == Fraction(found["minutes"])


def test_free_first_settings_start_and_done_are_read() -> None:
    free = _run("-", text=json.dumps({**GOOD, "first_setting": "free"}))
    assert json.loads(free.stdout)["minutes"] == "0"
    begun = _run("-", text=json.dumps({**GOOD, "start": {"height": "7/8"}, "done": ["rip"]}))
    assert [step["operation"] for step in json.loads(begun.stdout)["order"]] == ["crosscut"]


def test_a_limit_that_bit_is_reported() -> None:
    text = json.dumps(as_json(job(anywhere(3, 1)).problem))
    done = _run("-", "--seconds", "0", text=text)
    assert done.returncode == 0
    found = json.loads(done.stdout)
    assert found["proven"] is False
    assert Fraction(found["bound"]) < Fraction(found["minutes"])
    above = Room("UK").minutes(Fraction(found["minutes"]) - Fraction(found["bound"]))
    assert done.stderr == (
        f"the limit of seconds ended the search; at most {above} above the best\n"
    )


def test_same_bytes_whatever_the_hash_seed() -> None:
    text = json.dumps(as_json(job(anywhere(4, 3)).problem))
    first, second = _run("-", text=text, seed="1"), _run("-", text=text, seed="2")
    assert first.returncode == 0
    assert first.stdout == second.stdout


def _changed(**changes: Any) -> dict[str, Any]:
    return {**GOOD, **changes}


def _operation(**changes: Any) -> dict[str, Any]:
    return _changed(operations=[{**GOOD["operations"][0], **changes}, GOOD["operations"][1]])


def _needs(needs: Any) -> dict[str, Any]:
    return _operation(alternatives=[{"needs": needs}])


def _knob(**changes: Any) -> dict[str, Any]:
    return _changed(knobs=[{**GOOD["knobs"][0], **changes}, GOOD["knobs"][1]])


NEAR = "problem.did-you-mean(name=crosscut)"
A_MINUTES = 'knob "a", minutes'


def unlike(place: str, wanted: str, value: str) -> str:
    return f"problem.not-wanted(place={place}, wanted=problem.{wanted}(), value={value})"


FAULTY: list[tuple[Any, list[str]]] = [
    (
        [],
        [
            "problem.the-problem(wanted=problem.an-object(), value=[])",
            "problem.missing(key=knobs)",
            "problem.missing(key=operations)",
            "problem.missing(key=before)",
        ],
    ),
    (
        _changed(before=[["rip", "crosscut"], ["crosscut", "rip"]]),
        ["order.before-itself(chain=(rip, crosscut, rip))"],
    ),
    (
        _changed(before=[["rip", "rip"]]),
        ["order.before-itself(chain=(rip, rip))"],
    ),
    (_operation(alternatives=[]), ["order.no-way(operation=rip)"]),
    (
        _needs({"hieght": ["1"]}),
        ["order.needs-unknown(what=order.way(operation=rip, way=0), knob=hieght)"],
    ),
    (
        _needs({"height": []}),
        ["order.accepts-nothing(what=order.way(operation=rip, way=0), knob=height)"],
    ),
    (
        _needs({"height": "1"}),
        [unlike('operation "rip", alternative 0, needs "height"', "values", '"1"')],
    ),
    (
        _needs({"height": [1]}),
        [unlike('operation "rip", alternative 0, needs "height"', "a-text", "1")],
    ),
    (
        _needs(["height"]),
        [unlike('operation "rip", alternative 0, needs', "an-object", '["height"]')],
    ),
    (
        _operation(id="crosscut"),
        [
            'problem.no-operation(place=before 1, name="rip", near=None)',
            "order.named-again(what=order.operation(name=crosscut), n=2)",
        ],
    ),
    (
        _operation(id=7),
        [
            unlike("operation 1, id", "a-text", "7"),
            'problem.no-operation(place=before 1, name="rip", near=None)',
        ],
    ),
    (
        _operation(alternatives={"minutes": "0"}),
        [
            unlike('operation "rip", alternatives', "a-list", '{"minutes": "0"}'),
            "order.no-way(operation=rip)",
        ],
    ),
    (
        _operation(alternatives=[{"minutes": "-1", "needs": {}}]),
        ["order.costs-less-than-nothing(what=order.way(operation=rip, way=0), minutes=-1)"],
    ),
    (
        _operation(alternatives=[{"minute": "1", "needs": {}}]),
        ['problem.unknown-key(place=operation "rip", alternative 0, key=minute, near=minutes)'],
    ),
    (
        _changed(before=[["rip", "croscut"]]),
        [
            f'problem.no-operation(place=before 1, name="croscut", near={NEAR})',
        ],
    ),
    (_changed(before=[["rip"]]), [unlike("before 1", "a-pair", '["rip"]')]),
    (_changed(before={}), [unlike("before", "a-list", "{}")]),
    (
        _knob(name="fence"),
        [
            "order.named-again(what=order.knob(name=fence), n=2)",
            "order.needs-unknown(what=order.way(operation=rip, way=0), knob=height)",
            "order.needs-unknown(what=order.way(operation=crosscut, way=0), knob=height)",
        ],
    ),
    (_knob(minutes="one"), [unlike('knob "height", minutes', "a-number", '"one"')]),
    (_knob(minutes="1/0"), [unlike('knob "height", minutes', "a-number", '"1/0"')]),
    (_knob(minutes="1e99"), [unlike('knob "height", minutes', "a-number", '"1e99"')]),
    (_knob(minutes=True), [unlike('knob "height", minutes', "a-number", "true")]),
    (
        _knob(minutes="-2"),
        ["order.costs-less-than-nothing(what=order.knob(name=height), minutes=-2)"],
    ),
    (
        _knob(by_value={"1": "-2"}),
        ["order.costs-less-than-nothing(what=order.knob-at(name=height, value=1), minutes=-2)"],
    ),
    (_knob(tie="1"), [unlike('knob "height", tie', "whole-number", '"1"')]),
    (
        _changed(knobs=[{"name": "height"}, GOOD["knobs"][1]]),
        ['problem.missing-at(place=knob "height", key=minutes)'],
    ),
    (_changed(first_setting="gratis"), ['problem.first-setting(value="gratis")']),
    (_changed(start={"stop": "1"}), ["order.starts-unknown(knob=stop)"]),
    (_changed(done=["glue"]), ['problem.no-operation(place=done, name="glue", near=None)']),
]


@pytest.mark.parametrize(("data", "messages"), FAULTY)
def test_every_fault_is_named(data: Any, messages: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        from_json(data, "p.json")
    assert [str(fault.message) for fault in caught.value.faults] == messages


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "p.json:1:1: problem.not-json()"),
        ('{"knobs": [}', "p.json:1:12: problem.not-json()"),
        ("[" * 100_000, "p.json: problem.too-deep()"),
        (
            '{"knobs": [], "knobs": [], "operations": [], "before": []}',
            "p.json: problem.key-twice(key=knobs)",
        ),
        (
            '{"knobs": [{"name": "a", "minutes": 1e400}], "operations": [], "before": []}',
            f"p.json: {unlike(A_MINUTES, 'a-number', '1e400')}",
        ),
        (
            '{"knobs": [{"name": "a", "minutes": NaN}], "operations": [], "before": []}',
            f"p.json: {unlike(A_MINUTES, 'a-number', 'NaN')}",
        ),
    ],
)
def test_text_that_is_no_problem(text: str, message: str) -> None:
    with pytest.raises(InputError) as caught:
        read(text, "p.json")
    assert str(caught.value).splitlines()[0] == message


def test_decimals_are_exact() -> None:
    problem = read(
        '{"knobs": [{"name": "a", "minutes": 0.1}], "operations": [], "before": []}', "p.json"
    )
    assert problem.knobs[0].minutes == Fraction(1, 10)


def test_all_faults_at_once_and_the_exit_code(tmp_path: Path) -> None:
    bad = _changed(before=[["crosscut", "rip"], ["rip", "crosscut"]], start={"stop": "1"})
    bad["operations"] = [*GOOD["operations"], {"id": "none", "alternatives": []}]
    done = _run("-", text=json.dumps(bad))
    assert (done.returncode, done.stdout) == (3, "")
    assert done.stderr.splitlines() == [
        '-: operation "none" has no alternative',
        '-: start sets an unknown knob "stop"',
        "-: each of these would have to come before the next, in a ring: rip, crosscut, rip",
    ]
    missing = _run(str(tmp_path / "missing.json"))
    assert missing.returncode == 3
    assert f"cannot be read: {os.strerror(errno.ENOENT)}" in missing.stderr
    (tmp_path / "binary.json").write_bytes(b"\xff\xfe\x00")
    assert "is not UTF-8 at byte 0" in _run(str(tmp_path / "binary.json")).stderr
    assert _run().returncode == 2
    assert _run("-", "--seconds", "-1", text="{}").returncode == 2
