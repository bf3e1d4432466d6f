"""Closed by default: each thing that somebody in the same network might try, refused."""

from __future__ import annotations

import asyncio
import gzip
import http.client
import json
import socket
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest

from sequencer.sawside.command import LOOPBACK, _listen
from tests.benchmarks.sawside import job
from tests.sawside.conftest import Program
from tests.sawside.driver import PANTRY


@pytest.fixture(scope="module")
def running(planned: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Program]:
    import shutil

    made = Program(Path(shutil.copy(planned, tmp_path_factory.mktemp("open"))))
    made.start()
    yield made
    said = made.stop()
    assert token(made) not in said
    assert "Traceback" not in said


def token(program: Program) -> str:
    return program.url.rstrip("/").rpartition("/")[2]


def ask(
    program: Program, path: str, method: str = "GET", body: Any = None, **headers: str
) -> tuple[int, dict[str, str], bytes]:
    """One request as given, nothing tidied up on the way."""
    connection = http.client.HTTPConnection(LOOPBACK, program.port, timeout=30)
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    try:
        connection.request(method, path, body, named)
        answer = connection.getresponse()
        return answer.status, {k.lower(): v for k, v in answer.getheaders()}, answer.read()
    finally:
        connection.close()


JSON = {"Content_Type": "application/json"}


def test_the_token_has_128_bits(running: Program) -> None:
    assert len(token(running)) == 32
    assert int(token(running), 16) > 0


@pytest.mark.parametrize(
    "path",
    [
        "/", "/stand", "/{wrong}/", "/{wrong}/stand", "/{upper}/", "/{short}/", "/{token}x/",
        "/{token}/../stand", "/{token}/%2e%2e/%2e%2e/etc/passwd",
        "/{token}/..%2f..%2fpyproject.toml",
        "/{token}/page.html", "/{token}/static/page.js", "/{token}/.git/config",
        "/{token}/followed.sqlite", "/{token}/drawing/..%2f..%2fstore.svg", "/{token}//etc/passwd",
        "/{token}/page.js%00.html", "/{token}/stand/", "/%00", "/{token}/drawing/.svg",
    ],
)  # fmt: skip
def test_wrong_tokens_and_path_tricks(running: Program, path: str) -> None:
    right = token(running)
    wrong = ("0" if right[0] != "0" else "1") + right[1:]
    asked = path.format(token=right, wrong=wrong, upper=right.upper(), short=right[:-1])
    if right.upper() == right and "{upper}" in path:
        pytest.skip("a token without letters")
    status, _, body = ask(running, asked)
    assert status == 404
    assert b"root:" not in body
    assert b"sqlite" not in body.lower()


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Host": "example.org"}, 421),
        ({"Host": "127.0.0.1"}, 421),
        ({"Host": "127.0.0.1:1"}, 421),
        ({"Host": ""}, 421),
        ({"Origin": "http://example.org"}, 403),
        ({"Origin": "null"}, 403),
        ({"Origin": "https://127.0.0.1"}, 403),
        ({"Sec_Fetch_Site": "cross-site"}, 403),
        ({"Sec_Fetch_Site": "same-site"}, 403),
    ],
)
def test_wrong_hosts_and_foreign_origins(
    running: Program, headers: dict[str, str], status: int
) -> None:
    path = f"/{token(running)}/"
    assert ask(running, path, **headers)[0] == status
    body = json.dumps({"events": []}).encode()
    assert ask(running, f"{path}events", "POST", body, **{**JSON, **headers})[0] == status


def test_the_page_s_own_origin_is_let_in(running: Program) -> None:
    origin = f"http://{LOOPBACK}:{running.port}"
    body = json.dumps({"events": []}).encode()
    path = f"/{token(running)}/events"
    assert ask(running, path, "POST", body, Origin=origin, **JSON)[0] == 200
    # A form of another page can send this without asking first, and is refused.
    assert ask(running, path, "POST", body, Content_Type="text/plain")[0] == 415
    for method in ("PUT", "DELETE", "OPTIONS", "PATCH"):
        assert ask(running, path, method)[0] == 405


def test_every_answer_carries_its_headers(running: Program) -> None:
    for path, status in (
        (f"/{token(running)}/", 200),
        (f"/{token(running)}/stand", 200),
        ("/", 404),
    ):
        got, headers, _ = ask(running, path)
        assert got == status
        assert headers["content-security-policy"].startswith("default-src 'none'")
        assert "unsafe" not in headers["content-security-policy"]
        assert headers["referrer-policy"] == "no-referrer"
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["cache-control"] == "no-store"
        assert "server" not in headers


