"""What is passed over among many sets is nothing that would be looked at."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.shortlist.among import best_alone, best_of, first_of, last_place
from service.core.shortlist.offer import Offer
from service.core.shortlist.order import LAST, behind
from service.core.shortlist.wish import NEVER

PLACES = st.lists(st.tuples(st.booleans(), st.sampled_from([0.5, 1.0, 2.0, 3.0, NEVER, float("nan")])), max_size=12)
MOST = 3


@settings(max_examples=60, deadline=None)
@given(PLACES)
def test_the_first_of_many_are_those_of_the_whole_order(places: list[tuple[bool, float]]) -> None:
    tricky = np.array([one for one, _ in places], bool)
    rough = np.array([figure for _, figure in places], float)
    whole = sorted(at for at in range(len(places)) if not np.isnan(rough[at]))
    whole.sort(key=lambda at: (bool(tricky[at]), float(rough[at])))
    assert first_of(rough, tricky, MOST, LAST) == whole[:MOST]
    within = [at for at in whole if (bool(tricky[at]), float(rough[at])) <= (False, 2.0)]
    assert first_of(rough, tricky, MOST, (False, 2.0)) == within[:MOST]


@settings(max_examples=60, deadline=None)
@given(PLACES, PLACES)
def test_no_set_beyond_the_last_place_would_be_looked_at(
    known: list[tuple[bool, float]], more: list[tuple[bool, float]]
) -> None:
    alone = [((f"a{at}",), one, figure) for at, (one, figure) in enumerate(known) if figure == figure]  # noqa: PLR0124
    last = last_place(alone, MOST)
    joined = [(one, figure) for one, figure in more if figure == figure]  # noqa: PLR0124
    looked = sorted([(one, figure) for _, one, figure in alone] + joined)[:MOST]
    kept = [one for one in joined if one <= last]
    assert sorted([(one, figure) for _, one, figure in alone] + kept)[:MOST] == looked


def test_the_better_wiring_of_equal_adverts_counts_and_nothing_is_left_out_where_some_never_pay() -> None:
    found = [(("a",), False, 3.0), (("a",), False, 1.0), (("b",), False, 2.0), (("c",), True, 1.0)]
    assert last_place(found, 2) == (False, 2.0)
    assert last_place(found, 3) == (True, 1.0)
    assert last_place(found, 4) == LAST
    assert last_place([*found, (("d",), False, NEVER)], 2) == LAST


WAYS = st.integers(1, 4).flatmap(
    lambda columns: st.lists(
        st.lists(st.tuples(st.integers(0, 2), st.sampled_from([0.0, 2.0, NEVER, float("nan")]),
                           st.sampled_from([0.0, 9.0]), st.sampled_from([50.0, 80.0])),
                 min_size=columns, max_size=columns),
        min_size=1, max_size=4,
    )
)  # fmt: skip


@settings(max_examples=80, deadline=None)
@given(WAYS)
def test_of_each_column_what_fits_best_does_best_costs_least_and_brings_most(
    ways: list[list[tuple[int, float, float, float]]],
) -> None:
    fit = np.array([[one[0] for one in way] for way in ways])
    rough, outlay, gain = (np.array([[one[at] for one in way] for way in ways]) for at in (1, 2, 3))
    wanted = []
    for column in range(fit.shape[1]):
        there = [row for row in range(len(ways)) if not np.isnan(rough[row, column])]
        if there:
            places = {
                row: (fit[row, column], rough[row, column], outlay[row, column], -gain[row, column], row)
                for row in there
            }
            wanted.append((column, min(there, key=places.__getitem__)))
    assert list(best_of(fit, rough, outlay, gain)) == wanted


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 5), st.integers(0, 2), st.sampled_from([1.0, 2.0, NEVER])), max_size=14),
    st.integers(1, 4),
)
def test_those_that_do_best_alone_do_so_by_their_best_set(scored: list[tuple[int, int, float]], most: int) -> None:
    offers = [Offer(advert=None if at == 3 else f"p{5 - at}", tricky=at == 2) for at in range(6)]

    def place(at: int) -> tuple[object, ...]:
        sets = [(behind(fit, tricky=offers[at].tricky), rough) for number, fit, rough in scored if number == at]
        return offers[at].advert is not None, min(sets), told.index(at)

    told = list(dict.fromkeys(at for at, _, _ in scored))
    wanted = sorted(sorted(told, key=place)[:most], key=told.index)
    found = best_alone([(offers[at], fit, rough) for at, fit, rough in scored], most)
    assert found == [offers[at] for at in wanted]
