"""The sheets made, and put into their folder."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from sequencer.errors import SurroundingsError, UsageError
from sequencer.facts import commands
from sequencer.job.kept import Printed

if TYPE_CHECKING:
    from sequencer.plan import Plan
    from sequencer.sheets.render import Paper


@dataclass(slots=True)
class Texts:
    """What a plan was made from, by the names that the files were called by; what was printed of
    them `before`, and what is `printed` now."""

    jobs: dict[str, str] = field(default_factory=dict)
    shop: dict[str, str] = field(default_factory=dict)
    before: Mapping[str, Printed] = field(default_factory=dict)
    printed: Mapping[str, Printed] = field(default_factory=dict)


def sheets_of(
    plan: Plan,
    paper: Paper | None,
    *,
    no_pdf: bool,
    short: bool = False,
    risk: bool = False,
    evenings: int | None = None,
    asked: Sequence[str] = (),
) -> tuple[dict[str, bytes], SurroundingsError | None]:
    """The files by name, with those that are `asked` for beside a plan's own, and why there is no
    PDF where it could not be made. Raises `UsageError` for more `evenings` than setups."""
    if evenings is not None and not 1 <= evenings <= len(plan.setups):
        raise UsageError(commands.WRONG_EVENINGS(asked=str(evenings), most=len(plan.setups)))
    from sequencer import sheets
    from sequencer.sheets.files import ASKED, FILES, PDF, asked_names
    from sequencer.sheets.render import paper_for, pdf

    cache = _cache()
    try:
        page = sheets.html(plan, paper, cache, short=short, risk=risk, evenings=evenings)
    except OSError:  # the folder for what is only quicker the second time cannot be used
        if cache is None:
            raise
        page = sheets.html(plan, paper, short=short, risk=risk, evenings=evenings)
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
    for each in asked:
        on_screen, printed = asked_names(each)
        page = ASKED[each](plan, paper or paper_for(plan), evenings)
        files[on_screen] = page.encode()
        if not no_pdf:
            try:
                files[printed] = pdf(page)
            except SurroundingsError as error:
                missing = error
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


def folder_for(name: str, inputs: Iterable[str]) -> Path:
    """The folder that sheets may be put into. Raises `UsageError` where the name is empty, and
    `SurroundingsError` where it is a file's, or where one of the `inputs` or a file that this
    program has not written would go."""
    from sequencer.cli.swapping import finish

    if not name:
        raise UsageError(commands.NO_FOLDER())
    folder = Path(name)
    if folder.exists() and not folder.is_dir():
        raise SurroundingsError(commands.IS_A_FILE(path=name))
    finish(folder)  # half a set is not told by its manifest
    _look(folder, inputs)
    return folder


def _look(folder: Path, inputs: Iterable[str]) -> None:
    from sequencer.cli.manifest import MANIFEST, not_written
    from sequencer.sheets.files import ALL_NAMES

    names = (*ALL_NAMES, MANIFEST)
    places = {os.path.realpath(folder / name) for name in names}
    read = [file for file in inputs if os.path.realpath(file) in places]
    if read:
        raise SurroundingsError(commands.KEPT_INPUT(path=read[0]))
    kept = tuple(str(folder / name) for name in not_written(folder, names))
    if kept:
        raise SurroundingsError(commands.KEPT_FILES(paths=kept))


def write(
    folder: Path, files: Mapping[str, bytes], made_from: Texts, inputs: Iterable[str] = ()
) -> None:
    """Put all files into the folder as one set with its manifest, or leave there what was. A sheet
    of an earlier plan that is not made anew goes: nobody is to cut from it. Raises as `folder_for`
    does."""
    from sequencer.cli.manifest import MANIFEST, manifest
    from sequencer.cli.swapping import put
    from sequencer.sheets.files import ALL_NAMES

    told = manifest(made_from.jobs, made_from.shop, files, made_from.printed)
    put(
        folder,
        {**files, MANIFEST: told.encode()},
        [name for name in ALL_NAMES if name not in files],
        lambda: _look(folder, inputs),
    )
