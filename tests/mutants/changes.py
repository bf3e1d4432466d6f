"""Small changes to a module's text, each of which a test ought to notice.

A `Change` is one place in one module: an operator, a comparison, a number, a condition turned
round, a slice off by one, a statement left out. What is no behaviour is left alone: annotations,
decorators, docstrings, imports.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

_COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
_ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}
_TWINS = {"min": "max", "max": "min", "any": "all", "all": "any"}
_SETTLED = ("strict", "frozen", "slots", "order", "kw_only")
"""Keywords that are no behaviour."""


@dataclass(frozen=True, slots=True)
class Change:
    """`what` is done at a line of a module; `kind` groups like changes. `at` and `way` find it
    again: the place among the tree's nodes, and which of the changes there."""

    line: int
    kind: str
    what: str
    at: int
    way: int


Edit = tuple[ast.AST, str, str, Callable[[], None]]
"""The node that changes, the change's kind, what is said of it, and what makes it."""


def changes_of(source: str) -> tuple[Change, ...]:
    """Every change that can be made to a module.

    >>> [c.what for c in changes_of("if a < b: del b")]
    ['the condition turned round', 'left out: del b', '< becomes <=', '< becomes >']
    """
    found = []
    for at, node in _places(ast.parse(source)):
        for way, (where, kind, what, _) in enumerate(_edits(node)):
            found.append(Change(getattr(where, "lineno", 0), kind, what, at, way))
    return tuple(sorted(found, key=lambda change: change.line))


def changed(source: str, change: Change) -> str:
    """The module's text with the change made.

    >>> changed("a = b[1:]", next(c for c in changes_of("a = b[1:]") if c.kind == "slice"))
    'a = b[1 + 1:]'
    """
    tree = ast.parse(source)
    node = next(node for at, node in _places(tree) if at == change.at)
    _, _, _, make = list(_edits(node))[change.way]
    make()
    return ast.unparse(ast.fix_missing_locations(tree))


def _places(tree: ast.AST) -> Iterator[tuple[int, ast.AST]]:
    """The nodes that behave, numbered as they are walked."""
    idle = {
        id(inner)
        for node in ast.walk(tree)
        for part in _idle(node)
        for inner in ast.walk(part)
    }  # fmt: skip
    for at, node in enumerate(ast.walk(tree)):
        if id(node) not in idle:
            yield at, node


def _idle(node: ast.AST) -> Iterator[ast.AST]:
    """The parts of a node that are no behaviour."""
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        yield from node.decorator_list
    if isinstance(node, ast.FunctionDef) and node.returns is not None:
        yield node.returns
    if isinstance(node, ast.arg | ast.AnnAssign) and node.annotation is not None:
        yield node.annotation
    if isinstance(node, ast.keyword) and node.arg in _SETTLED:
        yield node
    if isinstance(node, ast.If) and getattr(node.test, "id", "") == "TYPE_CHECKING":
        yield node
    if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("cast", "TypeVar"):
        yield from node.args[:1]
    if isinstance(node, ast.Assign) and any(
        isinstance(target, ast.Name) and isinstance(node.value, ast.Subscript | ast.BinOp)
        and target.id[:1].isupper() and not target.id.isupper()
        for target in node.targets
    ):  # fmt: skip
        yield node  # a type by another name
    if isinstance(node, ast.Raise | ast.Assert):
        yield node  # which words an error has is told elsewhere


