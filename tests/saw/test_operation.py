"""Names of operations and their one text form, as plans that are followed already hold it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.saw.operation import _WHATS, OperationId

marks = st.from_regex(r"#?[A-Z]{0,3}[1-9][0-9]?[a-c]?|stock-[1-9]", fullmatch=True)
passes = st.sampled_from(("", "outer", "first", "widen", "middle", "middle-2", "flat", "near"))
ats = st.sampled_from(("", "A", "B", "ends", "outside", "face-outside", "A3B"))
names = st.one_of(
    st.builds(
        OperationId, marks, st.sampled_from(_WHATS), ats, st.sampled_from(("", "face", "back")),
        passes,
    ),
    st.builds(OperationId, marks, st.sampled_from(("rip", "dry-fit", "edge-glue-up", "shape"))),
)  # fmt: skip


@given(names)
def test_a_name_is_read_as_it_is_written(name: OperationId) -> None:
    assert OperationId.parse(str(name)) == name


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("#3/rip", OperationId("#3", "rip")),
        ("stock-1/mill", OperationId("stock-1", "mill")),
        ("A1/slot-A/outer", OperationId("A1", "slot", "A", "", "outer")),
        ("A3/edge-shoulder-B", OperationId("A3", "edge-shoulder", "B")),
        ("A3/cheek-B/back", OperationId("A3", "cheek", "B", "back")),
        ("A1/housing-A5A/face/near", OperationId("A1", "housing", "A5A", "face", "near")),
        ("A1/rebate-face-outside/edge", OperationId("A1", "rebate", "face-outside", "", "edge")),
        ("A4/shaped-groove", OperationId("A4", "shaped-groove")),
    ],
)
def test_the_text_is_that_of_plans_made_before(text: str, name: OperationId) -> None:
    assert str(name) == text
    assert OperationId.parse(text) == name


def test_an_end_is_no_mate() -> None:
    assert OperationId.parse("A1/housing-A5A/near").end == ""
    assert OperationId.parse("A1/slot-B/outer").end == "B"
