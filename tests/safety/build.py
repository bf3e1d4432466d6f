"""Single passes for the rules to look at: ordinary ones that meet no rule but the usual cautions.

Every value of the pass, its setup, saw, sled, jig and cutter may be given by its name. A 2 in
(50 mm) frame of 3/4 in (19 mm) stock, a 10 in (254 mm) blade, a shop that names everything.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from sequencer.job.schema import Cutter, Jig, Minutes, Saw, Shop, Sled, Tools
from sequencer.lengths import Unit
from sequencer.plan import Change, Cut, Feature, Part, Plan, Setup, Size
from sequencer.records import names, replace
from sequencer.safety.moments import Moment
from sequencer.saw.fittings import MINUTES, SCALES
from tests.proof import hand
from tests.told import by_name

F = Fraction

SIZES: dict[Unit, dict[str, F]] = {
    "in": {
        "kerf": F(1, 8),
        "plate": F(3, 32),
        "knife_thickness": F(7, 64),
        "diameter": F(10),
        "max_height": F(25, 8),
        "fence_height": F(3),
        "deck": F(1, 2),
        "longest": F(60),
        "widest": F(24),
        "opening": F(3),
        "graduation": F(1, 64),
        "stick": F(40),
        "blank": F(5, 2),
        "width": F(2),
        "thickness": F(3, 4),
        "through": F(7, 8),
        "groove": F(1, 4),
        "piece": F(16),
        "rail": F(12),
        "cheek": F(1, 2),
    },
    "mm": {
        "kerf": F(16, 5),
        "plate": F(11, 5),
        "knife_thickness": F(14, 5),
        "diameter": F(254),
        "max_height": F(79),
        "fence_height": F(75),
        "deck": F(12),
        "longest": F(1500),
        "widest": F(600),
        "opening": F(75),
        "graduation": F(1, 2),
        "stick": F(1000),
        "blank": F(63),
        "width": F(50),
        "thickness": F(19),
        "through": F(22),
        "groove": F(7),
        "piece": F(400),
        "rail": F(310),
        "cheek": F(13),
    },
}

SAW = ("max_height", "knife_thickness", "cover", "hold_down", "dado", "fence_height")


def rip(unit: Unit = "in", **values: Any) -> Moment:
    """A stick ripped to width on the fence, guard fitted."""
    own = SIZES[unit]
    cutter = Cutter("blade", "blade", own["kerf"], own["diameter"], "flat-top", own["plate"])
    saw = Saw(
        own["max_height"],
        True,
        own["knife_thickness"],
        "a clear box",
        "two featherboards",
        True,
        own["fence_height"],
    )
    shop = Shop(
        "shop",
        own["graduation"],
        saw,
        (cutter,),
        Sled(own["deck"], own["longest"], own["widest"], True),
        Jig("slot", F(0), F(0), own["opening"]),
        Minutes(dict.fromkeys(MINUTES, F(1)), F(1), F(1)),
        Tools(F(1, 1000), F(6), F(1, 64), F(24), F(1, 32)),
        dict.fromkeys(SCALES, own["graduation"]),
    )
    setup = Setup(
        number=1,
        cutter="blade",
        kerf=own["kerf"],
        tilt=F(0),
        carrier="rip-fence",
        guard="fitted",
        height=own["through"],
        depth=own["through"],
        guide=own["width"],
        reading=own["width"],
        move=None,
        saved=(),
        minutes=F(1),
        cautions=(),
    )
    moment = Moment(
        shop=shop,
        setup=setup,
        step=1,
        cut=Cut("#1", "back", "inside-edge", "guide"),
        does="rip",
        mark="#1",
        held="#1",
        length=own["stick"],
        width=own["blank"],
        thickness=own["thickness"],
        cutter=cutter,
    )
    return change(moment, **values)


def groove(unit: Unit = "in", **values: Any) -> Moment:
    """The ripped stick on edge, a groove in the middle of its thickness."""
    own = SIZES[unit]
    usual = {
        "does": "groove",
        "down": "inside-edge",
        "against": "face",
        "keeps": None,
        "guard": "cover",
        "depth": own["groove"],
        "guide": own["groove"],
        "width": own["width"],
    }
    return change(rip(unit), **{**usual, **values})


def crosscut(unit: Unit = "in", **values: Any) -> Moment:
    """A stile cut off a stick on the sled."""
    own = SIZES[unit]
    usual = {
        "does": "crosscut",
        "against": "end-A",
        "carrier": "crosscut-sled",
        "guard": "knife",
        "guide": own["piece"],
        "width": own["width"],
        "mark": "A1",
    }
    return change(rip(unit), **{**usual, **values})


def shoulder(unit: Unit = "in", **values: Any) -> Moment:
    """A shoulder of a rail on the sled, as deep as the groove."""
    own = SIZES[unit]
    usual = {
        "does": "shoulder",
        "keeps": None,
        "depth": own["groove"],
        "guard": "cover",
        "guide": own["width"] - own["kerf"],
        "length": own["rail"],
        "mark": "A3",
        "held": "A3",
        "stick": False,
    }
    return change(crosscut(unit), **{**usual, **values})


def cheek(unit: Unit = "in", **values: Any) -> Moment:
    """A cheek of a rail in the tenoning jig, waste on the open side."""
    own = SIZES[unit]
    usual = {
        "does": "cheek",
        "down": "end-A",
        "against": "face",
        "carrier": "tenoning-jig",
        "depth": own["width"],
        "guide": own["cheek"],
    }
    return change(shoulder(unit), **{**usual, **values})


def rebate(unit: Unit = "in", **values: Any) -> Moment:
    """The first cut of a rebate for glass, the ripped stick flat, its strip on the open side."""
    own = SIZES[unit]
    usual = {
        "does": "rebate",
        "down": "back",
        "against": "outside-edge",
        "guide": own["width"] - own["groove"],
        "keeps": None,
        "guard": "cover",
        "depth": own["groove"],
        "width": own["width"],
    }
    return change(rip(unit), **{**usual, **values})


def strip(unit: Unit = "in", **values: Any) -> Moment:
    """The rebate's second cut: the stick on edge, its strip on the open side again."""
    own = SIZES[unit]
    usual = {
        "down": "inside-edge",
        "against": "face",
        "guide": own["groove"],
        "depth": own["groove"],
        "done": frozenset({("back", "rebate inside-edge")}),
    }
    return change(rebate(unit), **{**usual, **values})


