"""How the command is called: its arguments, and what `--help` says of them."""

from __future__ import annotations

import argparse
from gettext import gettext
from typing import Any, NoReturn

from sequencer.cli import beginning, naming
from sequencer.cli import commands as does
from sequencer.cli.console import show
from sequencer.cli.version import VERSION
from sequencer.errors import UsageError
from sequencer.facts import commands
from sequencer.saved import command as saved
from sequencer.saved import planning
from sequencer.wording import Room
from sequencer.wording.helps import help_text


class _Parser(argparse.ArgumentParser):
    _mixing = False

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """Names of files may stand behind options, too. What is left over is told here, with the
        usage of the command that it was given to."""
        if self._mixing or self._subparsers is not None:
            return super().parse_known_args(args, namespace)
        if "--" in args:  # read twice, what stands behind it would be taken for options
            found, rest = super().parse_known_args(args, namespace)
        else:
            self._mixing, self.usage = True, self._own_usage()  # it calls back
            try:
                found, rest = self.parse_known_intermixed_args(args, namespace)
            finally:
                self._mixing, self.usage = False, None
        if rest:
            self.error(gettext("unrecognized arguments: %s") % " ".join(rest))
        return found, rest

    def _own_usage(self) -> str:
        """As it is told of all arguments. The base class cuts it out behind a word that is as long
        in English, and in no other language."""
        formatter = self._get_formatter()
        groups = self._mutually_exclusive_groups
        formatter.add_usage(None, self._actions, groups, prefix=" " * len("usage: "))
        return formatter.format_help().strip().replace("%", "%%")

    def error(self, message: str) -> NoReturn:
        raise UsageError(commands.WRONG_USAGE(message=message, usage=self.format_usage().strip()))

    def _print_message(self, message: str, _file: Any = None) -> None:
        """Help that cannot be shown is a fault, which the base class passes over."""
        show(message.rstrip("\n"))


def parser_of(room: Room, chosen: str = "") -> argparse.ArgumentParser:
    """The parser of every command, its help in the words of `room`; the saw side's own arguments
    only where one of its is `chosen`, so that the others start sooner."""
    parser = _Parser(
        prog="sequencer",
        description=help_text(room, "program"),
        epilog=help_text(room, "program.end"),
    )
    parser.add_argument(
        "--version", action="version", version=f"sequencer {VERSION}",
        help=help_text(room, "version"),
    )  # fmt: skip
    programs = parser.add_subparsers(
        metavar="COMMAND", required=True, parser_class=_Parser, prog="sequencer"
    )
    check, plan, recut, follow, times = (
        programs.add_parser(name, help=help_text(room, name))
        for name in ("check", "plan", "recut", "follow", "times")
    )
    recut.add_argument("job", metavar="JOB", help=help_text(room, "job.or_table"))
    for command in (check, plan, follow, times, recut):
        if command is not recut:
            command.add_argument("jobs", nargs="+", metavar="JOB", help=help_text(room, "job"))
        command.add_argument("--shop", metavar="FILE", help=help_text(room, "shop"))
    check.add_argument("--quick", action="store_true", help=help_text(room, "check.quick"))
    check.set_defaults(command=does.check)
    for command, folder in ((plan, "sheets"), (recut, "recut")):
        said = help_text(room, "folder", folder=folder)
        command.add_argument("-o", dest="folder", metavar="DIR", default=folder, help=said)
        command.add_argument("--paper", choices=("letter", "a4"), help=help_text(room, "paper"))
        for name in ("short", "risk", "open"):
            command.add_argument(f"--{name}", action="store_true", help=help_text(room, name))
        said = help_text(room, "evenings")
        command.add_argument("--evenings", type=int, metavar="N", help=said)
        command.add_argument("--no-pdf", action="store_true", help=help_text(room, "no_pdf"))
        saved.add_store(command, room)
    for name in ("above", "labels", "full-size", "pictures"):
        said = help_text(room, f"plan.{name}")
        plan.add_argument(
            f"--{name}", dest="asked", action="append_const", const=name, default=[], help=said
        )
    plan.add_argument("--suggest", action="store_true", help=help_text(room, "plan.suggest"))
    plan.add_argument("--mend", action="store_true", help=help_text(room, "plan.mend"))
    plan.set_defaults(command=does.plan)
    planning.add_recut(recut, room)
    recut.set_defaults(command=does.recut, asked=())

    compare = programs.add_parser("compare", help=help_text(room, "compare"))
    compare.add_argument("old", metavar="OLD", help=help_text(room, "compare.old"))
    compare.add_argument("new", metavar="NEW", help=help_text(room, "compare.new"))
    compare.set_defaults(command=does.compare)

    follow.add_argument(
        "--sheets", default="sheets", metavar="DIR", help=help_text(room, "follow.sheets")
    )
    if chosen in ("follow", "times"):
        from sequencer.sawside.command import arguments

        arguments(follow, times, room)
    follow.set_defaults(command=does.follow)
    times.set_defaults(command=does.times)

    saved.add_to(programs, _Parser, room)

    naming.add_to(programs, room)

    explain = programs.add_parser("explain", help=help_text(room, "explain"))
    explain.add_argument("what", metavar="KEY|RULE|CODE", help=help_text(room, "explain.what"))
    explain.set_defaults(command=does.explain)

    new = programs.add_parser("new", help=help_text(room, "new"))
    new.add_argument("what", nargs="*", metavar="OPENING|FILE", help=help_text(room, "new.what"))
    new.add_argument("--shop", action="store_true", help=help_text(room, "new.shop"))
    new.add_argument("--unit", choices=("in", "mm"), default="in", help=help_text(room, "new.unit"))
    for name in ("wood", "thickness", "name"):
        new.add_argument(f"--{name}", metavar=name.upper(), help=help_text(room, f"new.{name}"))
    new.set_defaults(command=beginning.new)
    return parser
