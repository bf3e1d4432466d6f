"""Store and fold together: the one place where events come in, are kept, and change the state.

An event counts only when the disk has it. If the disk does not take it, the state is folded again
from what the disk has, and whoever tapped is told.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from hashlib import sha256
from threading import RLock

from msgspec import Struct, field

from sequencer.batch import read_batch
from sequencer.contract import from_json, to_json
from sequencer.errors import InternalError, Refusal, SequencerError
from sequencer.facts import Fact, Unit, answers, follows, taps, written
from sequencer.job.kept import Printed, as_data, from_data
from sequencer.job.schema import Job, Shop
from sequencer.measured import Measured
from sequencer.methods import Choices
from sequencer.pipeline import cut_as, shown
from sequencer.plan import Plan
from sequencer.proof import prove
from sequencer.records import replace
from sequencer.sawside.again import as_planned, thickness_in
from sequencer.sawside.comparing import same
from sequencer.sawside.fold import apply, fold
from sequencer.sawside.kept import sealed, unsealed
from sequencer.sawside.measurements import work_in
from sequencer.sawside.readings import as_wanted
from sequencer.sawside.rebase import rebase
from sequencer.sawside.received import kind_of
from sequencer.sawside.saving import Known, Memory, Waiting, learned, passed
from sequencer.sawside.state import Base, Request, State, TapError
from sequencer.sawside.store import Event, NotSavedError, Store
from sequencer.setups.given import Given
from sequencer.setups.halfway import Past

REFUSED = "refused "
"""Before what is kept where there is no plan."""

SECONDS = 20.0
"""The longest that a plan is worked at again while the person waits at the saw; ours."""


class Files(Struct, frozen=True):
    """Job and shop files as text; the name is the one given on the command line. `printed` tells
    which marks the jobs' doors have on the sheets, where these are not those that the files give
    by themselves."""

    jobs: tuple[tuple[str, str], ...]
    shop: tuple[str, str] | None
    printed: Mapping[str, Printed] = field(default_factory=dict)

    @property
    def digest(self) -> str:
        """Of what the files say, wherever they lie."""
        said = [text for _, text in self.jobs] + ([self.shop[1]] if self.shop else [])
        doors = [self.printed[name].doors for name, _ in self.jobs if name in self.printed]
        said += [json.dumps([marks for each in doors for _, marks in each])] if doors else []
        return sha256("\0".join(said).encode()).hexdigest()[:16]

    @property
    def text(self) -> str:
        marks = as_data(self.printed)
        return json.dumps({"jobs": self.jobs, "shop": self.shop, "marks": marks})

    @classmethod
    def of(cls, text: str) -> Files:
        """The same from its `text`."""
        kept = json.loads(text)
        jobs = tuple((name, said) for name, said in kept["jobs"])
        shop = tuple(kept["shop"]) if kept["shop"] else None
        return cls(jobs, shop, from_data(kept.get("marks")))

    def read(self) -> tuple[tuple[Job, ...], Shop]:
        """Jobs and shop. Raises `InputError` where the files are wrong."""
        texts = dict((*self.jobs, *([self.shop] if self.shop else [])))
        shop = self.shop[0] if self.shop else None
        return read_batch([name for name, _ in self.jobs], shop, texts.__getitem__, self.printed)

    def marked(self, printed: Mapping[str, Printed]) -> Files:
        """The files with the marks of their sheets, where these are others than their own."""
        kept = replace(self, printed=printed)
        own, on_sheets = (
            [door.marks for job in files.read()[0] for door in job.doors] for files in (self, kept)
        )
        return self if own == on_sheets else kept


class Outcome(Struct, frozen=True):
    """What became of one event: `kept` and what is said to it."""

    id: str
    kept: bool
    says: tuple[Fact, ...]


class Planning:
    """Plans by the texts they are made of; worked out once, then found in the store."""

    def __init__(self, store: Store, make: Callable[[Sequence[Job], Shop], Plan]) -> None:
        self.store = store
        self.make = make
        self._bases: dict[str, Base] = {}
        self._plans: dict[str, Plan] = {}

    def read(self, digest: str) -> tuple[tuple[Job, ...], Shop]:
        """Jobs and shop. Raises `InputError` where the files are wrong."""
        body = self.store.base(digest)
        if body is None:
            raise InternalError(follows.NO_SUCH_JOB(digest=digest))
        return Files.of(body).read()

    def base(self, digest: str) -> Base:
        if digest not in self._bases:
            jobs, shop = self.read(digest)

            def going_on(plan: Plan) -> tuple[Given, Choices]:
                known = Measured(thickness=thickness_in(plan))
                return Given.of(jobs, as_planned(shop, plan), known, seconds=SECONDS).as_in(plan)

            plan = self._cached(
                f"base {digest}",
                jobs[0].unit,
                lambda: _proven(self.make(jobs, shop)),
                lambda kept: _shown(kept, going_on(kept)[0]),
            )
            given, choices = going_on(plan)
            self._bases[digest] = Base(digest, given, plan, choices)
        return self._bases[digest]

    def remake(self, digest: str, request: Request) -> Plan:
        key = f"{digest} {sha256(_asked(request).encode()).hexdigest()[:24]}"
        measurements, given, choices = request.measurements, request.given, request.choices
        return self._cached(
            key,
            given.jobs[0].unit,
            lambda: cut_as(work_in(measurements, given, choices), choices),
            lambda kept: _shown(kept, work_in(measurements, given, choices)),
        )

    def _cached(
        self,
        key: str,
        unit: Unit,
        make: Callable[[], Plan],
        check: Callable[[Plan], object],
    ) -> Plan:
        """The plan as it was kept, once `check` lets it through, else as `make` makes it. A refusal
        is kept too: it is an answer, and comes again with every restart."""
        if key not in self._plans:
            kept = self.store.plan(key)
            body = None if kept is None else unsealed(key, kept)
            if body is not None and body.startswith(REFUSED):
                raise _refusal(body.removeprefix(REFUSED), unit)
            plan = None if body is None else _checked(body, check)
            if plan is None:
                try:
                    plan = make()
                except SequencerError as error:
                    self.store.put_plan(key, sealed(key, f"{REFUSED}{_refused(error)}"))
                    raise
                self.store.put_plan(key, sealed(key, to_json(plan)))
            self._plans[key] = plan
        return self._plans[key]


class Engine:
    """The state of one job, safe to use from several threads."""

    def __init__(
        self,
        store: Store,
        planning: Planning,
        files: Files,
        now: int,
        keep: Memory | None = None,
    ) -> None:
        """Opens the job where it was left. Files that were changed since are offered, and count
        once they are taken; at once where nobody would see a difference. `keep` takes what has been
        dialled in. Raises `SequencerError` where it cannot be planned."""
        self.store = store
        self.planning = planning
        self.keep = keep
        self._waiting = Waiting()
        self.lock = RLock()
        store.put_base(files.digest, files.text)
        self.files = files
        self._seen = 0
        planning.base(files.digest)
        number = sum(event.body.get("kind") == "base" for event in store.events()[0])
        if number:
            self.state = self._folded()
        if not number or self._alike():
            id_ = f"base-{number}-{files.digest}"
            store.append([Event(id_, now, _taken(files.digest))])
            self.state = self._folded()
        # What another program takes later was not edited here.
        self._edited = self.state.base.digest != files.digest

    @property
    def version(self) -> int:
        return self._seen

    @property
    def edited(self) -> bool:
        """Whether the files were changed when this program began, and are not followed yet."""
        return self._edited and self.files.digest != self.state.base.digest

    @property
    def offered(self) -> str | None:
        """The digest of files that were changed, until they are taken or left aside."""
        digest = self.files.digest
        return digest if self.edited and digest not in self.state.declined else None

    def changed(self) -> State | None:
        """How everything would stand by the files as they are now; `None` where these are
        followed. Nothing is kept."""
        with self.lock:
            self.catch_up()
            digest = self.files.digest
            if digest == self.state.base.digest:
                return None
            return rebase(self._folded(), digest, self.planning)

    def _alike(self) -> bool:
        after = self.changed()
        return after is not None and (not self.state.units or same(self.state, after))

    def take(self, asked: Sequence[Event]) -> list[Outcome]:
        """Each event kept, known already, or refused with the reason. What is kept is on disk.

        Raises `NotSavedError`; nothing of `asked` counts then.
        """
        with self.lock:
            self.catch_up()
            before = self._known()
            outcomes: list[Outcome] = []
            kept: list[Event] = []
            for event in asked:
                if self.store.knows(event.id) or any(event.id == k.id for k in kept):
                    outcomes.append(Outcome(event.id, True, ()))
                    continue
                try:
                    counts = self._apply(event, kept)
                except TapError as error:
                    outcomes.append(Outcome(event.id, False, error.says))
                    continue
                except BaseException:
                    self.state = self._folded()
                    raise
                kept.append(counts)
                outcomes.append(Outcome(event.id, True, tuple(self.state.says)))
            if kept:
                try:
                    self.store.append(kept)
                except NotSavedError:
                    self.state = self._folded()
                    raise
                self._seen = self.store.events(self._seen)[1]
                said = self._save(before)
                if said:
                    last = outcomes[-1]
                    outcomes[-1] = replace(last, says=(*last.says, *said))
            return outcomes

    def _known(self) -> Known:
        if self.keep is None:
            return {}, {}
        return passed(self.state), learned(self.state)

    def _save(self, before: Known) -> list[Fact]:
        """Keep what was found and has passed since, and say so. The saw does not wait for it."""
        return [] if self.keep is None else self._waiting.save(self.keep, before, self._known())

    def _apply(self, event: Event, kept: Sequence[Event]) -> Event:
        """What is to be kept of it."""
        kind = kind_of(event)
        if kind in ("adopt", "decline"):
            if event.body.get("digest") != self.files.digest:
                raise TapError(taps.FILES_OTHERWISE())
            if kind == "adopt":
                event = replace(event, body=_taken(self.files.digest))
        if kind != "undo":
            self.state = apply(self.state, event, self.planning)
            return event
        done = self.state.taps
        if not done or done[-1][0] != event.body.get("of"):
            raise TapError(taps.UNDO_THE_OTHER_FIRST())
        tap = done[-1][1]
        self.state = self._folded((*kept, event))
        self.state.says = [answers.UNDONE(tap=tap)]
        return event

    def catch_up(self) -> None:
        """Another process may have written to the file."""
        with self.lock:
            if self.store.events(self._seen)[0]:
                self.state = self._folded()

    def weigh(self, asked: Event) -> State | tuple[Fact, ...]:
        """The state as it would be with one reading more, and all others on its card as they are
        wanted; or why it cannot come. Nothing is kept."""
        with self.lock:
            self.catch_up()
            state = self._folded()
            try:
                kind_of(asked)
                state = apply(state, asked, self.planning)
                for n, body in enumerate(as_wanted(state, asked.body.get("card"))):
                    state = apply(state, Event(f"{asked.id}-{n}", asked.at, body), self.planning)
            except TapError as error:
                return error.says
            return state

    def _folded(self, more: Sequence[Event] = ()) -> State:
        events, self._seen = self.store.events()
        return fold([*events, *more], self.planning)


def _taken(digest: str) -> dict[str, str]:
    """What is kept where files are taken, from the first or once they were changed."""
    return {"kind": "base", "digest": digest}


def _refused(error: SequencerError) -> str:
    """An error as it is kept: whether it was the program's own, and what it says."""
    says = [written.to_json(each) for each in error.says]
    return json.dumps({"internal": isinstance(error, InternalError), "says": says})


