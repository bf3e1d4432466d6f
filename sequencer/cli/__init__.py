"""The command `sequencer`: reads files, calls the stages, writes files, says what went wrong.

Results go to stdout, all else to stderr. Exit codes: 0 good; 1 no plan as asked; 2 wrong usage;
3 a file is wrong; 4 the surroundings failed; 130 interrupted. Slow stages are imported by the
commands that need them, so that `check` starts at once.
"""

from sequencer.cli.run import main

__all__ = ["main"]
