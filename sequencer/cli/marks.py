"""Which marks the doors of a batch have on the sheets that are there."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from sequencer.batch import in_text, is_table
from sequencer.errors import InputError
from sequencer.job.kept import NOTHING, Printed, doors_of, of_files
from sequencer.job.schema import Job


def printed(
    folder: Path, files: Sequence[str], text_of: Callable[[str], str]
) -> Mapping[str, Printed]:
    """What the set of sheets in the folder tells of the files, by their names."""
    from sequencer.cli import manifest
    from sequencer.cli.swapping import finish

    if not folder.is_dir():
        return {}
    finish(folder)
    known = manifest.read(folder)
    if known is None or not known.printed:
        return {}
    try:
        texts = {in_text(file): text_of(file) for file in files if not is_table(file)}
    except InputError:  # told when the files are read
        return {}
    return of_files(known.printed, texts)


def now_printed(
    jobs: Sequence[Job], texts: Mapping[str, str], before: Mapping[str, Printed]
) -> dict[str, Printed]:
    """What sheets of these jobs tell, for those that come after."""
    return {
        job.file: before.get(job.file, NOTHING).then(doors_of(texts[job.file]), job)
        for job in jobs
        if job.doors
    }
