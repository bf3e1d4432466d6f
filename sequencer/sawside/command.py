"""The command `follow`: files, address, port, clock and console of the saw side."""

from __future__ import annotations

import argparse
import os
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.batch import in_text, is_table
from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import Fact, answers, follows
from sequencer.records import replace
from sequencer.wording import Room

if TYPE_CHECKING:
    import socket

    from sequencer.job.schema import Job, Shop
    from sequencer.plan import Plan
    from sequencer.saved.evidence import Noted, Reading
    from sequencer.sawside.certificate import Certificate
    from sequencer.sawside.engine import Engine, Files
    from sequencer.sawside.saving import Passed
    from sequencer.sawside.state import State

LOOPBACK = "127.0.0.1"
PORT = 8427
LIMIT = 2000
"""Connections open at one time; a page that is turned away asks again. Far more than pages: so many
that nobody in the network shuts them out by a few hundred that say nothing."""

FILES = 4096


def arguments(follow: argparse.ArgumentParser, times: argparse.ArgumentParser, room: Room) -> None:
    """What `follow` and `times` take beside jobs and shop file; `room` says their help."""
    say = room.say
    for command in (follow, times):
        command.add_argument("--followed", metavar="FILE", help=say(follows.FOLLOWED()))
        command.add_argument("--settings", metavar="FILE", help=say(follows.SETTINGS()))
    follow.add_argument(
        "--lan", nargs="?", const="", metavar="ADDRESS", type=_address,
        help=say(follows.LAN()),
    )  # fmt: skip
    follow.add_argument("--tls", action="store_true", help=say(follows.TLS()))
    follow.add_argument("--port", type=int, default=PORT, metavar="N", help=f"({PORT})")
    times.add_argument("--into", metavar="SHOP", help=say(follows.INTO()))


