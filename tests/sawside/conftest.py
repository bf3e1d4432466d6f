"""The program as it runs at the saw, in a process of its own, and a browser for its page."""

from __future__ import annotations

import base64
import json
import os
import re
import shutil
import signal
import ssl
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from sequencer.sawside.certificate import certificate_for
from sequencer.sawside.command import LOOPBACK
from tests.sawside.driver import PANTRY, ROOT, Saw

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page, Playwright

CHROMIUM = shutil.which("chromium")
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip
GONE = re.compile("ERR_|status of 503")
"""What the browser says of a program that is not there, or is still planning."""

PHONE = {"width": 360, "height": 640}


class Program:
    """`sequencer follow` on one job; killed and started again at will, on the same port."""

    def __init__(self, store: Path, folder: Path = PANTRY, job: Path | None = None) -> None:
        self.store = store
        self.shop = folder / "shop.toml"
        self.job = job or folder / "job.toml"
        self.port = 0
        self.process: subprocess.Popen[str] | None = None
        self.url = ""
        self.tls = False
        self.trusted: ssl.SSLContext | None = None

    def start(self, *, wait: bool = True, limit: int | None = None) -> None:
        """`limit`: the most bytes that a file of the process may have, as a full disk does it."""
        command = [sys.executable, "-m", "sequencer", "follow", str(self.job)]
        if self.shop.exists():
            command += ["--shop", str(self.shop)]
        command += ["--followed", str(self.store), "--port", str(self.port)]
        if self.tls:
            command.append("--tls")
        if limit is not None:
            program = (
                "import resource, runpy, sys; "
                f"resource.setrlimit(resource.RLIMIT_FSIZE, ({limit}, {limit})); "
                "runpy.run_module('sequencer', run_name='__main__')"
            )
            command[1:3] = ["-c", program]
        environment = {
            **os.environ, "PYTHONDONTWRITEBYTECODE": "1",
            "XDG_DATA_HOME": str(self.store.parent / "data"),  # no settings of one's own
        }  # fmt: skip
        self.process = subprocess.Popen(
            # A shell starts what runs behind it deaf to Ctrl-C, and all that this starts.
            ["env", "--default-signal=INT", *command], stdout=subprocess.PIPE,
            stderr=subprocess.PIPE, text=True, cwd=ROOT, env=environment,
        )  # fmt: skip
        assert self.process.stdout is not None
        self.url = self.process.stdout.readline().strip()
        assert self.url, self.process.communicate()[1]
        self.port = int(self.url.split("/")[2].rpartition(":")[2])
        if self.tls:
            self.trusted = ssl.create_default_context(cafile=str(self.certificates))
        if wait:
            self.wait()

    def wait(self) -> None:
        """Until the plan is there."""
        for _ in range(600):
            if self.get("stand")[0] == 200:
                return
            time.sleep(0.05)
        raise AssertionError("no plan after half a minute")

    def kill(self) -> None:
        """As a flat battery does it."""
        if self.process is not None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait()
            self._close()

    def stop(self) -> str:
        """As Ctrl-C does it; what it wrote beside the address."""
        assert self.process is not None
        self.process.send_signal(signal.SIGINT)
        out, err = self.process.communicate(timeout=30)
        return out + err

    def _close(self) -> None:
        assert self.process is not None
        for stream in (self.process.stdout, self.process.stderr):
            if stream is not None:
                stream.close()

    def get(self, path: str = "", **headers: str) -> tuple[int, bytes]:
        return self.ask(urllib.request.Request(self.url + path, headers=headers))

    def post(self, *events: dict[str, Any], **headers: str) -> tuple[int, dict[str, Any]]:
        body = json.dumps({"events": events}).encode()
        asked = urllib.request.Request(
            self.url + "events", body, {"Content-Type": "application/json", **headers}
        )
        status, answer = self.ask(asked)
        return status, json.loads(answer) if answer.startswith(b"{") else {}

    @property
    def certificates(self) -> Path:
        """Key and chain of the address, where it is served over https."""
        return self.store.parent / "data/sequencer/follow/certificates/127.0.0.1.pem"

    def ask(self, asked: urllib.request.Request) -> tuple[int, bytes]:
        try:
            with urllib.request.urlopen(asked, timeout=30, context=self.trusted) as answer:
                return answer.status, answer.read()
        except urllib.error.HTTPError as error:
            with error:
                return error.code, error.read()

    def stand(self) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(self.get("stand")[1])
        return found

    def cards(self) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(self.get("cards")[1])
        return found


@pytest.fixture(scope="session")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pantry's file with its plan worked out and nothing done yet; to be copied."""
    path = tmp_path_factory.mktemp("planned") / "followed.sqlite"
    Saw(path).store.close()
    return path


@pytest.fixture
def store(planned: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(planned, tmp_path))


@pytest.fixture
def saw(store: Path) -> Iterator[Saw]:
    made = Saw(store)
    yield made
    made.store.close()


def ahead(store: Path, label: str) -> None:
    """Everything before a printed step done as it is wanted."""
    made = Saw(store)
    made.go_to_step(label)
    made.store.close()