def test_without_tls_nothing_is_there_to_be_kept(running: Program) -> None:
    assert running.url.startswith("http://")
    for name in ("worker.js", "manifest.webmanifest", "trust.crt"):
        assert running.get(name)[0] == 404
    assert b"manifest" not in running.get()[1]


def test_a_body_of_10_mb(running: Program) -> None:
    path = f"/{token(running)}/events"
    big = b"x" * 10_000_000
    with suppress(BrokenPipeError, ConnectionResetError):  # the door shut while it still talks
        assert ask(running, path, "POST", big, **JSON)[0] == 413
    # Without a length, in pieces, it is cut off as well.
    with socket.create_connection((LOOPBACK, running.port), timeout=30) as raw:
        head = (
            f"POST {path} HTTP/1.1\r\nHost: {LOOPBACK}:{running.port}\r\n"
            "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
        )
        raw.sendall(head.encode())
        assert b" 413 " in raw.recv(1000)
    # A length that is a lie.
    status, _, _ = ask(running, path, "POST", b"{}", Content_Length="1", **JSON)
    assert status in (400, 413)
    assert running.get("stand")[0] == 200


@pytest.mark.parametrize(
    "body",
    [
        b"", b"{", b"[]", b'{"events": 1}', b'{"events": [1]}', b'{"events": [{}]}',
        b'{"events": [{"id": "x"}]}', b'{"events": [{"id": 12345678}]}', b"\xff\xfe",
        b'{"events": [' + b"[" * 5000 + b"]" * 5000 + b"]}",
        b'{"events": [{"id": "12345678", "kind": "tick", "card": "' + b"a" * 5000 + b'"}]}',
        # Half a character, which no answer can say.
        b'{"events": [{"id": "12345678", "kind": "spoil", "mark": "\\ud800"}]}',
    ],
)  # fmt: skip
def test_what_is_no_event_is_not_understood(running: Program, body: bytes) -> None:
    before = running.stand()
    for path in ("events", "weigh"):
        assert ask(running, f"/{token(running)}/{path}", "POST", body, **JSON)[0] == 400
    assert running.stand() == before


@pytest.mark.parametrize(
    "event",
    [
        {"kind": "base", "digest": "0" * 16}, {"kind": "undo", "of": "base-0"}, {"kind": None},
        {"kind": "tick", "card": ["a"], "unit": {}}, {"kind": "read", "card": "x", "unit": "m0"},
        {"kind": "spoil", "mark": "'; drop table events; --"},
        {"kind": "measure", "what": "kerf", "name": "nothing", "text": "3"},
    ],
)  # fmt: skip
def test_events_that_make_no_sense_are_refused(running: Program, event: dict[str, Any]) -> None:
    before = running.stand()["version"]
    status, answer = running.post({"id": "nonsense-1", **event})
    assert status == 200
    assert not answer["outcomes"][0]["kept"]
    assert running.stand()["version"] == before
    body = json.dumps({"events": [{"id": "nonsense-1", **event}]}).encode()
    status, _, said = ask(running, f"/{token(running)}/weigh", "POST", body, **JSON)
    assert status == 200
    assert not json.loads(said)["may"]


def test_a_host_given_twice_is_none(running: Program) -> None:
    with socket.create_connection((LOOPBACK, running.port), timeout=30) as raw:
        host = f"Host: {LOOPBACK}:{running.port}\r\n"
        raw.sendall(f"GET /{token(running)}/ HTTP/1.1\r\n{host}{host}\r\n".encode())
        assert raw.recv(1000).split(b" ")[1] in (b"400", b"421")


