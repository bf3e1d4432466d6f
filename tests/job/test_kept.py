"""Marks that were printed, through edits of a job file, against a list of what was chalked."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from sequencer.job.kept import NOTHING, Printed, doors_of, of_files
from sequencer.job.load import load_job
from sequencer.job.schema import Job
from sequencer.records import replace

HEAD = 'unit = "in"\n[stock]\nthickness = "3/4"\n'


def door(width: int, count: int = 1, mark: str = "") -> str:
    given = f'mark = "{mark}"\n' if mark else ""
    return f'[[door]]\n{given}count = {count}\n[door.opening]\nwidth = "{width}"\nheight = "22"\n'


def read(text: str, before: Printed) -> tuple[Job, Printed]:
    job = load_job(text, "job.toml", printed=before)
    return job, replace(before, others=frozenset()).then(doors_of(text), job)


def marks(job: Job) -> list[str]:
    return [mark for each in job.doors for mark in each.marks]


def printed(*doors: str, before: Printed = NOTHING) -> tuple[list[str], Printed]:
    job, after = read(HEAD + "".join(doors), before)
    return marks(job), after


def test_a_changed_door_keeps_its_mark_and_a_new_one_gets_a_new() -> None:
    first, known = printed(door(12), door(13))
    assert first == ["A", "B"]
    assert printed(door(12), door(14), before=known)[0] == ["A", "B"]
    assert printed(door(20), door(12), door(13), before=known)[0] == ["C", "A", "B"]
    assert printed(door(12), door(13, mark="K"), before=known)[0] == ["A", "K"]
    assert printed(door(20, mark="A"), door(12), door(13), before=known)[0] == ["A", "C", "B"]


def test_a_mark_that_was_chalked_is_given_to_no_other_door() -> None:
    _, known = printed(door(12), door(13), door(14))
    after, known = printed(door(12), door(14), before=known)
    assert after == ["A", "C"]
    after, known = printed(door(12), door(30), door(31), door(14), before=known)
    assert after == ["A", "D", "E", "C"]
    assert printed(door(13), door(12), door(14), before=known)[0] == ["B", "A", "C"]


def test_copies_keep_theirs_and_more_of_them_get_new_ones() -> None:
    first, known = printed(door(12, count=2), door(13))
    assert first == ["A", "B", "C"]
    after, known = printed(door(12, count=3), door(13), before=known)
    assert after == ["A", "B", "D", "C"]
    after, known = printed(door(12, count=1), door(13), before=known)
    assert after == ["A", "C"]
    assert printed(door(12, count=2), door(13), before=known)[0] == ["A", "B", "C"]


@given(st.lists(st.lists(st.integers(12, 17), min_size=1, max_size=5, unique=True), max_size=4))
def test_through_any_edits_no_mark_is_on_two_doors_and_what_was_there_alike_stays(
    versions: list[list[int]],
) -> None:
    known, chalked = NOTHING, dict[int, str]()
    for widths in versions:
        now, known = printed(*(door(width) for width in widths), before=known)
        assert len({*now}) == len(now)
        stood = [width for width in widths if width in chalked]
        if stood == sorted(stood, key=list(chalked).index):  # none changed places
            for width, mark in zip(widths, now, strict=True):
                assert chalked.get(width, mark) == mark
        chalked = dict(zip(widths, now, strict=True))


def test_of_a_batch_each_file_has_its_own_and_a_file_alone_may_be_renamed() -> None:
    text = HEAD + door(12)
    _, known = printed(door(12))
    assert of_files({"a.toml": known}, {"b.toml": text}) == {"b.toml": known}
    assert of_files({"a.toml": known}, {"b.toml": HEAD + door(13)})["b.toml"].own == frozenset()
    both = of_files({"a.toml": known}, {"b.toml": text, "a.toml": text})
    assert both["a.toml"].own == both["b.toml"].taken == frozenset("A")
    assert of_files({"a.toml": known, "c.toml": known}, {"b.toml": text})["b.toml"] == NOTHING


def test_what_is_no_job_has_no_doors() -> None:
    assert [doors_of(text) for text in ("door = ", "door = 3", "door = [3]", "")] == [
        (),
        (),
        (),
        (),
    ]
