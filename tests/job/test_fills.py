"""Which fill a door gets: the table nearest to it, the word where there is one."""

from __future__ import annotations

from fractions import Fraction

from sequencer.facts import fills
from sequencer.job.kinds import Boarded, Glazed, Raised
from sequencer.job.load import load_job
from sequencer.job.schema import Door
from tests.told import refused

F = Fraction

HEAD = 'unit = "in"\n'
STOCK = '[stock]\nthickness = "3/4"\n'
OPENING = '[door.opening]\nwidth = "14"\nheight = "22"\n'


def doors(file: str, *each: str, head: str = "") -> tuple[Door, ...]:
    parts = [f"[[door]]\n{own}{OPENING}" for own in each]
    return load_job(f"{HEAD}{head}{STOCK}{file}{''.join(parts)}", "job.toml").doors


def test_nothing_said_is_a_flat_panel() -> None:
    (door,) = doors("", "")
    assert (door.fill, door.slab) == (None, None)


def test_an_empty_table_takes_every_default() -> None:
    (door,) = doors("[glass]\n", "")
    assert door.fill == Glazed(F(1, 8), F(1, 8))
    (door,) = doors("[boarded]\n", "")
    assert door.fill == Boarded(F(3), None)
    (door,) = doors('[panel]\nthickness = "1/2"\n[raised]\n', "")
    assert door.fill == Raised(F(5, 4), F(1, 16))
    assert door.held is None


def test_a_doors_own_table_goes_before_the_files() -> None:
    glazed, boarded, flat, slab = doors(
        '[glass]\nthickness = "5/32"\n',
        "",
        '[door.boarded]\nwidth = "2"\n',
        'fill = "flat"\n',
        "[door.slab]\nboards = 3\n",
    )
    assert glazed.fill == Glazed(F(5, 32), F(1, 8))
    assert boarded.fill == Boarded(F(2), None)
    assert (flat.fill, flat.slab) == (None, None)
    assert slab.slab is not None
    assert slab.slab.boards == 3


def test_a_word_chooses_between_the_files_tables() -> None:
    """The file says how its boards and panes are made, each door which of them it has."""
    file = '[glass]\nthickness = "5/32"\n[boarded]\nwidth = "2"\n'
    glazed, boarded = doors(file, 'fill = "glass"\n', 'fill = "boarded"\n')
    assert glazed.fill == Glazed(F(5, 32), F(1, 8))
    assert boarded.fill == Boarded(F(2), None)


def test_a_table_without_a_word_that_chooses() -> None:
    assert refused(lambda: doors("[boarded]\n[glass]\n", "")) == (
        fills.TWO_AT_ONCE(first="boards", second="glass"),
        fills.KEEP_ONE_OR_WRITE(first="boarded", second="glass"),
    )


def test_the_files_word_holds_for_doors_that_say_nothing() -> None:
    glazed, slab = doors("[boarded]\n", "", 'fill = "slab"\n', head='fill = "glass"\n')
    assert isinstance(glazed.fill, Glazed)
    assert slab.slab is not None


def test_lengths_of_a_fill_are_converted_and_counts_are_not() -> None:
    text = f"{HEAD}{STOCK}[slab]\nboards = 3\n[[door]]\n{OPENING}"
    (door,) = load_job(text, "job.toml", "mm").doors
    assert door.slab is not None
    assert door.slab.boards == 3
    text = f'{HEAD}{STOCK}[glass]\nthickness = "1/8"\n[[door]]\n{OPENING}'
    (door,) = load_job(text, "job.toml", "mm").doors
    assert door.fill == Glazed(F(127, 40), F(127, 40))


def test_a_files_frame_says_nothing_against_one_door_that_is_a_slab() -> None:
    """Stiles for the framed doors; the one slab among them has none."""
    framed, slab = doors('[stiles]\nhinge = "2-1/4"\n', "", 'fill = "slab"\n')
    assert framed.hinge_stile == F(9, 4)
    assert slab.slab is not None


def test_a_range_in_a_frame_that_a_slab_has_not() -> None:
    framed, slab = doors('[rails]\ntop = "2 to 2-1/4"\n', "", 'fill = "slab"\n')
    assert [free.key for free in framed.free] == ["rails.top"]
    assert slab.free == ()


def test_glass_is_not_held_to_a_panels_rules() -> None:
    """A groove's width may be free for the panels of other doors; a pane has none."""
    _, glazed = doors('[groove]\nwidth = "1/4"\n', "", 'fill = "glass"\n')
    assert glazed.glazed


def test_bevels_leave_a_field_on_the_panel_of_the_narrowest_light() -> None:
    """Between two stiles they would; a mullion makes two panels of it."""
    raised = '[panel]\nthickness = "1/2"\n[raised]\nbevel = "2-1/2"\n'
    (door,) = doors(raised, "")
    assert door.fill == Raised(F(5, 2), F(1, 16))
    mullion = '[[door.bar]]\nkind = "mullion"\nwidth = "2"\n'
    file = f"{HEAD}{raised}{STOCK}[[door]]\n{OPENING}{mullion}"
    said = refused(lambda: load_job(file, "job.toml"))
    assert [fact.kind for fact in said if fact.kind is fills.NO_FIELD] == [fills.NO_FIELD]
