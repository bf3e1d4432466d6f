"""`python -m sequencer`: the same as the command `sequencer`."""

from sequencer.cli import entry

entry()
