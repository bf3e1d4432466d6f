"""The page and its few answers, as an ASGI application.

    /TOKEN/                 the page
    /TOKEN/page.css, .js …  what it is made of
    /TOKEN/cards            all cards of the plan
    /TOKEN/stand            what is done; changes with every tap
    /TOKEN/live             a line whenever that has changed (server-sent events)
    /TOKEN/changed          the printed lines that do not hold any more, as they are now: to print
    /TOKEN/edited           what the files, where they were changed, would make of what is done
    /TOKEN/weigh            POST: what a reading would change; nothing is kept
    /TOKEN/events           POST: taps and readings; the answer is sent when the disk has them
    /TOKEN/drawing/KEY.svg  the drawing of a setup

Where it is served over https, so that a phone keeps it, also:

    /TOKEN/worker.js            what opens the page there without the program
    /TOKEN/manifest.webmanifest how it stands on the phone's home screen
    /TOKEN/trust.crt            the certificate that the phone is told to trust

Nothing else is served, and nothing of it comes from a path: the assets are read once. What is long
goes out compressed to whoever takes it so: the cards of 40 doors are an eighth of their size then.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Mapping
from hashlib import sha256
from html import escape
from importlib.resources import files
from threading import Thread
from typing import TYPE_CHECKING, Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response, StreamingResponse
from starlette.routing import Route

from sequencer.errors import InternalError, SequencerError
from sequencer.facts import follows
from sequencer.sawside.live import Live
from sequencer.sawside.security import Gate, TooLargeError
from sequencer.sawside.store import NotSavedError
from sequencer.wording import Room, for_plan
from sequencer.wording.complaints import complaint
from sequencer.wording.pages import language, words

if TYPE_CHECKING:
    # Loaded where they are needed: the page stands before the plan does.
    from sequencer.plan import Plan
    from sequencer.sawside.engine import Engine
    from sequencer.sawside.store import Event

SHORT = 1000
"""Bytes: an answer below this goes out as it is; most taps are answered so on a small job."""

LEVEL = 5
"""How hard zlib tries: more costs a tap more time than it saves on the way; ours."""

SCRIPTS = ("make", "talk", "exact", "touch", "pad", "card", "panels", "keep", "page")

ASSETS = {
    "page.css": ("page.css", "text/css; charset=utf-8"),
    **{f"{name}.js": (f"{name}.js", "text/javascript; charset=utf-8") for name in SCRIPTS},
    "changed.css": ("changed.css", "text/css; charset=utf-8"),
    "changed.js": ("changed.js", "text/javascript; charset=utf-8"),
    "icon.svg": ("icon.svg", "image/svg+xml"),
}


class Following:
    """The engine, once the plan is there; until then why not."""

    def __init__(self, open_it: Callable[[], Engine], give_up: Callable[[], object]) -> None:
        self.engine: Engine | None = None
        self.failed: SequencerError | None = None
        self._open = open_it
        self._give_up = give_up

    def begin(self) -> Thread:
        """Open the job in the background, so that the page stands at once."""
        thread = Thread(target=self.open, daemon=True)
        thread.start()
        return thread

    def open(self) -> None:
        try:
            self.engine = self._open()
        except SequencerError as error:
            self.failed = error
        except Exception as error:  # else the page would wait for ever
            what = f"{type(error).__name__}: {error}"
            self.failed = InternalError(follows.PROGRAM_FAULT(what=what))
        if self.failed is not None:
            self._give_up()


def make_app(
    following: Following,
    token: str,
    hosts: frozenset[str],
    room: Room,
    trusted: bytes | None = None,
) -> Any:
    """The application behind its gate. `room` says what the page says before there is a plan;
    `trusted` is the certificate that a phone is to trust, where the page is served over https."""
    assets = {name: (_static(file), kind) for name, (file, kind) in ASSETS.items()}
    assets[""] = (page(room).encode(), "text/html; charset=utf-8")
    if trusted is not None:
        edition = sha256(b"\0".join(body for body, _ in assets.values())).hexdigest()[:16]
        assets[""] = (page(room, edition).encode(), "text/html; charset=utf-8")
        assets |= {
            "worker.js": (_worker(assets, edition), "text/javascript; charset=utf-8"),
            "manifest.webmanifest": (_manifest(room), "application/manifest+json"),
            "trust.crt": (trusted, "application/x-x509-ca-cert"),
        }
    pages = _Pages(following, room)
    routes = [
        Route(f"/{token}/{name}", _asset(body, kind), methods=["GET"])
        for name, (body, kind) in assets.items()
    ]
    routes += [
        Route(f"/{token}/cards", pages.cards, methods=["GET"]),
        Route(f"/{token}/stand", pages.stand, methods=["GET"]),
        Route(f"/{token}/live", pages.live, methods=["GET"]),
        Route(f"/{token}/changed", pages.changed, methods=["GET"]),
        Route(f"/{token}/edited", pages.edited, methods=["GET"]),
        Route(f"/{token}/weigh", pages.weigh, methods=["POST"]),
        Route(f"/{token}/drawing/{{key:str}}.svg", pages.drawing, methods=["GET"]),
        Route(f"/{token}/events", pages.events, methods=["POST"]),
    ]
    app = Starlette(routes=routes)
    app.router.redirect_slashes = False
    scheme = "http" if trusted is None else "https"
    return Gate(GZipMiddleware(app, SHORT, LEVEL), token, hosts, scheme)


def _static(file: str) -> bytes:
    return files(__package__).joinpath("static", file).read_bytes()


def _worker(assets: Mapping[str, tuple[bytes, str]], edition: str) -> bytes:
    """What the phone's browser runs beside the page, with the names of all that it keeps: they are
    another edition, and another worker, as soon as one byte of them is another."""
    text = _static("worker.js").decode().replace('"EDITION"', json.dumps(edition))
    return text.replace('"PARTS"', ", ".join(json.dumps(name or ".") for name in assets)).encode()


def _manifest(room: Room) -> bytes:
    icon = {"src": "icon.svg", "type": "image/svg+xml", "sizes": "any"}
    found = {
        "name": words(room)["title"], "lang": language(room), "id": ".", "start_url": ".",
        "scope": ".", "display": "standalone", "background_color": "#ffffff",
        "theme_color": "#ffffff", "icons": [icon],
    }  # fmt: skip
    return json.dumps(found, ensure_ascii=False).encode()


def page(room: Room, edition: str = "") -> str:
    """The page before its script runs, with the words that the script will ask for. Where a phone
    may keep it, it names its parts by their `edition`."""
    found = words(room)
    text = _static("page.html").decode()
    if edition:
        text = text.replace('.js"', f'.js?v={edition}"').replace('.css"', f'.css?v={edition}"')
        manifest = '<link rel="manifest" href="manifest.webmanifest">\n'
        text = text.replace('<link rel="icon"', f'{manifest}<link rel="icon"')
    for key, word in found.items():
        text = text.replace(f"{{{key}}}", escape(word))
    # Within the element, no text may look like its end.
    as_json = json.dumps(found, ensure_ascii=False).replace("<", "\\u003c")
    return text.replace("{lang}", language(room)).replace("{words}", as_json)


def _asset(body: bytes, kind: str) -> Callable[[Request], Any]:
    async def serve(_: Request) -> Response:
        return Response(body, headers={"content-type": kind})

    return serve


def _of(engine: Engine) -> dict[str, Any]:
    """What a page gets beside the state: the number of the last event, and whether the files are
    others by now, and are to be looked at (`offered`) or may be (`edited`)."""
    found = {"version": engine.version, "offered": engine.offered, "edited": engine.edited}
    return {**found, "known": _known(engine)}


def _known(engine: Engine) -> str:
    """What a page that has it need not ask for again."""
    return f"{engine.version}-{engine.files.digest}"


class _Pages:
    def __init__(self, following: Following, room: Room) -> None:
        self.following = following
        self.room = room
        self._drawn: tuple[Plan | None, dict[int, str]] = (None, {})
        self._live = Live(lambda: following.engine)

    async def cards(self, _: Request) -> Response:
        return await run_in_threadpool(self._with, "cards")

    async def stand(self, request: Request) -> Response:
        engine = self.following.engine
        known = request.query_params.get("known")
        if engine is not None:
            await run_in_threadpool(engine.catch_up)
        if engine is not None and known == _known(engine):
            return Response(status_code=204)
        return await run_in_threadpool(self._with, "stand")

    def _with(self, shown: str) -> Response:
        engine = self.following.engine
        if engine is None:
            failed = self.following.failed
            said = complaint(failed, self.room) if failed else ""
            return JSONResponse({"failed": said, "planning": not failed}, 503)
        from sequencer.sawside import view

        with engine.lock:
            found = view.cards(engine.state) if shown == "cards" else view.stand(engine.state)
            body = {**found, **_of(engine)}
        return JSONResponse(body)

    async def changed(self, request: Request) -> Response:
        address = str(request.url).rpartition("/")[0] + "/"
        return await run_in_threadpool(self._changed, address)

    def _changed(self, address: str) -> Response:
        engine = self.following.engine
        if engine is None:
            return Response(status_code=404)
        from sequencer.sawside.changed import changed_lines

        with engine.lock:
            room = for_plan(engine.state.plan)
            return HTMLResponse(changed_lines(engine.state, address, room))

    async def edited(self, _: Request) -> Response:
        return await run_in_threadpool(self._edited)

    def _edited(self) -> Response:
        engine = self.following.engine
        if engine is None:
            return Response(status_code=404)
        from sequencer.sawside.comparing import compared

        with engine.lock:
            after = engine.changed()
            if after is None:
                return Response(status_code=404)
            room = for_plan(engine.state.plan)
            return JSONResponse(compared(engine.state, after, engine.files.digest, room))

    async def drawing(self, request: Request) -> Response:
        key = request.path_params["key"]
        return await run_in_threadpool(self._drawing, key)

    def _drawing(self, key: str) -> Response:
        engine = self.following.engine
        if engine is None:
            return Response(status_code=404)
        with engine.lock:
            state = engine.state
            card = next((card for card in state.cards if card.key == key), None)
            plan = state.plan
        if card is None or card.setup is None or card.setup not in plan.setups:
            return Response(status_code=404)
        picture = self._drawings(plan).get(card.setup.number, "")
        if not picture:
            return Response(status_code=404)
        return Response(picture, headers={"content-type": "image/svg+xml"})

    def _drawings(self, plan: Plan) -> dict[int, str]:
        """All setups' drawings of the plan, drawn once."""
        from sequencer.instructions.figures import Scale
        from sequencer.sheets.views import drawings

        known, drawn = self._drawn
        if known is not plan:
            drawn = drawings(plan, Scale.of(plan, for_plan(plan)))
            self._drawn = (plan, drawn)
        return drawn

    async def live(self, _: Request) -> Response:
        return StreamingResponse(self._live.lines(), media_type="text/event-stream")

    async def events(self, request: Request) -> Response:
        return await self._posted(request, self._take)

    async def weigh(self, request: Request) -> Response:
        return await self._posted(request, self._weigh)

    async def _posted(
        self, request: Request, answer: Callable[[Engine, list[Event]], Response]
    ) -> Response:
        engine = self.following.engine
        if engine is None:
            return JSONResponse({"failed": "", "planning": True}, 503)
        from sequencer.sawside import view
        from sequencer.sawside.received import events_of
        from sequencer.sawside.state import TapError

        try:
            events = events_of(await request.body(), time.time_ns() // 1_000_000)
        except TooLargeError:
            return Response("not here", 413, {"connection": "close"})
        except TapError as error:
            return JSONResponse({"failed": view.all_said(error.says, self.room)}, 400)
        try:
            return await run_in_threadpool(answer, engine, events)
        except NotSavedError as error:
            return JSONResponse({"failed": complaint(error, self.room)}, 507)

    def _take(self, engine: Engine, events: list[Event]) -> Response:
        from sequencer.sawside import view

        with engine.lock:
            outcomes = engine.take(events)
            room = for_plan(engine.state.plan)
            body = {**view.stand(engine.state, room), **_of(engine)}
        self._live.changed()
        body["outcomes"] = [
            {
                "id": outcome.id,
                "kept": outcome.kept,
                "words": [room.sentence(each) for each in outcome.says],
            }
            for outcome in outcomes
        ]
        return JSONResponse(body)

    def _weigh(self, engine: Engine, events: list[Event]) -> Response:
        from sequencer.sawside.weighing import weighed

        if len(events) != 1:
            return Response(status_code=400)
        with engine.lock:
            room = for_plan(engine.state.plan)
            return JSONResponse(weighed(engine.state, engine.weigh(events[0]), room))
