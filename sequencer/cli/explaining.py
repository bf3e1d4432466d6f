"""What `sequencer explain` finds: keys of files, rules of safety, exit codes."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.errors import UsageError
from sequencer.facts import Fact, Kind, Words
from sequencer.facts import explanations as told
from sequencer.wording import Room

CODES: dict[str, Kind] = {
    "0": told.GOOD,
    "1": told.REFUSED,
    "2": told.USAGE,
    "3": told.WRONG_FILE,
    "4": told.SURROUNDINGS,
    "130": told.INTERRUPTED,
}


def explained(name: str, room: Room) -> tuple[Fact, ...]:
    """Line by line. Raises `UsageError` for what is none of them."""
    from sequencer.job.reader import meant
    from sequencer.safety.rules import load

    if name in CODES:
        return (CODES[name](),)
    rules = load().by_id
    if name.upper() in rules:
        return tuple(_rule(name.upper()))
    found = tuple(_keys(name, room))
    if found:
        return found
    known = dict.fromkeys((*_names(), *rules))
    ends = [each for each in known if each.rpartition(".")[2] == name.lower()][:5]
    close = ends or [each for each in (meant(name, known),) if each is not None]
    raise UsageError(
        told.MEANT(name=name, close=tuple(close)) if close else told.UNKNOWN(name=name)
    )


def _names() -> Iterator[str]:
    from sequencer.job.reference import keys
    from sequencer.job.table import COLUMNS

    for file in ("job", "shop"):
        yield from (key.name for key in keys("job" if file == "job" else "shop"))
    yield from COLUMNS


def _keys(name: str, room: Room) -> Iterator[Fact]:
    from sequencer.job.reference import keys
    from sequencer.job.table import COLUMNS
    from sequencer.wording.keys import key_text

    for kind, own in ((told.OF_JOB, keys("job")), (told.OF_SHOP, keys("shop"))):
        for key in own:
            if key.name != name:
                continue
            text = key_text(room, name if key.file == "job" else f"shop {name}")
            yield kind(key=name, means=Words(text))
            if key.default[0] != "–":
                yield told.DEFAULT(inches=key.default[0], mm=key.default[1])
            if key.usual[0]:
                yield told.USUAL(inches=key.usual[0], mm=key.usual[1])
    if name in COLUMNS:
        yield told.OF_TABLE(key=name, means=Words(key_text(room, f"pieces {name}")))


def _rule(name: str) -> Iterator[Fact]:
    from sequencer.safety.rules import load

    rule = load().by_id[name]
    yield told.RULE(rule=name, when=rule.when)
    for bound in rule.bounds:
        if not bound.ratio:
            yield told.FIGURE(name=bound.name, inches=str(bound.inch), mm=str(bound.mm))
    yield told.SOURCE(source=rule.source)
