"""Every rule of jobs and shops, at its threshold and just beyond it."""

from __future__ import annotations

import pytest

from sequencer.errors import InputError
from sequencer.job.load import load_job
from sequencer.job.shop import default_shop
from sequencer.job.validate import against_shop

Lines = dict[str, str]
Case = tuple[str, str, str, str, Lines]

INCHES: Lines = {
    "unit": "in",
    "stock.thickness": "3/4",
    "door.opening.width": "14 1/2",
    "door.opening.height": "22",
}
MM: Lines = {
    "unit": "mm",
    "stock.thickness": "19",
    "door.opening.width": "368",
    "door.opening.height": "558",
}


def text(lines: Lines) -> str:
    top = [f'{key} = "{value}"' for key, value in lines.items() if not key.startswith("door.")]
    own = [f'{key[5:]} = "{value}"' for key, value in lines.items() if key.startswith("door.")]
    pair = ["leaves = 2"] if "door.gaps.meeting" in lines else []
    return "\n".join([*top, "[[door]]", *pair, *own, ""])


def refusal(lines: Lines) -> str:
    """What is said of the job by itself or in the built-in shop; empty where it is good."""
    try:
        job = load_job(text(lines), "job.toml")
    except InputError as error:
        return str(error)
    return "\n".join(map(str, against_shop(job, default_shop(job.unit))))


