"""Which ways to hang a set are there?"""

from collections import Counter
from itertools import product

import pytest

from service.core.shortlist import layouts
from service.core.shortlist.layout import stands_of


def one_place(*counts: int) -> tuple[tuple[tuple[int, int, int], ...], ...]:
    return (tuple((kind, 0, count) for kind, count in enumerate(counts)),)


@pytest.mark.parametrize(("counts", "rooms", "inputs"), list(product(
    [(1,), (3,), (4,), (1, 2), (2, 2), (3, 1)], [(4,), (2, 2), (1, 4), (1, 1, 1)],
    [(0,), (0, 0), (0, 1), (0, 0, 0, 0), (0, 1, 0, 1), (0, 1, 2)],
)))  # fmt: skip
def test_every_layout_hangs_all_panels_within_room_and_inputs_each_kind_on_inputs_of_its_own(
    counts: tuple[int, ...], rooms: tuple[int, ...], inputs: tuple[int, ...]
) -> None:
    stands = tuple(stands_of(counts, rooms))
    found = layouts(stands, inputs)
    for layout in found:
        assert 1 <= len(layout) <= len(inputs)
        assert len({on.index for on in layout}) == len(layout)
        assert all(0 <= on.index < len(inputs) for on in layout)
        by_kind: Counter[int] = Counter()
        by_place: Counter[int] = Counter()
        for on in layout:
            by_kind[on.kind] += on.count
            by_place[on.place] += on.count
        assert tuple(by_kind[kind] for kind in range(len(counts))) == counts
        assert all(by_place[place] <= room for place, room in enumerate(rooms))
    assert len(set(found)) == len(found)
    if sum(counts) > sum(rooms):
        assert stands == ()
    if len(counts) > len(inputs):
        assert found == ()


def test_one_panel_on_each_input_needs_no_joining_and_more_are_tried_both_ways() -> None:
    assert [on.count for on in layouts(one_place(2), (0, 0))[0]] == [1, 1]
    assert {layout[0].joined for layout in layouts(one_place(2), (0,))} == {"series", "parallel"}
    assert sorted(on.count for on in layouts(one_place(3), (0, 0))[0]) == [1, 2]


def test_panels_stand_in_every_way_that_there_is_room_for() -> None:
    assert set(stands_of((1, 1), (1, 1))) == {((0, 0, 1), (1, 1, 1)), ((0, 1, 1), (1, 0, 1))}
    assert set(stands_of((2,), (2, 2))) == {((0, 0, 2),), ((0, 0, 1), (0, 1, 1)), ((0, 1, 2),)}
    assert len(set(stands_of((2, 2), (4, 4, 4, 4)))) == 100  # ten ways for each of both kinds


def test_on_inputs_that_differ_each_group_is_tried_on_each_and_no_input_has_to_be_used() -> None:
    [kind, other] = [{on.index for layout in layouts(one_place(1, 1), (0, 1)) for on in layout if on.kind == kind}
                     for kind in (0, 1)]  # fmt: skip
    assert kind == other == {0, 1}
    assert {layout[0].index for layout in layouts(one_place(1), (0, 1, 0))} == {0, 1}
    two = {tuple((on.index, on.count, on.joined) for on in layout) for layout in layouts(one_place(2), (0, 1))}
    alone = {((at, 2, joined),) for at in (0, 1) for joined in ("series", "parallel")}
    assert two == alone | {((0, 1, "series"), (1, 1, "series"))}
    assert len(layouts(one_place(1, 1), (0, 0))) == 1


def test_of_every_way_alike_inputs_are_used_by_as_few_as_there_may_be_too() -> None:
    every = layouts(one_place(4), (0, 0, 0), every=True)
    assert {tuple(on.count for on in layout) for layout in every} == {(2, 1, 1), (2, 2), (4,)}
    assert {layout[0].joined for layout in every if len(layout) == 1} == {"series", "parallel"}
    two = {tuple(on.joined for on in layout) for layout in layouts(one_place(2, 2), (0, 0), every=True)}
    assert two == {(one, other) for one in ("series", "parallel") for other in ("series", "parallel")}
