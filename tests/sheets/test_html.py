"""The page: escaped, self-contained, the same bytes every time."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from sequencer.errors import InternalError, SurroundingsError
from sequencer.facts import cautions, feels, notes, papers, proofs, shops
from sequencer.plan import Caution
from sequencer.records import replace
from sequencer.saw.measures import Measure, What
from sequencer.sheets import html, pdf
from tests.sheets.jobs import PAIR, page_of, plan_of
from tests.stages import to_plan
from tests.told import by_name, inch

ROOT = Path(__file__).resolve().parents[2]


def test_names_with_markup_come_out_escaped() -> None:
    page = page_of("pair", "letter")
    assert "<h1>Corner &lt;i&gt;cupboard&lt;/i&gt; &amp; shelf</h1>" in page
    assert "<i>" not in page


def test_markup_in_every_text_of_a_plan_comes_out_escaped() -> None:
    plan = plan_of("single")
    evil = "<script>&\"'"
    held = cautions.CLAMP(side=cautions.SIDE_STOP(least=None))
    setups = [
        replace(
            setup,
            cutter=evil,
            why=(notes.BLOCK(name=evil),),
            cautions=(
                Caution("x", "WARNING", cautions.C04_SLED(held=held), evil),
                Caution(
                    "y", "WARNING", cautions.B06_GROOVE(measured=inch("1"), hold_down=evil), evil
                ),
            ),
            saved=(notes.SPACER(name=evil),),
            changes=(),
        )
        for setup in plan.setups
    ]
    light, feel = Measure(What.LIGHT_WIDTH, which=evil), feels.OWN_SLOT(mates=(evil,))
    page = html(
        replace(
            plan,
            shop=replace(plan.shop, cutters={evil: {"kind": "blade"}}),
            setups=tuple(setups),
            parts=tuple(replace(part, name=by_name(evil), material=evil) for part in plan.parts),
            sticks=tuple(replace(stick, material=evil) for stick in plan.sticks),
            checkpoints=tuple(replace(c, measure=light, feel=feel) for c in plan.checkpoints),
            doors=tuple(replace(door, name=by_name(evil)) for door in plan.doors),
            assumptions=(shops.HOLD_DOWN(value=evil),),
            notes=(notes.BLOCK(name=evil),),
            proven=(proofs.TRUSTED(pieces=(evil,)),),
        )
    )
    assert "<script" not in page
    assert page.count("&lt;script&gt;&amp;") > 40


def test_nothing_is_fetched() -> None:
    page = page_of("pair", "letter").replace("http://www.w3.org/2000/svg", "")
    assert not re.search(
        r"https?:|url\((?!data:font/woff2;base64,)|<img|<link|<script|@import|src=", page
    )


@pytest.mark.parametrize(
    "address", ["file:///etc/hostname", "http://localhost:1/x.png", "ftp://localhost/x.png"]
)
def test_the_pdf_writer_may_fetch_nothing(address: str) -> None:
    with pytest.raises(InternalError, match=r"paper\.not-as-drawn"):
        pdf(f'<p>A</p><img src="{address}">')


def test_a_warning_of_the_pdf_writer_is_an_error() -> None:
    with pytest.raises(InternalError, match="colour-of-wood"):
        pdf("<style>p { colour-of-wood: cherry }</style><p>A</p>")


def test_without_pango_one_line_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(SurroundingsError) as caught:
        pdf("<p>A</p>")
    assert caught.value.says == (papers.NO_PDF(),)


def test_no_date_and_no_path_of_this_machine() -> None:
    page = page_of("pair", "letter")
    assert not re.search(r"\b20\d\d-\d\d|\d\d:\d\d", page)
    assert str(ROOT) not in page


def test_same_bytes_under_any_hash_seed() -> None:
    script = (
        "import hashlib; from tests.sheets.jobs import page_of;"
        "print(*(hashlib.sha256(page_of(*a).encode()).hexdigest()"
        " for a in (('pair', 'letter'), ('single', 'a4'))))"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", script],
            check=True,
            capture_output=True,
            text=True,
            cwd=ROOT,
            env={"PYTHONHASHSEED": seed, "PATH": ""},
        ).stdout
        for seed in ("1", "4711")
    }
    assert len(digests) == 1


def test_a_setup_warns_of_everything_in_one_box_before_its_first_step() -> None:
    plan = plan_of("pair")
    blocks = re.findall(
        r'<article class="block setup[ "].*?</article>', page_of("pair", "letter"), re.DOTALL
    )
    assert len(blocks) == len(plan.setups)
    for setup, block in zip(plan.setups, blocks, strict=True):
        assert block.count('class="caution"') == bool(setup.cautions)
        if setup.cautions:
            assert block.index('class="caution"') < block.index('class="step"')
            assert all(f'data-rule="{c.rule}"' in block for c in setup.cautions)


def test_blocks_stand_in_step_order() -> None:
    at_work = page_of("pair", "letter").partition("<article")[2]
    found = re.findall(r"(?<! as )(?<!If )[Ss]tep (\d+)(?!\d)", at_work)
    at_saw = [int(number) for number in found]
    assert at_saw == sorted(at_saw)
    assert sorted(set(at_saw)) == [step.number for step in plan_of("pair").steps]


def test_edges_planed_on_their_sticks_say_how_much_comes_off() -> None:
    page = html(to_plan(PAIR.replace("[stock]", '[stock]\nedge_allowance = "1/32"'), ""))
    assert "#6: 1/32″ off the outside edge." in page