def _refusal(body: str, unit: Unit) -> SequencerError:
    """The error again."""
    kept = json.loads(body)
    of = InternalError if kept["internal"] else Refusal
    return of(*(written.from_json(each, unit) for each in kept["says"]))


def _checked(body: str, check: Callable[[Plan], object]) -> Plan | None:
    """The plan that was kept, proven again; `None` where it is of another version, or wrong."""
    try:
        plan = from_json(body, "")
        check(plan)
    except SequencerError:
        return None
    return plan


def _shown(plan: Plan, given: Given) -> None:
    """Raises `InternalError` where the plan is not what is given asks for."""
    made = frozenset() if given.past is None else given.past.made(plan)
    shown(plan, given.jobs, given.shop, made)


def _proven(plan: Plan) -> Plan:
    return plan if plan.proven else replace(plan, proven=prove(plan))


def _asked(request: Request) -> str:
    """What tells one request of a job from another, as text."""
    measurements = [
        (f.what, f.name, str(f.planned), str(f.measured), sorted(f.cut))
        for f in request.measurements
    ]
    past = request.given.past or Past((), {})
    done = [(d.operation, sorted(d.state.items()), sorted(d.untested)) for d in past.done]
    held = [(knob, h.value, h.operation, h.passed) for knob, h in sorted(past.held.items())]
    glued = sorted((past.glued or {}).items())
    return json.dumps([measurements, done, held, sorted(past.known), glued])
