"""`plan.json`: written and read back without loss, and read strictly."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest

from sequencer.contract import SCHEMA, from_json, to_json
from sequencer.errors import InputError
from sequencer.facts import Fact, Length, shops
from sequencer.records import replace
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
    assert data["schema"] == SCHEMA == "sequencer-plan/2"
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
    assert setup["cautions"] == [
        {"rule": "G02", "word": "DANGER", "id": "caution.g02", "with": {},
         "source": "common practice"}
    ]  # fmt: skip
    assert setup["guide"] == "2"
    assert setup["move"] is None
    assert data["steps"][1]["cuts"] == [
        {"mark": "#1", "down": "back", "against": "inside-edge", "keeps": "guide", "sweep": False},
    ]
    ordering = data["ordering"]
    assert ordering["before"][0] == [
        "#1/rip",
        "#1/groove/first",
        {"id": "reason.length-before-joints", "with": {}},
    ]
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
    assert plan.setups[0].cautions == PLAN.setups[0].cautions
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


def _wanted(place: str, wanted: str, value: str = "") -> str:
    return f"contract.wanted(place={place}, wanted=contract.{wanted}, value={value}"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (_put("assumptions/0", "a sentence"), 'no-fact(place=assumptions[0], value="a sentence")'),
        (
            _put("assumptions/0", {"id": "shop.sled-deck", "with": {}}),
            'no-fact(place=assumptions[0], value={"id": "shop.sled-deck", "with": {}})',
        ),
        (_put("shop/words", "FR"), 'none-of(place=shop.words, value="FR"'),
        ("", "plan.json:1:1: contract.not-json()"),
        ("{", "plan.json:1:2: contract.not-json()"),
        ("[]", "plan.json: contract.no-plan()"),
        ("{}", f"plan.json: contract.other-schema(schema=null, wanted={SCHEMA})"),
        ('{"a": 1, "a": 2}', "unreadable(why=contract.key-twice(key=a))"),
        ('{"a": NaN}', "unreadable(why=contract.not-a-number(text=NaN))"),
        (_put("schema", "sequencer-plan/1"), 'other-schema(schema="sequencer-plan/1"'),
        (_put("setups", KeyError), "contract.missing(place=plan, key=setups)"),
        (
            _put("setups/0/kerf", 0.125),
            "contract.no-string(place=setups[0].kerf, value=0.125)",
        ),
        (_put("setups/0/kerf", "2/16"), 'contract.no-rational(place=setups[0].kerf, value="2/16"'),
        (_put("setups/0/kerf", "1/0"), 'contract.no-rational(place=setups[0].kerf, value="1/0"'),
        (
            _put("setups/0/kerf", "0.125"),
            'contract.no-rational(place=setups[0].kerf, value="0.125"',
        ),
        (_put("setups/0/kerf", "9" * 5000), "contract.no-rational(place=setups[0].kerf"),
        (_put("setups/0/kerf", None), "contract.no-string(place=setups[0].kerf, value=null)"),
        (_put("setups/0/number", True), _wanted("setups[0].number", "whole-number()", "true")),
        (
            _put("setups/0/carrier", "router"),
            'none-of(place=setups[0].carrier, value="router", choices=(rip-fence',
        ),
        (_put("unit", "ft"), 'none-of(place=unit, value="ft", choices=(in, mm))'),
        (
            _put("steps/1/cuts/0/down", "top"),
            'none-of(place=steps[1].cuts[0].down, value="top", choices=(face, back,',
        ),
        (
            _put("parts/0/features/0/box", [["0", "1"]]),
            _wanted("parts[0].features[0].box", "a-list-of(n=3)"),
        ),
        (
            _put("doors/0/size", "12"),
            _wanted("doors[0].size", "an-object-with(keys=(width, height))"),
        ),
        (_put("ordering/order/0/state", []), _wanted("ordering.order[0].state", "an-object()")),
        (_put("shop", 3), _wanted("shop", "an-object()", "3")),
        ("[" * 100_000, "unreadable(why=contract.too-deep())"),
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
    assert [
        (fault.file, fault.message.given["place"])
        for fault in error.value.faults
        if isinstance(fault.message, Fact)
    ] == [("mine.json", "setups[0].kerf"), ("mine.json", "steps[3].kind")]


def test_exact_numbers_survive() -> None:
    odd = Fraction(-12345678901234567890, 98765432109876543211)
    plan = replace(PLAN, setups=(replace(PLAN.setups[0], move=odd), *PLAN.setups[1:]))
    assert from_json(to_json(plan)).setups[0].move == odd
