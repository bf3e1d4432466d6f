"""How the command may be called."""

from __future__ import annotations

from argparse import Namespace
from typing import Any

import pytest

from sequencer.cli.parser import parser_of
from sequencer.errors import UsageError
from sequencer.wording import Room


def read(*arguments: str) -> dict[str, Any]:
    return vars(parser_of(Room("UK"), *arguments[:1]).parse_args(arguments, Namespace()))


@pytest.mark.parametrize(
    ("arguments", "key", "names"),
    [
        (["plan", "a.toml", "--shop", "s.toml", "b.toml"], "jobs", ["a.toml", "b.toml"]),
        (["plan", "--no-pdf", "a.toml", "-o", "x", "b.toml"], "jobs", ["a.toml", "b.toml"]),
        (["new", "30 x 22", "--thickness", "3/4", "z.toml"], "what", ["30 x 22", "z.toml"]),
        (["recut", "a.toml", "--shop", "s.toml", "A1", "--no-pdf", "A2"], "marks", ["A1", "A2"]),
        (["setups", "forget", "1", "--json", "2"], "numbers", ["1", "2"]),
        (["follow", "a.toml", "--lan", "10.0.0.2", "b.toml"], "jobs", ["a.toml", "b.toml"]),
        (["check", "--", "-a.toml", "--shop"], "jobs", ["-a.toml", "--shop"]),
    ],
)
def test_names_stand_before_options_and_behind(
    arguments: list[str], key: str, names: list[str]
) -> None:
    assert read(*arguments)[key] == names


@pytest.mark.parametrize(
    ("arguments", "usage"),
    [
        (["plan", "a.toml", "--nope"], "usage: sequencer plan "),
        (["plan", "--shop", "s.toml"], "usage: sequencer plan "),
        (["setups", "show", "1", "2"], "usage: sequencer setups show "),
        (["--nope", "plan", "a.toml"], "usage: sequencer [-h] [--version] COMMAND"),
    ],
)
def test_what_is_not_understood_is_told_with_its_own_usage(
    arguments: list[str], usage: str
) -> None:
    with pytest.raises(UsageError) as wrong:
        read(*arguments)
    (said,) = wrong.value.says
    assert str(said.given["usage"]).startswith(usage)


@pytest.mark.parametrize("name", ["a.toml", "rack.csv", "rack.ODS"])
def test_a_job_behind_lan_is_told(name: str) -> None:
    with pytest.raises(UsageError, match=r"follow\.a-file"):
        read("follow", "--lan", name)
