"""What the sources may import and call: stages in order, slow libraries late, the world outside.

The same order stands in DEVELOPERS.md, which the last test compares.
"""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "sequencer"

STAGES = (
    "records",
    "facts",
    "errors",
    "units",
    "spelling",
    "lengths",
    "passes",
    "trade",
    "scales",
    "shelf",
    "movement",
    "saw",
    "job",
    "measured",
    "plan",
    "methods",
    "cuts",
    "joints",
    "doors",
    "operations",
    "ordering",
    "setups",
    "free_values",
    "drawn",
    "safety",
    "batch",
    "stock",
    "tolerance",
    "contract",
    "proof",
    "wording",
    "instructions",
    "sheets",
    "pipeline",
    "remedies",
    "hints",
    "saved",
    "sawside",
    "cli",
    "__main__",
)
"""Each may import those before it, and itself."""

ISLANDS = {
    # It gets integers and names and returns indices: what they stand for is not its business.
    "ordering": {"errors", "facts", "records"},
    # It saws what is written for the person, and must not learn from the stages that wrote it; of
    # the job it reads what the user wrote.
    "proof": {"errors", "facts", "lengths", "job", "plan", "contract", "records"},
}
"""Stages that may import less than their place in the order allows."""

SLOW = {"jinja2", "networkx", "pint", "weasyprint"}
"""Imported only inside the functions that need them, so that a check starts quickly."""

OUTERMOST = {
    "cli.again", "cli.beginning", "cli.commands", "cli.console", "cli.manifest", "cli.marks",
    "cli.naming", "cli.run", "cli.swapping", "cli.timing",
    "cli.writing", "job.load",
    "saved.carrying", "saved.command", "saved.evidence", "saved.opening", "saved.planning",
    "saved.rows", "saved.salvage", "saved.shelving", "saved.store", "saved.tables",
    "sawside.app", "sawside.certificate", "sawside.command", "sawside.engine", "sawside.live",
    "sawside.security", "sawside.store",
}  # fmt: skip
"""May touch the world outside, as may every `__main__`."""

OWN_DATA = {"trade", "job", "safety", "sheets", "wording"}
"""Stages that read files of the package itself."""

WORLD_MODULES = {
    "asyncio", "datetime", "getpass", "http", "locale", "logging", "os", "platform", "platformdirs",
    "random", "resource", "secrets", "shutil", "signal", "socket", "sqlite3", "subprocess", "sys",
    "tempfile", "threading", "time", "urllib", "uuid", "warnings",
}  # fmt: skip
GRANTED = {
    # Where the system has a user's own data.
    ("saved.place", "platformdirs"),
    # It listens: a warning of the PDF writer is an error.
    ("sheets.render", "logging"),
    # Where there are no fonts it says so itself.
    ("sheets.render", "warnings"),
    # What is attached to a PDF bears a date: always the same one.
    ("sheets.render", "datetime"),
    # A limit in seconds, which no plan is made with unless it is asked for.
    ("ordering.budget", "time"),
    # How much memory a search has taken, and in which unit the system tells it.
    ("ordering.budget", "resource"),
    ("ordering.budget", "sys"),
    # How deep terms may lie in one another: the interpreter's own limit.
    ("ordering.solver", "sys"),
}
"""Modules that may import one thing of the world outside."""

WORLD_CALLS = {"breakpoint", "exit", "input", "open", "print", "quit"}
FILE_METHODS = {
    "exists", "glob", "is_dir", "is_file", "iterdir", "open", "read_bytes", "read_text", "rglob",
    "write_bytes", "write_text",
}  # fmt: skip


@dataclass(frozen=True)
class Imported:
    """A dotted name, the line that imports it, and whether that runs when the module is loaded."""

    name: str
    line: int
    at_load: bool


