"""What laying boards out takes: batches of unlike doors, and racks of equal or unlike boards.

Prints, judges nothing. Doors are on 1/8 in, boards too; all invented.

    .venv/bin/python -m tests.benchmarks.boards
"""

from __future__ import annotations

from fractions import Fraction
from random import Random
from time import process_time

from sequencer.doors import make_leaves
from sequencer.job.load import load_job
from sequencer.job.rack import Board, Rack
from sequencer.job.shop import default_shop
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.operations import Context, make_operations
from sequencer.plan import Blank
from sequencer.stock.demand import Demand
from sequencer.stock.layout import lay_out

THICK, THIN = Fraction(15, 16), Fraction(1, 2)


def job(doors: int, seed: int) -> str:
    random = Random(seed)
    text = 'unit = "in"\nspecies = "cherry"\n[stock]\nthickness = "3/4"\n'
    for _ in range(doors):
        width, height = random.randrange(96, 200) / 8, random.randrange(96, 320) / 8
        text += f'[[door]]\n[door.opening]\nwidth = "{width}"\nheight = "{height}"\n'
    return text


def rack(boards: int, kinds: int, seed: int) -> Rack:
    """Two thick boards to one thin; `kinds` sizes of each."""
    random = Random(seed)
    sizes = [
        (
            Fraction(random.choice((72, 84, 96, 108, 120, 144))),
            Fraction(random.randrange(24, 48), 4),
        )
        for _ in range(kinds)
    ]
    made = [
        Board(
            f"{n}", "cherry", *sizes[n % kinds], THICK if n % 3 else THIN, False, Fraction(1),
            Fraction(1, 4),
        )
        for n in range(boards)
    ]  # fmt: skip
    return Rack(tuple(made), 20, Fraction(1, 8), Fraction(1, 8))


def wanted(text: str, owned: Rack) -> Demand:
    """The sticks of a job, each whole or in strips that are about as wide as the boards."""
    shop = default_shop("in")
    kerf = shop.joinery_blade.kerf
    leaves = make_leaves([load_job(text, "job.toml")], kerf, Measured(), Choices())
    context = Context("in", shop, Choices(), shop.joinery_blade, kerf, owned)
    sticks = [each.stick for each in make_operations(leaves, context).layout.sticks]
    blanks: list[Blank] = []
    for stick in sticks:
        number = int(-(-stick.blank.width // 6))
        for n in range(number):
            mark = stick.mark if number == 1 else f"{stick.mark}/{n + 1}"
            size = type(stick.blank)(
                stick.blank.length, stick.blank.width / number, stick.blank.thickness
            )
            blanks.append(Blank(mark, stick.mark, stick.material, size))
    return Demand(tuple(blanks), {}, {})


def main() -> None:
    print("doors  boards  kinds  blanks  seconds  what is said")
    for doors, boards, kinds in (
        (2, 6, 3), (4, 12, 6), (4, 12, 12), (12, 30, 10), (40, 90, 10), (40, 90, 90),
    ):  # fmt: skip
        for seed in (1, 2):
            owned = rack(boards, kinds, seed)
            blanks = wanted(job(doors, seed), owned)
            before = process_time()
            laid = lay_out(blanks, owned, "in")
            took = process_time() - before
            line = f"{doors:5}  {boards:6}  {kinds:5}  {len(blanks.blanks):6}  {took:7.2f}"
            print(line, laid.says[0], sep="  ")


if __name__ == "__main__":
    main()
