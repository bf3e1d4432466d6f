"""The commands `follow` and `times`."""

from __future__ import annotations

from sequencer.facts import follows
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    follows.WRITTEN_BY_NEWER: _("{file}: written by a newer version of this program"),
    follows.NOT_OPENED: _(
        "{file}: cannot be opened as a file of what was done: {reason}; name another with "
        "--followed"
    ),
    follows.NOT_SAVED: _("nothing was saved: {reason}"),
    follows.NO_SUCH_JOB: _("the file of what was done has no job {digest}"),
    follows.PROGRAM_FAULT: _("a fault of this program: {what}"),
    follows.A_FILE: _("--lan {text}: an address may stand there; write {text} in front of --lan"),
    follows.NO_ADDRESS: _(
        "this machine has no address in a local network: join one, or name it with --lan ADDRESS"
    ),
    follows.NO_PORT: _("--port {port}: a port is a number up to 65535"),
    follows.NOT_FREE: _(
        "{address} port {port}: {reason}; name another with --port, or close what uses it"
    ),
    follows.KEEP_TO_YOURSELF: _(
        "whoever has this address can follow and tick; it is not to be passed on"
    ),
    follows.STAY_AWAKE: _(
        "set the phone not to go to sleep: over plain http a page may not keep it awake"
    ),
    follows.NO_TLS_LIBRARY: _(
        "--tls makes a certificate with the library cryptography, which is missing: install it "
        "with pip install cryptography, or follow without --tls"
    ),
    follows.MADE_HERE: _(
        "the certificate of this address was made here and stands for nothing else; its SHA-256 "
        "fingerprint: {fingerprint}"
    ),
    follows.TRUST_ONCE: _(
        "once, on the phone: open {address}, go on past the browser’s warning, and install what "
        "is loaded as a CA certificate from the phone’s settings, if its fingerprint is the one "
        "above; some phones then want it switched on under certificate trust"
    ),
    follows.THEN_INSTALL: _(
        "then open the address above and add it to the home screen: it keeps the phone awake, and "
        "opens without this program, with the whole plan"
    ),
    follows.TAKEN_OUT: _("when the job is done, take the certificate out of the phone again"),
    follows.NOTHING_FOLLOWED: _(
        "this job has not been followed yet: sequencer follow, then its name, notes the times"
    ),
    follows.NO_SUCH_FILE: _("{file}: no such file of what was done"),
    follows.NOTHING_TIMED: _("no setting and no test cut has been timed yet"),
    follows.TIMED: counted_("{key}: {minutes}, timed once", "{key}: {minutes}, timed {n} times"),
    follows.PUT_INTO: _("--into SHOP puts these under [minutes] of the shop file"),
    follows.WRITTEN: _("{file}: written"),
    follows.NOT_WRITTEN: _("{file}: cannot be written: {reason}"),
    follows.BY_HAND: _("{file}: {why:comma}; write them by hand"),
    follows.NOT_LINE_BY_LINE: _("the [minutes] of this file cannot be changed line by line"),
    follows.FOLLOWED: _("where ticks and readings are kept (the user's data folder)"),
    follows.SETTINGS: _("the saved settings; without it, the user's own"),
    follows.LAN: _("serve on this machine's address in the local network, for a phone"),
    follows.TLS: _(
        "serve over https, under a certificate made here, so that a phone keeps page and plan and "
        "goes on where this program is out of reach"
    ),
    follows.INTO: _("write the medians under [minutes] of this shop file"),
}