def imports(source: str, package: str) -> Iterator[Imported]:
    """Every import in `source`, a module of `package`, with relative ones resolved."""

    def walk(node: ast.AST, at_load: bool) -> Iterator[Imported]:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.Import):
                for alias in child.names:
                    yield Imported(alias.name, child.lineno, at_load)
            elif isinstance(child, ast.ImportFrom):
                above = package.split(".")
                if child.level:
                    base = ".".join(above[: len(above) - child.level + 1])
                    base = f"{base}.{child.module}" if child.module else base
                else:
                    base = child.module or ""
                for alias in child.names:
                    yield Imported(f"{base}.{alias.name}", child.lineno, at_load)
            elif isinstance(child, ast.If) and "TYPE_CHECKING" in ast.dump(child.test):
                yield from walk(child, False)
            else:
                function = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
                yield from walk(child, at_load and not function)

    return walk(ast.parse(source), True)


def upward(source: str, stage: str, package: str, *, command: bool = False) -> list[str]:
    """Imports of the project that `stage` may not have. A `command` of its own, its `__main__`,
    says to a person what the stage tells."""
    allowed = ISLANDS.get(stage, set(STAGES[: STAGES.index(stage)])) | {stage}
    if command:
        allowed |= {"wording"}
    found = []
    for imported in imports(source, package):
        top, _, rest = imported.name.partition(".")
        target = rest.partition(".")[0]
        if top == "sequencer" and target not in allowed:
            found.append(f"line {imported.line}: {stage} imports {target or 'sequencer'}")
    return found


def slow(source: str) -> list[str]:
    """Slow libraries imported when the module is loaded."""
    return [
        f"line {imported.line}: {imported.name} is imported at load"
        for imported in imports(source, "sequencer")
        if imported.at_load and imported.name.partition(".")[0] in SLOW
    ]


def world(source: str, *, own_data: bool) -> list[str]:
    """Uses of the console, files, clock, environment or chance."""
    found = [
        f"line {imported.line}: imports {imported.name}"
        for imported in imports(source, "sequencer")
        if imported.name.partition(".")[0] in WORLD_MODULES
    ]
    handles_files = any(
        imported.name.partition(".")[0] in ("importlib", "pathlib")
        for imported in imports(source, "sequencer")
    )
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        match node.func:
            case ast.Name(id=name) if name in WORLD_CALLS:
                found.append(f"line {node.lineno}: calls {name}")
            case ast.Attribute(attr=name) if (
                name in FILE_METHODS and handles_files and not own_data
            ):
                found.append(f"line {node.lineno}: calls .{name}")
    return found


def modules() -> list[tuple[str, Path]]:
    """Every module's dotted name within the package, and its path, in order."""
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE).with_suffix("").parts
        name = ".".join(part for part in parts if part != "__init__")
        if name:
            found.append((name, path))
    return found


MODULES = modules()
each_module = pytest.mark.parametrize(("name", "path"), MODULES, ids=[name for name, _ in MODULES])


each_file = pytest.mark.parametrize(
    "path", [path for _, path in MODULES], ids=[name for name, _ in MODULES]
)


@each_module
def test_a_stage_imports_only_earlier_ones(name: str, path: Path) -> None:
    stage = name.partition(".")[0]
    assert stage in STAGES, f"{stage} is no stage: give it its place in STAGES and DEVELOPERS.md"
    if path.name == "__main__.py":  # it says what its stage found, as the command line does
        stage = "__main__"
    package = (
        f"sequencer.{name}"
        if path.name == "__init__.py"
        else f"sequencer.{name}".rpartition(".")[0]
    )
    command = path.name == "__main__.py"
    assert upward(path.read_text("utf-8"), stage, package, command=command) == []


@each_file
def test_slow_libraries_wait_until_they_are_needed(path: Path) -> None:
    assert slow(path.read_text("utf-8")) == []