# The rule's key; the last value that passes and the first, a 64th or a tenth on, that does not;
# what is said; other lines that it needs. Worked out by hand, as far as the limits of
# defaults.toml and the built-in shop do not give the value itself.
IN_INCHES: list[Case] = [
    ("joint.proud", "1/4", "17/64", "at most 1/4 in", {}),
    ("joint.clearance", "0.010", "0.011", "at most 0.010 in", {}),
    ("gaps.top", "1/2", "33/64", "over 1/2 in", {}),
    ("gaps.bottom", "1/2", "33/64", "over 1/2 in", {}),
    ("gaps.hinge", "1/2", "33/64", "over 1/2 in", {}),
    ("gaps.lock", "1/2", "33/64", "over 1/2 in", {}),
    ("door.gaps.meeting", "1/2", "33/64", "over 1/2 in", {"door.opening.width": "28"}),
    ("stock.edge_allowance", "1/4", "17/64", "at most 1/4 in", {}),
    ("stock.thickness", "3/8", "23/64", "from 3/8 in to 2 in", {}),
    ("stock.thickness", "2", "2 1/64", "from 3/8 in to 2 in", {}),
    # 120 in is the most; the built-in sled takes less, so the shop's word is asked for below.
    ("door.opening.width", "120", "120 1/64", "over 120 in", {}),
    # Leaf = opening - 2 gaps of 3/32; with stiles of 1 in its sight is the least, 1 in.
    ("door.opening.width", "3 3/16", "3 11/64", "under 3 in", {"stiles.hinge": "1"}),
    ("door.opening.height", "3 3/16", "3 11/64", "under 3 in", {"rails.top": "1"}),
    # Sight = opening - 3/16 - 2 stiles or rails of 2 in, at least 1 in.
    ("door.opening.width", "5 3/16", "5 11/64", "the stiles leave 63/64 in", {}),
    ("door.opening.height", "5 3/16", "5 11/64", "the rails leave 63/64 in", {}),
    # A groove 1/4 in deep leaves 1/2 in of 3/4 in.
    ("stiles.hinge", "3/4", "47/64", "keeps only 31/64 in", {}),
    ("stiles.lock", "3/4", "47/64", "keeps only 31/64 in", {}),
    ("rails.top", "3/4", "47/64", "keeps only 31/64 in", {}),
    ("rails.bottom", "3/4", "47/64", "keeps only 31/64 in", {}),
    # 3/4 - 2 cheeks of 1/8 in.
    ("joint.slot", "1/2", "33/64", "cheeks of 0.117 in", {}),
    # A slot of 1/4 in begins from 1/8 to 3/4 - 1/8 - 1/4 = 3/8 in.
    ("joint.offset", "1/8", "7/64", "a cheek of 7/64 in", {"joint.slot": "1/4"}),
    ("joint.offset", "3/8", "25/64", "a cheek of 7/64 in", {"joint.slot": "1/4"}),
    ("groove.width", "1/4", "17/64", "a void would show", {"joint.slot": "1/4"}),
    ("groove.offset", "1/4", "17/64", "a void", {"joint.slot": "1/4", "groove.width": "1/4"}),
    ("groove.offset", "1/4", "15/64", "a void", {"joint.slot": "1/4", "groove.width": "1/4"}),
    # Half of 3/4 in. With a panel of 23/64 in the groove has 0.369, with one of 3/8 in 0.385 in.
    ("groove.width", "3/8", "25/64", "at most 3/8 in", {}),
    ("panel.thickness", "23/64", "3/8", "at most 3/8 in", {}),
    ("panel.thickness", "15/64", "1/4", "does not go into", {"groove.width": "1/4"}),
    # 1/4 in of depth less 1/16 in of hold.
    ("panel.play_side", "3/16", "13/64", "reaches only 3/64 in", {}),
    ("panel.play_end", "3/16", "13/64", "reaches only 3/64 in", {}),
    ("groove.depth", "1/8", "7/64", "reaches only 3/64 in", {}),
    # 1/16 + (2 + 2 + 1 3/4 + 1 3/4)/200 = 0.1 in, so on a 64th 7/64 in.
    (
        "door.gaps.meeting",
        "7/64",
        "3/32",
        "7/64 in is the least",
        {"door.opening.width": "28", "door.stiles.meeting": "1 3/4"},
    ),
]
IN_THE_SHOP: list[Case] = [
    ("joint.slot", "1/8", "7/64", "the kerf, 1/8 in, is wider", {}),
    ("groove.width", "1/8", "7/64", "the kerf, 1/8 in, is wider", {}),
    # Height 3 1/8 in: tenon = stile + 1/32 proud; slot = rail - 1/4 groove + 1/32 proud.
    ("stiles.hinge", "3 3/32", "3 7/64", "tenons for the hinge stile", {}),
    ("stiles.lock", "3 3/32", "3 7/64", "tenons for the lock stile", {}),
    ("rails.top", "3 11/32", "3 23/64", "slots for the top rail", {}),
    ("rails.bottom", "3 11/32", "3 23/64", "slots for the bottom rail", {}),
    # Stile = opening - 3/16 + 2/32, on a sled of 60 in.
    ("door.opening.height", "60 1/8", "60 9/64", "the sled takes 60 in", {}),
    # Panel = opening - 3/16 - 4 + 2 (1/4 - 1/16), on a sled of 24 in.
    ("door.opening.width", "27 13/16", "27 53/64", "the sled takes 24 in", {}),
]
IN_MM: list[Case] = [
    ("joint.proud", "6", "6.1", "at most 6 mm", {}),
    ("joint.clearance", "0.25", "0.26", "at most 0.25 mm", {}),
    ("stiles.hinge", "18", "17.9", "keeps only 11.9 mm", {}),
    ("joint.slot", "13", "13.1", "cheeks of 2.95 mm", {}),
    ("panel.play_side", "4.5", "4.6", "reaches only 1.4 mm", {}),
    # 1.6 + (50 + 50 + 40 + 40)/200 = 2.5 mm.
    (
        "door.gaps.meeting",
        "2.5",
        "2.4",
        "2.5 mm is the least",
        {"door.opening.width": "700", "door.stiles.meeting": "40"},
    ),
    # Kerf 3.2 mm; height 79 mm less 0.8 mm proud.
    ("joint.slot", "3.2", "3.1", "the kerf, 3.2 mm, is wider", {}),
    ("stiles.hinge", "78.2", "78.3", "tenons for the hinge stile", {}),
]
CASES = [(INCHES, *case) for case in (*IN_INCHES, *IN_THE_SHOP)] + [(MM, *case) for case in IN_MM]


@pytest.mark.parametrize(("job", "key", "good", "bad", "says", "more"), CASES)
def test_a_rule_at_its_threshold(
    job: Lines, key: str, good: str, bad: str, says: str, more: Lines
) -> None:
    assert says not in refusal({**job, **more, key: good})
    assert says in refusal({**job, **more, key: bad})


@pytest.mark.parametrize(("key", "good", "bad", "says", "more"), IN_INCHES)
def test_a_value_at_its_limit_passes_all_rules_of_a_job(
    key: str, good: str, bad: str, says: str, more: Lines
) -> None:
    del bad, says
    assert load_job(text({**INCHES, **more, key: good}), "job.toml").doors


@pytest.mark.parametrize("job", [INCHES, MM])
def test_the_plain_jobs_pass(job: Lines) -> None:
    assert refusal(job) == ""