def follow(options: argparse.Namespace) -> int:
    """Serve the page until interrupted."""
    import uvicorn

    from sequencer.sawside.app import Following, make_app
    from sequencer.sawside.certificate import certificate_for
    from sequencer.sawside.store import Store

    store = Store(store_path(options))
    token = store.token()
    address = LOOPBACK if options.lan is None else options.lan or _lan_address()
    names = [address] if options.lan is not None else [LOOPBACK, "localhost"]
    shown = certificate_for(names, _certificates()) if options.tls else None
    listening = _listen(address, options.port)
    port = listening.getsockname()[1]
    hosts = frozenset(f"{name}:{port}" for name in names)

    def open_it() -> Engine:
        from sequencer.sawside.engine import Engine, Planning

        keep = Keeper(options.settings, store.token()[:12])
        planning = Planning(store, _planner(options, store.token()[:12]))
        return Engine(store, planning, _files(options), time.time_ns() // 1_000_000, keep)

    following = Following(open_it, lambda: setattr(server, "should_exit", True))
    app = make_app(
        following, token, hosts, Room(options.words), None if shown is None else shown.root
    )
    config = uvicorn.Config(
        app, log_level="critical", ssl_certfile=None if shown is None else shown.path,
        access_log=False, server_header=False, limit_concurrency=LIMIT, backlog=2048,
        timeout_graceful_shutdown=1, lifespan="off", timeout_keep_alive=30,
    )  # fmt: skip

    class Server(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            following.begin()  # only now, so that the page stands at once

    server = Server(config)
    _more_files()
    scheme = "http" if shown is None else "https"
    url = f"{scheme}://{address}:{port}/{token}/"
    _announce(url, Room(options.words), options.lan is not None, shown)
    server.run(sockets=[listening])
    if following.failed is not None:
        raise following.failed
    return 0


def followed_state(options: argparse.Namespace) -> State | None:
    """How far these jobs were followed; `None` where they were not. Nothing is written, and
    `options.followed_in` says where it was found."""
    from sequencer.sawside.engine import Planning
    from sequencer.sawside.fold import fold
    from sequencer.sawside.store import Store

    path = store_path(options)
    options.followed_in = in_text(str(path))
    if not path.exists():
        if options.followed is not None:
            raise UsageError(follows.NO_SUCH_FILE(file=options.followed))
        return None
    store = Store(path)
    try:
        events = store.events()[0]
        if not any(event.body.get("kind") != "base" for event in events):
            return None
        return fold(events, Planning(store, _planner(options, store.token()[:12])))
    finally:
        store.close()


def store_path(options: argparse.Namespace) -> Path:
    """The file named, else one in the user's data folder for these job files."""
    if options.followed is not None:
        return Path(options.followed)
    jobs = [str(Path(file).resolve()) for file in options.jobs]
    digest = sha256(os.fsencode("\n".join(jobs))).hexdigest()[:12]
    return _own_folder() / f"{in_text(Path(options.jobs[0]).stem)}-{digest}.sqlite"


def _own_folder() -> Path:
    import platformdirs

    return platformdirs.user_data_path("sequencer", appauthor=False) / "follow"


def _certificates() -> Path:
    return _own_folder() / "certificates"


def _files(options: argparse.Namespace) -> Files:
    from sequencer.job.load import read_text
    from sequencer.sawside.engine import Files

    jobs = tuple((in_text(file), read_text(file)) for file in options.jobs)
    shop = None if options.shop is None else (in_text(options.shop), read_text(options.shop))
    return Files(jobs, shop).marked(options.texts.before)


def _planner(
    options: argparse.Namespace, follows: str = ""
) -> Callable[[Sequence[Job], Shop], Plan]:
    """As `plan` makes it: with the saved settings, but for what this file of events itself, which
    `follows` tells, has found of its boards: that is worked in as it was measured."""

    def make(jobs: Sequence[Job], shop: Shop) -> Plan:
        from sequencer import pipeline
        from sequencer.saved.planning import given_with_saved

        file = options.settings
        if file is not None and not Path(file).exists():
            return pipeline.plan(jobs, shop)  # made when the first setting is kept
        return pipeline.planned(given_with_saved(file, jobs, shop, follows)[0])

    return make


class Keeper:
    """Keeps what was found in the file named, else in the user's own; `follows` tells this file of
    events from others. What goes wrong there is raised: the engine says it and tries again."""

    def __init__(self, file: str | None, follows: str) -> None:
        self.file = file
        self.follows = follows

    def keep(self, plan: Plan, passed: Passed) -> Fact:
        from sequencer.saved.command import open_store

        with open_store(self.file) as saved:
            number = saved.remember(
                plan,
                passed.setup,
                when=time.strftime("%Y-%m-%d"),
                measured=passed.measured,
                read=passed.read,
                source=f"{self.follows}/{passed.source}",
            )
        return answers.KEPT(number=number)

    def withdraw(self, source: str) -> None:
        from sequencer.saved.command import open_store

        with open_store(self.file) as saved:
            saved.withdraw(f"{self.follows}/{source}")

    def note(self, new: Mapping[str, Reading | Noted], gone: frozenset[str]) -> None:
        from sequencer.saved.command import open_store

        lot = [
            replace(each, uid=f"{self.follows}/{uid}", at=_time_of(each.at))
            for uid, each in new.items()
        ]
        with open_store(self.file, check=False) as saved:
            saved.unnote(f"{self.follows}/{uid}" for uid in gone)
            saved.note(lot)


def _time_of(milliseconds: str) -> str:
    """As `2025-11-25T14:03:20.120`, by this machine's clock."""
    seconds, rest = divmod(int(milliseconds), 1000)
    return f"{time.strftime('%Y-%m-%dT%H:%M:%S', time.localtime(seconds))}.{rest:03d}"


def _address(text: str) -> str:
    """Raises `UsageError` for a job that was written where an address may stand."""
    if is_table(text) or Path(text).suffix == ".toml":
        raise UsageError(follows.A_FILE(text=text))
    return text


def _lan_address() -> str:
    """This machine's own address on the way out; no packet is sent."""
    import socket

    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe, suppress(OSError):
        probe.connect(("192.0.2.1", 9))  # RFC 5737: belongs to nobody
        found = str(probe.getsockname()[0])
        if not found.startswith(("127.", "0.")):
            return found
    raise SurroundingsError(follows.NO_ADDRESS())


def _listen(address: str, port: int) -> socket.socket:
    import socket

    if not 0 <= port <= 65535:
        raise UsageError(follows.NO_PORT(port=port))
    try:
        # TCP by name: only then is each answer sent at once, without waiting to be filled up.
        made = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        try:
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            made.bind((address, port))
            made.listen(2048)
        except BaseException:
            made.close()
            raise
        return made
    except (OSError, UnicodeError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise SurroundingsError(
            follows.NOT_FREE(address=address, port=port, reason=reason)
        ) from None


def _more_files() -> None:
    """Let many connections be open at once, where the system can be asked."""
    with suppress(ImportError, ValueError, OSError):
        import resource

        soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
        wanted = FILES if hard == resource.RLIM_INFINITY else min(FILES, hard)
        if soft != resource.RLIM_INFINITY and soft < wanted:
            resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))


def _announce(url: str, room: Room, lan: bool, shown: Certificate | None) -> None:
    _print(url)
    if lan:
        _tell(room.sentence(follows.KEEP_TO_YOURSELF()))
    if shown is not None:
        _tell(room.sentence(follows.MADE_HERE(fingerprint=shown.fingerprint)))
        _tell(room.sentence(follows.TRUST_ONCE(address=f"{url}trust.crt")))
        _tell(room.sentence(follows.THEN_INSTALL()))
        _tell(room.sentence(follows.TAKEN_OUT()))
    elif lan:
        _tell(room.sentence(follows.STAY_AWAKE()))
    if lan and sys.stdout.isatty():
        import segno

        segno.make(url, micro=False).terminal(compact=True)


def _print(text: str) -> None:
    print(text, flush=True)  # noqa: T201  the result


def _tell(text: str) -> None:
    print(text, file=sys.stderr, flush=True)  # noqa: T201  the console is ours
