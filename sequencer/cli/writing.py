"""The sheets made, and put into their folder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.errors import SurroundingsError

if TYPE_CHECKING:
    from sequencer.plan import Plan
    from sequencer.sheets.render import Paper


@dataclass(slots=True)
class Texts:
    """What a plan was made from, by the names that the files were called by."""

    jobs: dict[str, str] = field(default_factory=dict)
    shop: dict[str, str] = field(default_factory=dict)


def sheets_of(
    plan: Plan, paper: Paper | None, *, no_pdf: bool, short: bool = False, risk: bool = False
) -> tuple[dict[str, bytes], SurroundingsError | None]:
    """The files by name, and why there is no PDF where it could not be made."""
    from sequencer import sheets
    from sequencer.sheets.files import FILES, PDF

    cache = _cache()
    try:
        page = sheets.html(plan, paper, cache, short=short, risk=risk)
    except OSError:  # the folder for what is only quicker the second time cannot be used
        if cache is None:
            raise
        page = sheets.html(plan, paper, short=short, risk=risk)
    files: dict[str, bytes] = {}
    missing = None
    for name, make in FILES.items():
        if name == PDF and no_pdf:
            continue
        try:
            made = make(plan, page)
        except SurroundingsError as error:
            missing = error
            continue
        files[name] = made.encode() if isinstance(made, str) else made
    return files, missing


def _cache() -> str | None:
    """A folder of the user's own for compiled templates, where one can be had."""
    import platformdirs

    folder = platformdirs.user_cache_path("sequencer", appauthor=False)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError:
        return None
    return str(folder)


def write(folder: Path, files: Mapping[str, bytes], made_from: Texts) -> None:
    """Put all files into the folder as one set with its manifest, or leave there what was. A sheet
    of an earlier plan that is not made anew goes: nobody is to cut from it."""
    from sequencer.cli.manifest import MANIFEST, manifest
    from sequencer.cli.swapping import put
    from sequencer.sheets.files import FILES

    told = manifest(made_from.jobs, made_from.shop, files)
    put(folder, {**files, MANIFEST: told.encode()}, [name for name in FILES if name not in files])
