"""Shops: the built-in one, what a file leaves out, units, stricter limits."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest

from sequencer.errors import InputError
from sequencer.facts import Length, shops
from sequencer.job.defaults import shop_facts
from sequencer.job.schema import Tools
from sequencer.job.shop import default_shop, load_shop
from sequencer.lengths import Unit, convert

WHOLE = """
unit = "in"
name = "my shop"
graduation = "1/32"
[saw]
max_height = "3 1/4"
knife = false
knife_thickness = "0.110"
cover = "blade box on the sled"
hold_down = "two featherboards"
dado = true
fence_height = "8"
fence = "left"
tilts = "right"
[[cutter]]
name = "rip"
kind = "blade"
kerf = "0.124"
diameter = "10"
grind = "flat-top"
plate = "0.090"
[[cutter]]
name = "dado set"
kind = "dado"
kerf = "1/4"
diameter = "8"
grind = "flat-top"
[sled]
deck = "1/2"
longest = "48"
widest = "20"
clamp = false
[jig]
rides = "fence"
thickness = "1 1/2"
deck = "1/4"
opening = "2 1/2"
[aids]
backing_block = true
tall_fence = false
[tools]
caliper = "0.0005"
caliper_reach = "8"
rule = "1/32"
rule_reach = "36"
tape = "1/16"
blocks = ["1/4", "1/2 in", "6 mm"]
[scales]
height = "1/16"
[minutes]
cutter = 6
tilt = 2.5
height = "1/2"
carrier = "1 1/2"
guard = 1
fence = 1
stop = 1
jig = 2
spacer = 0.25
test_cut = 4
nibble = "1/3"
saved = 1
gauge = 0.5
check_cut = 2
"""


def inches(text: str) -> Length:
    return Length(Fraction(text), "in")


MINUTES = shops.MINUTES(
    each=tuple(
        shops.MINUTES_FOR(what=f"minutes.{key}", value=Fraction(value))
        for key, value in {
            "cutter": "5", "tilt": "2", "height": "1", "carrier": "2", "guard": "1", "stop": "1",
            "jig": "2", "test_cut": "3", "nibble": "1/4", "saved": "3/4", "gauge": "1/2",
            "check_cut": "1",
        }.items()
    )
)  # fmt: skip


@dataclass(frozen=True)
class Figure:
    inch: Fraction
    mm: Fraction
    ratio: bool = False

    def in_unit(self, unit: Unit) -> Fraction:
        return self.inch if unit == "in" else self.mm

    def loosens(self, value: Fraction, unit: Unit) -> bool:
        return value < self.in_unit(unit)


BOUNDS = {
    "shortest": Figure(Fraction(12), Fraction(300)),
    "share": Figure(Fraction(1, 2), Fraction(1, 2), ratio=True),
}


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_built_in_shop_says_that_all_of_it_is_assumed(unit: Unit) -> None:
    shop = default_shop(unit)
    facts: dict[str, dict[str, Any]] = {}
    for name, fact in shop_facts().items():
        table, key = name.split(".")
        facts.setdefault(table, {})[key] = fact
    assert set(facts) == {"shop", "saw", "cutter", "sled", "jig", "tools", "minutes", "limits"}
    *told, minutes = shop.assumed
    assert shops.NO_AIDS() in told
    # The kind of cutter goes with its name; a jig in the slot has no thickness; how far a tool
    # reaches goes with the tool.
    reaches = {("tools", "caliper_reach"), ("tools", "rule_reach")}
    unsaid = {("cutter", "kind"), ("jig", "thickness"), *reaches}
    keys = [(table, key) for table, values in facts.items() for key in values]
    single = [k for k in keys if k[0] not in ("limits", "minutes") and k not in unsaid]
    assert len(told) == len(single) + len([shops.NO_AIDS()])
    assert minutes.given["each"] == tuple(
        shops.MINUTES_FOR(what=f"minutes.{key}", value=Fraction(fact["value"]))
        for key, fact in facts["minutes"].items()
        if key != "spacer"  # told where there are blocks
    )
    assert shop.joinery_blade == shop.cutters[0]
    assert shop.graduation == {"in": Fraction(1, 64), "mm": Fraction(1, 2)}[unit]


def test_a_file_that_says_all_has_nothing_assumed() -> None:
    shop = load_shop(WHOLE, "shop.toml", "in")
    assert shop.assumed == ()
    assert (shop.name, shop.graduation) == ("my shop", Fraction(1, 32))
    assert (shop.saw.cover, shop.saw.knife, shop.saw.dado) == (
        "blade box on the sled",
        False,
        True,
    )
    assert [c.kerf for c in shop.cutters] == [Fraction("0.124"), Fraction(1, 4)]
    assert (shop.cutters[0].plate, shop.cutters[1].plate) == (Fraction("0.09"), None)
    assert (shop.jig.rides, shop.jig.thickness) == ("fence", Fraction(3, 2))
    assert (shop.saw.fence, shop.saw.tilts) == ("left", "right")
    assert shop.jig.side == "left"  # on the fence it works where the fence is
    assert (shop.minutes.of("tilt"), shop.minutes.of("carrier")) == (Fraction(5, 2), Fraction(3, 2))
    assert shop.minutes.nibble == Fraction(1, 3)
    assert shop.aids == {"backing-block"}
    assert shop.tools == Tools(
        caliper=Fraction(1, 2000),
        caliper_reach=Fraction(8),
        rule=Fraction(1, 32),
        rule_reach=Fraction(36),
        tape=Fraction(1, 16),
        blocks=(Fraction(1, 4), Fraction(1, 2), Fraction(30, 127)),
    )
    assert (shop.scale("height"), shop.scale("mitre stop")) == (Fraction(1, 16), Fraction(1, 32))


def test_a_shop_without_a_caliper_says_so() -> None:
    shop = load_shop('unit = "mm"\n[tools]\ncaliper = false\n', "shop.toml", "mm")
    assert shop.tools.caliper is None
    assert shops.CALIPER not in {told.kind for told in shop.assumed}
    elsewhere = load_shop('unit = "mm"\n[tools]\ncaliper = false\n', "shop.toml", "in").tools
    assert (elsewhere.caliper, elsewhere.rule, elsewhere.tape) == (
        None,
        Fraction(1, 64),
        Fraction(1, 32),
    )
    assert elsewhere.rule_reach == convert(Fraction(600), "mm", "in")


def test_what_a_file_leaves_out_is_said_in_its_order() -> None:
    text = 'unit = "in"\n[[cutter]]\nname = "thin rip"\nkerf = "3/32"\n[minutes]\nfence = 2\n'
    shop = load_shop(text, "shop.toml", "in")
    assert shop.cutters[0].kerf == Fraction(3, 32)
    assert shop.assumed == (
        shops.GRADUATION(value=inches("1/64")),
        shops.MAX_HEIGHT(value=inches("25/8")),
        shops.KNIFE(),
        shops.HOLD_DOWN(value="featherboard and push block"),
        shops.FENCE_SIDE(value="right"),
        shops.TILTS(value="left"),
        shops.DIAMETER(of="thin rip", value=inches("10")),
        shops.GRIND(of="thin rip", value="alternate"),
        shops.SLED_DECK(value=inches("3/4")),
        shops.SLED_LONGEST(value=inches("60")),
        shops.SLED_WIDEST(value=inches("24")),
        shops.SLED_CLAMP(),
        shops.JIG_RIDES(),
        shops.JIG_DECK(),
        shops.JIG_OPENING(value=inches("3")),
        shops.JIG_SIDE(value="right"),
        shops.NO_AIDS(),
        shops.CALIPER(value=inches("1/1000")),
        shops.RULE(value=inches("1/64")),
        shops.TAPE(value=inches("1/32")),
        MINUTES,
    )


def test_a_shop_in_the_other_unit_is_converted_exactly_but_for_its_scale() -> None:
    inches, mm = load_shop(WHOLE, "s", "in"), load_shop(WHOLE, "s", "mm")
    assert mm.saw.max_height == convert(inches.saw.max_height, "in", "mm")
    assert mm.cutters[0].kerf == Fraction("0.124") * Fraction("25.4")
    assert mm.cutters[1].plate is None
    assert mm.minutes == inches.minutes
    assert mm.graduation == Fraction(1, 2)
    assert mm.assumed == (shops.OTHER_SCALE(value=Length(Fraction(1, 2), "mm"), own="inches"),)


def test_what_is_assumed_of_a_shop_in_the_other_unit_is_told_in_the_plans() -> None:
    """A plan's file holds lengths without their unit. Of the scale it is told which is shown."""
    told = load_shop('unit = "mm"', "s", "in").assumed
    assert shops.SLED_DECK(value=Length(Fraction(18) / Fraction("25.4"), "in")) in told
    assert shops.JIG_OPENING(value=Length(Fraction(75) / Fraction("25.4"), "in")) in told
    scales = [each for each in told if each.kind in (shops.GRADUATION, shops.OTHER_SCALE)]
    assert scales == [shops.OTHER_SCALE(value=Length(Fraction(1, 64), "in"), own="millimetres")]
    (minutes,) = [each for each in told if each.kind is shops.MINUTES]
    assert minutes in load_shop('unit = "mm"', "s", "mm").assumed


