"""A job and a shop, as texts, through every stage that the program has, as a user calls them."""

from __future__ import annotations

import re
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from random import Random

from sequencer import sheets
from sequencer.batch import read_batch
from sequencer.cli import main
from sequencer.contract import from_json, to_json
from sequencer.job.schema import Job, Shop
from sequencer.plan import Plan
from sequencer.proof import prove
from sequencer.safety import Unsafe
from sequencer.saved.advice import advise
from sequencer.saved.recut import recut
from sequencer.sawside import view
from sequencer.sawside.command import Keeper
from sequencer.sawside.engine import Engine, Files, Planning
from sequencer.sawside.fold import current
from sequencer.sawside.store import Store
from sequencer.setups.given import Given
from tests.proof.plans import going, plan_one_way
from tests.sawside.driver import START, Saw

LONGEST_WALK = 60

_PLACED = re.compile(r"(job|shop)\.toml:[1-9]\d*:[1-9]\d*: \S")


class Way:
    """Where a job went: the folder of its files, and what it came to."""

    def __init__(self, folder: Path, job: str, shop: str) -> None:
        self.plan: Plan | None = None
        self.folder = folder
        self.files = [str(folder / "job.toml"), "--shop", str(folder / "shop.toml")]
        self.texts = {"job.toml": job, "shop.toml": shop}
        for name, text in self.texts.items():
            (folder / name).write_text(text, "utf-8")

    def checked(self) -> bool:
        """Whether `check` lets it pass; where not, it says where, and what would do."""
        code, err = self.call("check", "--quick", *self.files)
        if code == 3:
            assert _PLACED.search(err), err
        else:
            assert code in (0, 1), err
            assert bool(err) == bool(code), err
        return code == 0

    def batch(self) -> tuple[tuple[Job, ...], Shop]:
        return read_batch(("job.toml",), "shop.toml", self.texts.__getitem__)

    def planned(self) -> Plan:
        """The plan, in some order. Raises `Refusal` where there is none."""
        jobs, shop = self.batch()
        self.plan, self.choices = plan_one_way(jobs, shop)
        assert self.plan.proven == prove(self.plan)
        return self.plan

    def printed(self, plan: Plan, chance: Random) -> None:
        page = sheets.html(plan, chance.choice(("letter", "a4")))
        assert page.endswith("</html>\n")
        assert sheets.parts_csv(plan).count("\n") > len(plan.parts)
        assert from_json(to_json(plan)) == plan

    def made_again(self, plan: Plan, chance: Random) -> bool:
        """Whether a random piece may be made by itself; where not, that is not safe."""
        jobs, shop = self.batch()
        given = Given.of(jobs, shop)
        with going(self.choices):
            advise(plan, given.as_in(plan)[0])
            try:
                again = recut(plan, given, [chance.choice(plan.parts).mark])
            except Unsafe:
                return False
        assert again.proven
        assert sheets.html(again)
        return True

    def followed(self, plan: Plan, chance: Random) -> None:
        """From the start at the saw, a random piece is spoiled somewhere and made again."""
        with going(self.choices):
            self._followed(plan, chance)

    def _followed(self, plan: Plan, chance: Random) -> None:
        saw = _Planned(self.folder, self.texts, plan)
        assert view.stand(saw.state)
        marks = [each.mark for many in (plan.parts, plan.sticks, plan.scrap) for each in many]
        for _ in range(chance.randint(0, LONGEST_WALK)):
            if current(saw.state) is not None:
                saw.step()
        for mark in chance.sample(marks, min(3, len(marks))):
            if saw.send(kind="spoil", mark=mark).kept:
                break
        for _ in range(5):
            if current(saw.state) is not None:
                saw.step()
        assert view.cards(saw.state)
        saw.store.close()

    def as_called(self, plan: Plan) -> int:
        """The commands themselves, with the search, suggestions and what was saved at the saw."""
        store = self.folder / "settings.sqlite"
        options = ("--settings", str(store)) if store.exists() else ()
        out = str(self.folder / "sheets")
        code, err = self.call("plan", *self.files, "--no-pdf", "--suggest", "-o", out, *options)
        assert code in (0, 1), err
        if code == 0:
            mark, made = plan.parts[0].mark, f"{out}/plan.json"
            again = ("recut", *self.files[:1], mark, *self.files[1:], "--plan", made, "--no-pdf")
            found, err = self.call(*again, "-o", str(self.folder / "recut"))
            assert found in (0, 1), err
        return code

    @staticmethod
    def call(*arguments: str) -> tuple[int, str]:
        """The exit code of a command, and what it complains of; a slip of the program's own is
        no answer."""
        with redirect_stdout(StringIO()), redirect_stderr(StringIO()) as err:
            code = main(arguments)
        said = err.getvalue()
        assert "program contradicts itself" not in said, said
        return code, said


class _Planned(Saw):
    """A saw at which a plan that is there already is followed."""

    def __init__(self, folder: Path, texts: dict[str, str], plan: Plan) -> None:
        self.plan = plan
        self.settings = folder / "settings.sqlite"
        job, shop = texts.items()
        super().__init__(folder / "events.sqlite", Files((job,), shop))

    def open(self, files: Files | None = None) -> None:
        self.files = files or self.files
        self.store = Store(self.path)
        planning = Planning(self.store, lambda *_: self.plan)
        keep = Keeper(str(self.settings), self.store.token()[:12])
        self.engine = Engine(self.store, planning, self.files, START, keep)