def test_a_thousand_requests_at_once(running: Program) -> None:
    """A thousand connections stand open before the first request is sent; every other one brings
    the same tap. Some are turned away; none hangs, the tap counts once, and the page is served as
    before afterwards."""
    before = running.stand()
    card = next(c for c in running.cards()["cards"] if c["k"] == before["now"])
    unit = next(u for u in card["units"] if "p" not in u)
    tap = {"id": "a-thousand-times", "kind": "tick", "card": card["k"], "unit": unit["u"]}
    body = json.dumps({"events": [tap]})
    head = f" HTTP/1.1\r\nHost: {LOOPBACK}:{running.port}\r\nConnection: close\r\n"
    path = f"/{token(running)}"
    read = f"GET {path}/stand{head}\r\n"
    post = (
        f"POST {path}/events{head}Content-Type: application/json\r\n"
        f"Content-Length: {len(body)}\r\n\r\n{body}"
    )

    async def one(number: int, all_open: asyncio.Barrier) -> int:
        reader, writer = await asyncio.open_connection(LOOPBACK, running.port)
        await all_open.wait()
        writer.write((post if number % 2 else read).encode())
        await writer.drain()
        with suppress(ConnectionResetError):
            answer = await reader.read()
            writer.close()
            return int(answer.split(b" ")[1]) if answer else 0
        return 0

    async def everyone() -> list[int]:
        all_open = asyncio.Barrier(1000)
        return await asyncio.wait_for(
            asyncio.gather(*(one(number, all_open) for number in range(1000))), 60
        )

    # In a thread of its own: a browser in this process keeps a loop running in this one.
    with ThreadPoolExecutor(1) as alone:
        statuses = alone.submit(asyncio.run, everyone()).result()
    assert len(statuses) == 1000
    assert set(statuses) <= {0, 200, 503}
    assert statuses.count(200) > 100
    # Whatever came of the thousand, the tap is sent until it is answered, and counts once.
    assert running.post(tap)[1]["outcomes"][0]["kept"]
    after = running.stand()
    assert after["version"] == before["version"] + 1
    assert after["units"][card["k"]][unit["u"]] == "done"
    assert running.post({"id": "undo-of-it", "kind": "undo", "of": tap["id"]})[0] == 200


def test_names_with_markup_are_text(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    nasty = "<img src=x onerror=alert(1)></script>"
    text = (PANTRY / "job.toml").read_text("utf-8")
    job.write_text(text.replace('name = "Pantry"', f"name = '{nasty}'"), "utf-8")
    program = Program(tmp_path / "a.sqlite", job=job)
    program.start()
    status, page = program.get()
    assert status == 200
    assert nasty.encode() not in page
    assert program.cards()["jobs"] == [nasty]
    assert ask(program, f"/{token(program)}/cards")[1]["content-type"] == "application/json"
    program.kill()


def packed(program: Program, path: str) -> tuple[bytes, bytes]:
    """As it is sent to a browser, and what the browser makes of it."""
    name = f"/{token(program)}/{path}"
    status, headers, body = ask(program, name, Accept_Encoding="gzip, deflate")
    assert status == 200
    if "content-encoding" not in headers:
        return body, body
    assert headers["content-encoding"] == "gzip"
    assert "accept-encoding" in headers["vary"].lower()
    return body, gzip.decompress(body)


PARTS = ("", "page.css", "page.js", "icon.svg")


def test_the_page_is_small_and_whole(running: Program) -> None:
    """It names nothing of anywhere else, and goes out compressed to whoever takes it so."""
    parts = [running.get(name)[1] for name in PARTS]
    assert sum(map(len, parts)) < 40_000
    for name, plain in zip(PARTS, parts, strict=True):
        sent, unpacked = packed(running, name)
        assert unpacked == plain
        assert len(sent) < len(plain) / 2 or len(plain) < 1000
    text = b"".join(parts).replace(b"http://www.w3.org/2000/svg", b"")
    assert b"//" not in text.replace(b"// ", b"")
    for word in (b"innerHTML", b"eval(", b"document.write", b"onclick", b"style="):
        assert word not in text


def test_forty_doors_are_sent_in_less_than_100_kb(tmp_path: Path) -> None:
    """Page, all cards, and what is done: everything that is loaded first."""
    file = tmp_path / "job.toml"
    file.write_text(job(40), "utf-8")
    program = Program(tmp_path / "a.sqlite", folder=tmp_path, job=file)
    program.start()
    loaded = [packed(program, name) for name in (*PARTS, "cards", "stand")]
    program.kill()
    assert len(json.loads(loaded[-2][1])["cards"]) > 100
    assert sum(len(sent) for sent, _ in loaded) < 100_000


def test_only_one_address_listens(running: Program) -> None:
    with (
        pytest.raises(OSError, match=r"."),
        socket.create_connection(("127.0.0.2", running.port), timeout=2),
    ):
        pass


def test_a_port_that_is_taken_is_named(running: Program) -> None:
    from sequencer.errors import SurroundingsError

    with pytest.raises(SurroundingsError, match=f"follow.not-free.*port={running.port}"):
        _listen(LOOPBACK, running.port)


def test_the_store_is_its_owner_s_alone(running: Program) -> None:
    assert running.store.stat().st_mode & 0o077 == 0