@pytest.mark.parametrize(
    ("head", "unit", "words"),
    [
        ('unit = "in"', "in", "US"),
        ('unit = "mm"', "mm", "UK"),
        ('unit = "mm"', "in", "UK"),
        ('unit = "in"\nwords = "UK"', "in", "UK"),
        ('unit = "mm"\nwords = "US"', "mm", "US"),
    ],
)
def test_its_words_are_those_it_names_or_those_of_its_own_unit(
    head: str, unit: Unit, words: str
) -> None:
    assert load_shop(head, "s", unit).words == words
    assert default_shop("mm").words == "UK"


def test_joinery_takes_flat_top_teeth_where_there_are_any() -> None:
    text = 'unit = "in"\n' + "".join(
        f'[[cutter]]\nname = "{name}"\nkerf = "1/8"\nkind = "{kind}"\ngrind = "{grind}"\n'
        for name, kind, grind in (
            ("dado set", "dado", "flat-top"),
            ("combination", "blade", "alternate"),
            ("rip", "blade", "flat-top"),
        )
    )
    assert load_shop(text, "shop.toml", "in").joinery_blade.name == "rip"


def test_limits_may_be_stricter_and_ratios_have_no_unit() -> None:
    text = 'unit = "in"\n[limits]\nshortest = "14"\nshare = "2/3"\n'
    assert load_shop(text, "s", "in", BOUNDS).limits == {"shortest": 14, "share": Fraction(2, 3)}
    assert load_shop(text, "s", "mm", BOUNDS).limits == {
        "shortest": Fraction("355.6"),
        "share": Fraction(2, 3),
    }


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ('shortest = "11"', str(shops.LOOSER_LENGTH(own=inches("12")))),
        ("share = 0.25", "shop.looser-number(own=1/2)"),
        ("share = true", "file.not-wanted(key=share, wanted=file.a-number())"),
        ("shortest = 14", "file.no-quotes"),
        ("longest = 14", "file.unknown-key(key=longest)"),
    ],
)
def test_other_limits_are_refused(line: str, says: str) -> None:
    with pytest.raises(InputError, match=re.escape(says)):
        load_shop(f'unit = "in"\n[limits]\n{line}\n', "shop.toml", "in", BOUNDS)
