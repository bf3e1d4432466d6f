"""The commands `follow` and `times`. Each sentence once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sequencer.facts import Fact, follows, taps
from sequencer.wording import Room

SAID: list[tuple[Fact, str]] = [
    (
        follows.WRITTEN_BY_NEWER(file="a.sqlite"),
        "a.sqlite: written by a newer version of this program",
    ),
    (
        follows.NOT_OPENED(file="a.sqlite", reason="permission denied"),
        (
            "a.sqlite: cannot be opened as a file of what was done: permission denied; name "
            "another with --followed"
        ),
    ),
    (follows.NOT_SAVED(reason="permission denied"), "nothing was saved: permission denied"),
    (follows.NO_SUCH_JOB(digest="1f2e"), "the file of what was done has no job 1f2e"),
    (follows.PROGRAM_FAULT(what="KeyError: 3"), "a fault of this program: KeyError: 3"),
    (
        follows.A_FILE(text="job.toml"),
        "--lan job.toml: an address may stand there; write job.toml in front of --lan",
    ),
    (
        follows.NO_ADDRESS(),
        "this machine has no address in a local network: join one, or name it with --lan ADDRESS",
    ),
    (follows.NO_PORT(port=8427), "--port 8427: a port is a number up to 65535"),
    (
        follows.NOT_FREE(address="10.0.0.2", port=8427, reason="permission denied"),
        "10.0.0.2 port 8427: permission denied; name another with --port, or close what uses it",
    ),
    (
        follows.KEEP_TO_YOURSELF(),
        "whoever has this address can follow and tick; it is not to be passed on",
    ),
    (
        follows.STAY_AWAKE(),
        "set the phone not to go to sleep: over plain http a page may not keep it awake",
    ),
    (
        follows.NO_TLS_LIBRARY(),
        (
            "--tls makes a certificate with the library cryptography, which is missing: install it "
            "with pip install cryptography, or follow without --tls"
        ),
    ),
    (
        follows.MADE_HERE(fingerprint="AB:01"),
        (
            "the certificate of this address was made here and stands for nothing else; its "
            "SHA-256 "
            "fingerprint: AB:01"
        ),
    ),
    (
        follows.TRUST_ONCE(address="https://10.0.0.2/trust.crt"),
        (
            "once, on the phone: open https://10.0.0.2/trust.crt, go on past the browser’s "
            "warning, "
            "and install what is loaded as a CA certificate from the phone’s settings, if its "
            "fingerprint is the one above; some phones then want it switched on under certificate "
            "trust"
        ),
    ),
    (
        follows.THEN_INSTALL(),
        (
            "then open the address above and add it to the home screen: it keeps the phone "
            "awake, and "
            "opens without this program, with the whole plan"
        ),
    ),
    (
        follows.TAKEN_OUT(),
        "when the job is done, take the certificate out of the phone again",
    ),
    (
        follows.NOTHING_FOLLOWED(),
        "this job has not been followed yet: sequencer follow, then its name, notes the times",
    ),
    (follows.NO_SUCH_FILE(file="a.sqlite"), "a.sqlite: no such file of what was done"),
    (follows.NOTHING_TIMED(), "no setting and no test cut has been timed yet"),
    (follows.TIMED(key="unit", minutes=Fraction(3, 2), n=2), "unit: 1½ minutes, timed 2 times"),
    (follows.PUT_INTO(), "--into SHOP puts these under [minutes] of the shop file"),
    (follows.WRITTEN(file="a.sqlite"), "a.sqlite: written"),
    (
        follows.NOT_WRITTEN(file="a.sqlite", reason="permission denied"),
        "a.sqlite: cannot be written: permission denied",
    ),
    (
        follows.BY_HAND(file="a.sqlite", why=(taps.NO_NUMBER(),)),
        "a.sqlite: enter a number; write them by hand",
    ),
    (follows.NOT_LINE_BY_LINE(), "the [minutes] of this file cannot be changed line by line"),
    (follows.FOLLOWED(), "where ticks and readings are kept (the user's data folder)"),
    (follows.SETTINGS(), "the saved settings; without it, the user's own"),
    (follows.LAN(), "serve on this machine's address in the local network, for a phone"),
    (
        follows.TLS(),
        (
            "serve over https, under a certificate made here, so that a phone keeps page and "
            "plan and "
            "goes on where this program is out of reach"
        ),
    ),
    (follows.INTO(), "write the medians under [minutes] of this shop file"),
]


@pytest.mark.parametrize(("fact", "words"), SAID, ids=[fact.id for fact, _ in SAID])
def test_what_is_said(fact: Fact, words: str) -> None:
    assert Room("UK", Fraction(1, 64)).say(fact) == words


def test_every_sentence_is_in_the_table() -> None:
    assert {fact.kind for fact, _ in SAID} == set(follows.kind_of.kinds.values())