def _edits(node: ast.AST) -> Iterator[Edit]:
    match node:
        case ast.Compare():
            yield from _comparisons(node)
        case ast.BinOp() if type(node.op) in _ARITHMETIC and not _text(node):
            other = _ARITHMETIC[type(node.op)]()
            what = f"{_sign(node.op)} becomes {_sign(other)}"
            yield node, "arithmetic", what, _sets(node, "op", other)
        case ast.AugAssign() if type(node.op) in _ARITHMETIC:
            other = _ARITHMETIC[type(node.op)]()
            what = f"{_sign(node.op)}= becomes {_sign(other)}="
            yield node, "arithmetic", what, _sets(node, "op", other)
        case ast.BoolOp():
            both = isinstance(node.op, ast.And)
            what = "and becomes or" if both else "or becomes and"
            yield node, "and/or", what, _sets(node, "op", ast.Or() if both else ast.And())
        case ast.If() | ast.While() | ast.IfExp():
            turned = ast.UnaryOp(ast.Not(), node.test)
            yield node.test, "condition", "the condition turned round", _sets(node, "test", turned)
        case ast.UnaryOp(op=ast.Not()):
            twice = ast.UnaryOp(ast.Not(), node.operand)
            yield node, "condition", "not left out", _sets(node, "operand", twice)
        case ast.UnaryOp(op=ast.USub()):
            yield node, "arithmetic", "the sign turned", _sets(node, "op", ast.UAdd())
        case ast.Constant(value=bool(flag)):
            yield node, "constant", f"{flag} becomes {not flag}", _sets(node, "value", not flag)
        case ast.Constant(value=int(number)):
            for near in (number + 1, number - 1):
                yield node, "constant", f"{number} becomes {near}", _sets(node, "value", near)
        case ast.Slice():
            yield from _slices(node)
        case ast.Name(id=("min" | "max" | "any" | "all") as name, ctx=ast.Load()):
            twin = _TWINS[name]
            yield node, "min/max, any/all", f"{name} becomes {twin}", _sets(node, "id", twin)
        case ast.comprehension():
            for n, asked in enumerate(node.ifs):
                turned = ast.UnaryOp(ast.Not(), asked)
                what = "the condition turned round"
                yield asked, "condition", what, _puts(node.ifs, n, turned)
    yield from _left_out(node)


def _comparisons(node: ast.Compare) -> Iterator[Edit]:
    for n, op in enumerate(node.ops):
        for other in _COMPARISONS[type(op)]:
            what = f"{_sign(op)} becomes {_sign(other())}"
            yield node, "comparison", what, _puts(node.ops, n, other())


def _slices(node: ast.Slice) -> Iterator[Edit]:
    for end in ("lower", "upper"):
        value = getattr(node, end)
        if value is not None:
            off = ast.BinOp(value, ast.Add(), ast.Constant(1))
            yield value, "slice", f"the slice's {end} end one more", _sets(node, end, off)


def _left_out(node: ast.AST) -> Iterator[Edit]:
    """Calls, additions and loop exits that are not there any more."""
    for name in ("body", "orelse"):
        block = getattr(node, name, None)
        if not isinstance(block, list):
            continue
        for n, each in enumerate(block):
            call = isinstance(each, ast.Expr) and not isinstance(each.value, ast.Constant)
            if call or isinstance(each, ast.AugAssign | ast.Continue | ast.Break | ast.Delete):
                what = f"left out: {ast.unparse(each).splitlines()[0][:60]}"
                yield each, "statement", what, _puts(block, n, ast.Pass())


def _text(node: ast.BinOp) -> bool:
    """Whether a sum is one of texts, or a union of types."""
    sides = (node.left, node.right)
    return any(
        isinstance(side, ast.JoinedStr)
        or (isinstance(side, ast.Constant) and isinstance(side.value, str | None))
        for side in sides
    )


def _sign(op: ast.AST) -> str:
    one, other = ast.Name("a"), ast.Name("b")
    whole = (
        ast.Compare(one, [op], [other]) if isinstance(op, ast.cmpop) else ast.BinOp(one, op, other)  # type: ignore[arg-type]
    )
    return ast.unparse(whole)[2:-2]


def _sets(node: ast.AST, name: str, value: object) -> Callable[[], None]:
    return lambda: setattr(node, name, value)


def _puts(many: list[Any], n: int, one: object) -> Callable[[], None]:
    def put() -> None:
        many[n] = one

    return put