@each_module
def test_only_the_outermost_layer_touches_the_world(name: str, path: Path) -> None:
    if name in OUTERMOST or path.name == "__main__.py":
        return
    own_data = name.partition(".")[0] in OWN_DATA
    found = world(path.read_text("utf-8"), own_data=own_data)
    granted = [f"imports {module}" for granted_to, module in GRANTED if granted_to == name]
    assert [use for use in found if use.partition(": ")[2] not in granted] == []


@each_file
def test_a_module_stays_short(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= 400


def test_the_libraries_imported_are_those_declared() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    # What is asked for by an option alone may be left out, and is only needed there.
    declared = [*project["dependencies"], *project["optional-dependencies"]["tls"]]
    names = {re.split(r"[^\w-]", requirement)[0] for requirement in declared}
    allowed = names | {"sequencer"} | sys.stdlib_module_names
    used = set()
    for name, path in MODULES:
        for imported in imports(path.read_text("utf-8"), "sequencer"):
            top = imported.name.partition(".")[0]
            assert top in allowed, f"{name}, line {imported.line}: {top} is not declared"
            used.add(top)
    assert names - used == set(), "declared, but never imported"


def test_a_check_loads_no_slow_library() -> None:
    slow_here = SLOW | {"cryptography", "segno", "sqlite3", "starlette", "uvicorn"}
    program = (
        "import sys\n"
        "from sequencer.cli import main\n"
        "assert main(['check', '--quick', 'examples/wall-cabinet/job.toml']) == 0\n"
        f"print(sorted(set(sys.modules) & {slow_here!r}))"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert run.stdout.splitlines()[-1] == "[]"


@pytest.mark.parametrize(
    ("source", "stage", "package", "found"),
    [
        ("from sequencer.job import load", "plan", "sequencer", 0),
        ("from sequencer.plan import Plan", "job", "sequencer.job", 1),
        ("from ..plan import Plan", "job", "sequencer.job", 1),
        ("from .schema import Job", "job", "sequencer.job", 0),
        ("import sequencer.sheets", "proof", "sequencer.proof", 1),
        ("from sequencer import cli", "job", "sequencer.job", 1),
        ("def late():\n    from sequencer.cli import entry", "job", "sequencer.job", 1),
        ("from sequencer.lengths import parse", "ordering", "sequencer.ordering", 1),
        ("from sequencer.errors import InternalError", "ordering", "sequencer.ordering", 0),
        ("from sequencer.doors import frame", "proof", "sequencer.proof", 1),
        ("import sequencer", "job", "sequencer.job", 1),
    ],
)
def test_the_order_check_sees(source: str, stage: str, package: str, found: int) -> None:
    assert len(upward(source, stage, package)) == found


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ("import pint", 1),
        ("from weasyprint import HTML", 1),
        ("class A:\n    import networkx.algorithms", 1),
        ("try:\n    import jinja2\nexcept ImportError:\n    pass", 1),
        ("def late():\n    import pint", 0),
        ("from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import pint", 0),
    ],
)
def test_the_slow_check_sees(source: str, found: int) -> None:
    assert len(slow(source)) == found


@pytest.mark.parametrize(
    ("source", "own_data", "found"),
    [
        ("print('x')", False, 1),
        ("def late():\n    import time", False, 1),
        ("from os import environ", False, 1),
        ("from pathlib import Path\nPath('a').read_text()", False, 1),
        ("from pathlib import Path\nPath('a').read_text()", True, 0),
        ("shop.open()", False, 0),
        ("with open('a') as file:\n    pass", True, 1),
        ("import sys\nsys.argv", False, 1),
        ("'print(1)'", False, 0),
    ],
)
def test_the_world_check_sees(source: str, own_data: bool, found: int) -> None:
    assert len(world(source, own_data=own_data)) == found


def test_developers_are_told_the_same_order() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    table = text.partition("## Stages")[2].partition("\n## ")[0]
    assert tuple(re.findall(r"^\| `(\w+)` \|", table, re.MULTILINE)) == STAGES


def test_every_stage_is_there() -> None:
    assert {name.partition(".")[0] for name, _ in MODULES} == set(STAGES)
