"""Which ways to hang a set are looked at?"""

from collections import Counter
from itertools import product

import pytest

from service.core.shortlist import layouts


@pytest.mark.parametrize(("counts", "rooms", "inputs"), list(product(
    [(1,), (3,), (4,), (1, 2), (2, 2), (3, 1)], [(4,), (2, 2), (1, 4), (1, 1, 1)], [1, 2, 4],
)))  # fmt: skip
def test_every_layout_hangs_all_panels_within_room_and_inputs_each_kind_on_inputs_of_its_own(
    counts: tuple[int, ...], rooms: tuple[int, ...], inputs: int
) -> None:
    found = layouts(counts, rooms, inputs)
    for layout in found:
        assert 1 <= len(layout) <= inputs
        by_kind: Counter[int] = Counter()
        by_place: Counter[int] = Counter()
        for on in layout:
            by_kind[on.kind] += on.count
            by_place[on.place] += on.count
        assert tuple(by_kind[kind] for kind in range(len(counts))) == counts
        assert all(by_place[place] <= room for place, room in enumerate(rooms))
    assert len(set(found)) == len(found)
    if sum(counts) > sum(rooms) or len(counts) > inputs:
        assert found == ()


def test_one_panel_on_each_input_needs_no_joining_and_more_are_tried_both_ways() -> None:
    assert [on.count for on in layouts((2,), (4,), 2)[0]] == [1, 1]
    assert {layout[0].joined for layout in layouts((2,), (4,), 1)} == {"series", "parallel"}
    assert sorted(on.count for on in layouts((3,), (4,), 2)[0]) == [1, 2]


def test_two_places_are_filled_one_after_the_other_and_in_turn() -> None:
    places = {tuple(on.place for on in layout for _ in range(on.count)) for layout in layouts((2,), (2, 2), 4)}
    assert places == {(0, 0), (0, 1)}
