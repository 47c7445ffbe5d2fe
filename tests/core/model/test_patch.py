"""The operations of RFC 6902 that remedies are told in."""

import pytest

from service.core.model.patch import Operation, patched
from tests.builders import array, setup

TWO = setup(arrays=(array(name="left", count=2), array(name="right", input=2)))


def test_added_members_replace_what_stood_there() -> None:
    assert patched(TWO, [Operation(op="add", path="/arrays/0/count", value=1)]).arrays[0].count == 1
    assert TWO.arrays[0].count == 2


def test_a_copy_goes_to_the_end() -> None:
    copied = patched(TWO, [Operation(op="copy", source="/arrays/0", path="/arrays/-")])
    assert copied.arrays == (*TWO.arrays, TWO.arrays[0])


def test_what_is_removed_is_gone() -> None:
    assert patched(TWO, [Operation(op="remove", path="/arrays/0")]).arrays == TWO.arrays[1:]


@pytest.mark.parametrize("operation", [Operation(op="move", path="/arrays/0"), Operation(op="copy", path="/arrays/-")])
def test_no_other_operation_is_made(operation: Operation) -> None:
    with pytest.raises(ValueError, match=operation.op):
        patched(TWO, [operation])
