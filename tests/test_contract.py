"""`plan.json`: written and read back without loss, and read strictly."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from sequencer.contract import SCHEMA, from_json, to_json
from sequencer.errors import InputError
from sequencer.facts import Length, shops
from tests.proof import hand

PLAN = hand.make()
TEXT = to_json(PLAN)


def test_round_trip() -> None:
    assert from_json(TEXT) == PLAN
    assert to_json(from_json(TEXT)) == TEXT


def test_words_and_facts_are_written_and_read_in_the_plans_unit() -> None:
    told = shops.SLED_DECK(value=Length(Fraction(18), "mm"))
    shop = replace(PLAN.shop, words="UK")
    plan = replace(PLAN, unit="mm", shop=shop, assumptions=(told,))
    data = json.loads(to_json(plan))
    assert data["shop"]["words"] == "UK"
    assert data["assumptions"] == [{"id": "shop.sled-deck", "with": {"value": "18"}}]
    assert from_json(to_json(plan)) == plan


def test_names_and_shapes_are_the_given_ones() -> None:
    data = json.loads(TEXT)
    assert data["schema"] == SCHEMA == "sequencer-plan/1"
    assert list(data)[:5] == ["schema", "unit", "jobs", "shop", "doors"]
    door = data["doors"][0]
    assert door["opening"] == {"width": "97/8", "height": "129/8"}
    assert door["size"] == {"width": "12", "height": "16"}
    assert door["places"][2] == {
        "mark": "A3",
        "origin": ["-1/32", "14", "0"],
        "axes": ["+x", "+y", "+z"],
    }
    slot = data["parts"][0]["features"][0]
    assert slot["box"] == [["0", "57/32"], ["0", "2"], ["1/4", "1/2"]]
    assert data["sticks"][0]["pieces"][1] == {
        "mark": "A2",
        "from": "267/16",
        "end_a": "left",
        "remarked": True,
    }
    assert [part["inside"] for part in data["parts"]] == [
        "right",
        "left",
        "left",
        "right",
        "left",
    ]
    setup = data["setups"][0]
    assert setup["cautions"] == ["WARNING: The blade stands open. It cuts. Keep hands off."]
    assert setup["guide"] == "2"
    assert setup["move"] is None
    assert data["steps"][1]["cuts"] == [
        {"mark": "#1", "down": "back", "against": "inside-edge", "keeps": "guide", "sweep": False},
    ]
    ordering = data["ordering"]
    assert ordering["before"][0] == ["#1/rip", "#1/groove/first", "reference edge before joinery"]
    assert ordering["operations"][0]["alternatives"][0]["needs"]["carrier"] == ["rip-fence"]
    assert ordering["order"][0]["state"]["height"] == "7/8"


GIVEN: dict[str, list[str]] = {
    "": [
        "schema",
        "unit",
        "jobs",
        "shop",
        "doors",
        "parts",
        "sticks",
        "setups",
        "steps",
        "checkpoints",
        "scrap",
        "ordering",
    ],
    "doors": ["mark", "opening", "size", "hinge", "gaps", "places"],
    "parts": ["mark", "door", "role", "name", "material", "size", "features"],
    "sticks": ["mark", "size", "pieces"],
    "setups": [
        "number",
        "cutter",
        "kerf",
        "tilt",
        "carrier",
        "guard",
        "height",
        "depth",
        "guide",
        "reading",
        "move",
        "saved",
        "minutes",
        "cautions",
    ],
    "steps": ["number", "setup", "kind", "operations", "cuts", "removes"],
    "checkpoints": [
        "before_step",
        "setup",
        "measure",
        "target",
        "low",
        "high",
        "knob",
        "per_unit",
        "feel",
        "scrap",
    ],
    "scrap": ["mark", "stick", "size", "serves"],
}
"""The keys that every program may rely on."""


def test_given_keys_alone_can_be_read() -> None:
    data = json.loads(TEXT)
    bare = {key: data[key] for key in GIVEN[""]}
    bare["shop"] = {"graduation": "1/64"}
    for name, keys in GIVEN.items():
        if name:
            bare[name] = [{key: entry[key] for key in keys if key in entry} for entry in data[name]]
    plan = from_json(json.dumps(bare))
    # The hand was added later: a plan that is older does not tell it.
    assert plan.parts == tuple(replace(part, inside=None) for part in PLAN.parts)
    assert plan.setups[0].cautions[0].hazard.startswith("WARNING: The blade stands open.")
    assert [stick.blank for stick in plan.sticks] == [stick.size for stick in PLAN.sticks]


def test_unknown_keys_are_passed_over() -> None:
    data = json.loads(TEXT)
    data["later"] = 1
    data["setups"][0]["colour"] = "grey"
    assert from_json(json.dumps(data)) == PLAN


def _put(path: str, value: Any) -> str:
    data = json.loads(TEXT)
    place = data
    *way, last = [int(step) if step.isdigit() else step for step in path.split("/")]
    for step in way:
        place = place[step]
    if value is KeyError:
        del place[last]
    else:
        place[last] = value
    return json.dumps(data)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (_put("assumptions/0", "a sentence"), 'assumptions[0]: "a sentence" is no fact'),
        (
            _put("assumptions/0", {"id": "shop.sled-deck", "with": {}}),
            'assumptions[0]: {"id": "shop.sled-deck", "with": {}} is no fact',
        ),
        (_put("shop/words", "FR"), 'shop.words: "FR" is none of US, UK'),
        ("", "plan.json:1:1: not JSON: Expecting value"),
        ("{", "plan.json:1:2: not JSON: Expecting property name enclosed in double quotes"),
        ("[]", "plan.json: a plan is one JSON object"),
        ("{}", 'plan.json: schema is null, not "sequencer-plan/1"'),
        ('{"a": 1, "a": 2}', 'plan.json: not JSON that can be read: key "a" stands twice'),
        ('{"a": NaN}', "plan.json: not JSON that can be read: NaN is no number"),
        (_put("schema", "sequencer-plan/2"), 'plan.json: schema is "sequencer-plan/2"'),
        (_put("setups", KeyError), 'plan.json: plan: key "setups" is missing'),
        (
            _put("setups/0/kerf", 0.125),
            'setups[0].kerf: a number is written as a string, as "23/4", not 0.125',
        ),
        (_put("setups/0/kerf", "2/16"), 'setups[0].kerf: "2/16" is no rational in lowest terms'),
        (_put("setups/0/kerf", "1/0"), 'setups[0].kerf: "1/0" is no rational in lowest terms'),
        (_put("setups/0/kerf", "0.125"), 'setups[0].kerf: "0.125" is no rational in lowest terms'),
        (_put("setups/0/kerf", "9" * 5000), "is no rational in lowest terms"),
        (_put("setups/0/kerf", None), "setups[0].kerf: a number is written as a string"),
        (_put("setups/0/number", True), "setups[0].number: a whole number is wanted, not true"),
        (_put("setups/0/carrier", "router"), 'setups[0].carrier: "router" is none of rip-fence'),
        (_put("unit", "ft"), 'unit: "ft" is none of in, mm'),
        (_put("steps/1/cuts/0/down", "top"), 'steps[1].cuts[0].down: "top" is none of face, back'),
        (
            _put("parts/0/features/0/box", [["0", "1"]]),
            "parts[0].features[0].box: a list of 3 is wanted",
        ),
        (_put("doors/0/size", "12"), "doors[0].size: an object with width and height is wanted"),
        (_put("ordering/order/0/state", []), "ordering.order[0].state: an object is wanted"),
        (_put("shop", 3), "shop: an object is wanted, not 3"),
        ("[" * 100_000, "not JSON that can be read"),
    ],
)
def test_a_bad_file_is_named_with_its_place(text: str, message: str) -> None:
    with pytest.raises(InputError) as error:
        from_json(text)
    assert message in str(error.value)


def test_all_faults_at_once() -> None:
    data = json.loads(TEXT)
    data["setups"][0]["kerf"] = 1
    data["steps"][3]["kind"] = None
    with pytest.raises(InputError) as error:
        from_json(json.dumps(data), "mine.json")
    assert [str(fault).split(":")[:2] for fault in error.value.faults] == [
        ["mine.json", " setups[0].kerf"],
        ["mine.json", " steps[3].kind"],
    ]


def test_exact_numbers_survive() -> None:
    odd = Fraction(-12345678901234567890, 98765432109876543211)
    plan = replace(PLAN, setups=(replace(PLAN.setups[0], move=odd), *PLAN.setups[1:]))
    assert from_json(to_json(plan)).setups[0].move == odd