def bevel(unit: Unit = "in", **values: Any) -> Moment:
    """A long edge of a raised panel, its back against the fence, the blade leaning away."""
    own = SIZES[unit]
    usual = {
        "does": "bevel",
        "tilt": F(-1, 8),
        "guide": own["groove"] + (F(1, 64) if unit == "in" else F(1, 2)),
        "against": "back",
        "depth": own["blank"] / 2,
        "width": own["rail"] / 3,
        "stick": False,
    }
    return change(groove(unit), **{**usual, **values})


def end_bevel(unit: Unit = "in", **values: Any) -> Moment:
    """An end of the same panel, as wide as a rail is long; a fence tall enough for it."""
    own = SIZES[unit]
    usual = {
        "down": "end-A",
        "length": own["piece"],
        "width": own["rail"],
        "fence_height": own["rail"],
    }
    return change(bevel(unit), **{**usual, **values})


def housing(unit: Unit = "in", **values: Any) -> Moment:
    """A trench across a stile for a bar, nibbled between two shoulders."""
    usual = {"does": "housing", "sweep": True}
    return change(shoulder(unit), **{**usual, **values})


def mitre(unit: Unit = "in", **values: Any) -> Moment:
    """A mitred shoulder nibbled on the mitre sled."""
    usual = {"does": "mitre", "sweep": True, "carrier": "mitre-sled", "guide": F(0), "down": "face"}
    return change(shoulder(unit), **{**usual, **values})


def rail(unit: Unit = "in") -> Part:
    """A rail with a tenon as long as the stiles are wide at each end."""
    own = SIZES[unit]
    length, width, thickness, guide = own["rail"], own["width"], own["thickness"], own["cheek"]
    features = tuple(
        Feature("cheek", at, (along, (F(0), width), through))
        for at, along in (("A", (F(0), width)), ("B", (length - width, length)))
        for through in ((F(0), thickness - guide), (guide, thickness))
    )
    return Part(
        "A3", "A", "rail", by_name("top rail"), "cherry", Size(length, width, thickness), features
    )


def change(moment: Moment, **values: Any) -> Moment:
    """The pass with other values, each put where its name belongs. Height follows depth, as on a
    carrier without a deck; `knobs` are those that the setup changes."""
    if "depth" in values:
        values.setdefault("height", values["depth"])
    if "knobs" in values:
        values["changes"] = tuple(Change(k, None, "new", k) for k in values.pop("knobs"))
    shop = replace(
        moment.shop,
        saw=_take(moment.shop.saw, values, *SAW),
        sled=_take(moment.shop.sled, values, "deck", "longest", "widest", "clamp"),
        jig=_take(moment.shop.jig, values, "opening"),
    )
    shop = _take(shop, values, "cutters")
    cutter = _take(moment.cutter, values, "diameter", "kind", "plate")
    setup = _take(moment.setup, values, *names(Setup))
    cut = _take(moment.cut, values, "down", "against", "keeps", "sweep")
    return replace(moment, shop=shop, cutter=cutter, setup=setup, cut=cut, **values)


def _take(whole: Any, values: dict[str, Any], *names: str) -> Any:
    return replace(whole, **{name: values.pop(name) for name in names if name in values})


def ripped_late_without_refit() -> Plan:
    """The hand-made plan with its panel ripped after the grooves, and the step left out that puts
    the guard back on."""
    works = list(hand.WORKS)
    late = next(w for w in works if w.operation == "#3/rip")
    works.remove(late)
    works.insert(next(n for n, w in enumerate(works) if w.kind == "square"), late)
    made = hand.make(works)
    return replace(made, steps=tuple(s for s in made.steps if s.kind != "refit guard"))