@pytest.fixture
def program(store: Path, request: pytest.FixtureRequest) -> Iterator[Program]:
    """Running; `@pytest.mark.step("7")` has what comes before step 7 done."""
    mark = request.node.get_closest_marker("step")
    if mark is not None:
        ahead(store, *mark.args)
    made = Program(store)
    made.start()
    yield made
    made.kill()


@pytest.fixture(scope="session")
def certified(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Key and chain for this machine's own address, as `follow --tls` makes them."""
    folder = tmp_path_factory.mktemp("certified")
    return certificate_for([LOOPBACK, "localhost"], folder).path


def pinned(certified: Path) -> str:
    """What makes the browser trust that key, as a phone does that has its root."""
    own = x509.load_pem_x509_certificates(certified.read_bytes())[0]
    key = own.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    pin = base64.b64encode(sha256(key).digest()).decode()
    return f"--ignore-certificate-errors-spki-list={pin}"


@pytest.fixture(scope="session")
def browser(certified: Path, driver: Playwright) -> Iterator[Browser]:
    if CHROMIUM is None:
        pytest.skip("needs chromium: apt-get install chromium")
    flags = [*FLAGS, pinned(certified)]
    opened = driver.chromium.launch(executable_path=CHROMIUM, args=flags)
    yield opened
    opened.close()


class Phone:
    """The page as a person has it before them."""

    def __init__(self, page: Page, url: str, *, quick: bool = True) -> None:
        """With `quick`, a tap may follow the one before at once, as no finger does."""
        self.page = page
        self.quick = quick
        self.faults: list[str] = []
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        page.on("console", self._heard)
        page.goto(url)
        self.settle()

    def _heard(self, message: Any) -> None:
        if message.type in ("error", "warning") and not GONE.search(message.text):
            self.faults.append(message.text)

    def settle(self) -> None:
        """Until every tap is answered and the page shows it."""
        quick = "BOUNCE = -Infinity, APART = 0, "
        answered = "Boolean(stand && cards) && !sending && !queue.length"
        for _ in range(1000):
            if self.page.evaluate(f"({quick if self.quick else ''}{answered})"):
                return
            self.page.wait_for_timeout(10)
        raise AssertionError("taps were not answered")

    @property
    def heading(self) -> str:
        """Its words; the signs that stand behind them are drawn."""
        return self.page.inner_text("h1").strip()

    @property
    def said(self) -> str:
        return self.page.inner_text("#said")

    def asked(self) -> dict[str, Any] | None:
        """The reading that is asked for: its measure, target and limits."""
        found: dict[str, Any] | None = self.page.evaluate(
            "(() => { const card = current();"
            " const unit = card && card.units.find((u) => status(card, u) === 'open');"
            " return unit && unit.p != null ? card.points[unit.p] : null; })()"
        )
        return found

    def tap(self, name: str, *, settle: bool = True) -> None:
        self.page.get_by_role("button", name=name, exact=True).first.click()
        if settle:
            self.settle()

    def main(self, *, settle: bool = True) -> None:
        """The big button; twice where it is one that is held."""
        held = self.page.locator("#foot button.hold.main").count()
        self.page.click("#foot button.main")
        if held:
            self.page.click("#foot button.main")
        if settle:
            self.settle()

    def more(self, name: str) -> None:
        """What stands behind the button beside Undo."""
        self.page.click("#more")
        self.tap(name)

    def spoil(self, mark: str) -> None:
        """Tapped twice, as it asks for."""
        self.more("A piece is spoiled")
        for _ in range(2):
            self.page.locator(".rows button", has_text=mark).first.click()
        self.settle()

    @property
    def told(self) -> str:
        """What has to be read before going on; gone on from then."""
        words = self.page.inner_text("main")
        if self.page.evaluate("panel") == "news":
            self.main()
        return words

    def read(self, text: str) -> None:
        """Enter a reading on the keypad of the page."""
        names = {" ": "space"}
        for key in text:
            self.page.get_by_role("button", name=names.get(key, key), exact=True).first.click()
        self.page.click(".keys button.main")
        self.settle()

    @property
    def to_tick(self) -> Locator:
        """What the setup asks for before power on, and that is not ticked yet."""
        return self.page.locator("button[data-rule]:not([disabled])")

    def step(self) -> None:
        point = self.asked()
        before = self.page.evaluate("panel !== 'card' || !document.querySelector('.keys')")
        if self.to_tick.count():
            self.to_tick.first.click()
            self.settle()
        elif point is None or (before and not point["by_fit"]):
            self.main()
        elif point["by_fit"]:
            self.tap("It fits")
        else:
            # Typed; `read` presses the keys of the page.
            self.page.fill("#field", point["target"])
            self.page.click(".keys button.main")
            self.settle()

    def go(self, heading: str) -> None:
        for _ in range(300):
            if self.heading.startswith(heading):
                return
            self.step()
        raise AssertionError(f"no {heading}")


@pytest.fixture
def phone(browser: Browser, program: Program) -> Iterator[Phone]:
    context = browser.new_context(viewport=PHONE)  # type: ignore[arg-type]  # a plain dict
    made = Phone(context.new_page(), program.url)
    yield made
    context.close()
    assert made.faults == []
