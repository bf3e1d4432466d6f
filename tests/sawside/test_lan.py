"""`follow --lan`: one address, a token of 128 bits, and a QR code for the phone's camera."""

from __future__ import annotations

import io
import os
import pty
import re
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import segno

from tests.sawside.driver import PANTRY, ROOT

ADDRESS = "127.0.0.2"  # the loopback range stands in for the network


def test_one_address_is_bound_and_shown_as_a_code(store: Path) -> None:
    screen, end = pty.openpty()
    command = [sys.executable, "-m", "sequencer", "follow", str(PANTRY / "job.toml")]
    command += ["--shop", str(PANTRY / "shop.toml"), "--followed", str(store), "--port", "0"]
    environment = {**os.environ, "XDG_DATA_HOME": str(store.parent / "data")}
    with subprocess.Popen(
        [*command, "--lan", ADDRESS], cwd=ROOT, env=environment, stdout=end, stderr=subprocess.PIPE
    ) as program:
        try:
            os.close(end)
            shown = _read(screen)
            found = re.search(rf"http://{re.escape(ADDRESS)}:(\d+)/([0-9a-f]{{32}})/", shown)
            assert found is not None, shown
            port = int(found[1])
            assert _code(found[0]) in shown.replace("\r\n", "\n")
            with urllib.request.urlopen(found[0], timeout=30) as answer:
                assert answer.status == 200
            assert not _listens("127.0.0.1", port)
            assert _listens(ADDRESS, port)
        finally:
            program.terminate()
            program.communicate(timeout=30)
            os.close(screen)


def _code(url: str) -> str:
    out = io.StringIO()
    segno.make(url, micro=False).terminal(out, compact=True)
    return out.getvalue().strip("\n")


def _read(screen: int) -> str:
    """What a terminal shows until nothing more comes."""
    os.set_blocking(screen, False)
    shown, quiet, ends = b"", 0, time.monotonic() + 30
    while time.monotonic() < ends and quiet < 10:
        try:
            shown += os.read(screen, 65536)
            quiet = 0
        except BlockingIOError:
            quiet += b"http" in shown
            time.sleep(0.05)
    return shown.decode()


def _listens(address: str, port: int) -> bool:
    with socket.socket() as client:
        client.settimeout(5)
        return client.connect_ex((address, port)) == 0
