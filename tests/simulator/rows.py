"""A row of the table: a predicate, and what published guidance it is taken from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tests.simulator.passing import Pass

HSE = "UK HSE, Circular saw bench (rip saw), web guidance"
WIS16 = "UK HSE, WIS16 rev. 2, Circular saw benches: safe working practices"
EN = "EN 1870-19, instruction handbook (clause from memory)"
WARNINGS = "warnings that makers print with table saws, believed IEC/EN 62841-3-1 (from memory)"
CAL = "8 CCR 4296(a), (i), (j), California"
CAL_GUARD = "8 CCR 4300.1, California"
WAC_GUARD = "WAC 296-806-48012, Washington"
WAC_OFF = "WAC 296-307-18512, Washington"
OSHA = "29 CFR 1910.213(c)(1), (c)(2), (s)(9) (from memory)"
CCOHS = "CCOHS, OSH Answers: table saws"
NSW = "SafeWork NSW, Saws: checklist"
SCHOOL = "rules of a US school's woodshop"
CLUB = "table-saw procedure of a woodworking club"
TEXT = "Modern Cabinetmaking (2016), p. 406"
MANUAL = "manual of a US table saw"
MANUAL_CROSSCUT = "manual of a US table saw, on crosscutting and on short work"
MANUAL_DADO = "manual of a US table saw, on dado sets"
MANUAL_JIG = "manual of a tenoning jig"
MANUAL_THIN = "manuals of table saws, on thin stock"
ON_SHOULDERS = "woodworking magazine, on shoulder cuts"
ON_TALL_FENCES = "woodworking magazine, on tall fences for panels"
ON_TILTING = "woodworking magazine, on tilting toward the fence"
ON_TRAPPED_MITRES = "woodworking magazine, on trapped mitres"
ON_SMALL_PARTS = "woodworking magazine, on small parts"
ON_THIN_STRIPS = "woodworking magazine, on thin strips"
COMMON = "common practice"
GEOMETRY = "worked out from the geometry"
OURS = "ours"


@dataclass(frozen=True, slots=True)
class Row:
    """`unsafe` says of a pass whether it is what the `sources` rule out."""

    unsafe: Callable[[Pass], bool]
    sources: tuple[str, ...]

    @property
    def name(self) -> str:
        return self.unsafe.__name__


def row(unsafe: Callable[[Pass], bool], *sources: str) -> Row:
    return Row(unsafe, sources)
