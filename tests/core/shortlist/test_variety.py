"""Does no advert fill a list while others do nearly as well, and does a cheaper copy still never rank lower?"""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.shortlist import (
    LIKELY_DOES_NOT_FIT,
    LIKELY_FITS,
    NEARLY,
    REFUSED,
    Bought,
    Candidate,
    Offer,
    chosen,
    most_rows,
)
from service.core.shortlist.wish import NEVER

FIGURES = st.sampled_from([1.0, 1.1, 1.3, 2.0, 3.0, 9.0])
FITS = st.sampled_from([LIKELY_FITS, LIKELY_FITS, LIKELY_DOES_NOT_FIT, REFUSED])
BOARD = st.dictionaries(st.sampled_from("abcdefgh"), st.tuples(FIGURES, FITS), min_size=1, max_size=8)
INVERTERS = st.dictionaries(st.sampled_from("uvwxyz"), st.tuples(FIGURES, FITS), min_size=1, max_size=4)


def set_of(panels: tuple[str, ...], inverter: str, rough: float, fit: int = LIKELY_FITS) -> Candidate:
    return Candidate(
        panels=tuple(Bought(Offer(advert=name)) for name in panels), inverter=Offer(advert=inverter, panels_each=0),
        layout=(), outlay=rough, fit=fit, rough=rough, gain=1.0, adverts=(*panels, inverter),
    )  # fmt: skip


def all_sets(panels: dict[str, tuple[float, int]], inverters: dict[str, tuple[float, int]]) -> list[Candidate]:
    """Every panel, and every two, with every inverter, in their order."""
    found = []
    for inverter, (paid, fit) in inverters.items():
        for names in (*combinations(sorted(panels), 1), *combinations(sorted(panels), 2)):
            rough = paid + sum(panels[name][0] for name in names) / len(names) ** 0.5
            found.append(set_of(names, inverter, rough, max(fit, *(panels[name][1] for name in names), 0)))
    return sorted(found, key=lambda one: (one.behind, one.rough, one.adverts))


def ranked(candidates: list[Candidate], limit: int) -> list[Candidate]:
    choice = chosen(candidates, limit, 3 * limit, lambda _: True)
    return [one for one in candidates if one in choice.sets]


def rank(found: list[Candidate], advert: str) -> float:
    return next((float(at) for at, one in enumerate(found) if advert in one.adverts), NEVER)


@settings(max_examples=60, deadline=None)
@given(BOARD, INVERTERS, st.integers(1, 12), st.data())
def test_a_cheaper_copy_never_ranks_lower(
    panels: dict[str, tuple[float, int]], inverters: dict[str, tuple[float, int]], limit: int, data: st.DataObject
) -> None:
    side = data.draw(st.sampled_from([panels, inverters]))
    name = data.draw(st.sampled_from(sorted(side)))
    copy = data.draw(st.sampled_from(["0", "~"]))
    more = side | {copy: (side[name][0] - data.draw(st.sampled_from([0.01, 0.2, 0.9])), side[name][1])}
    found = ranked(all_sets(more, inverters) if side is panels else all_sets(panels, more), limit)
    assert rank(found, copy) <= rank(found, name)


@settings(max_examples=60, deadline=None)
@given(BOARD, INVERTERS, st.integers(1, 12))
def test_no_advert_fills_the_list_while_another_set_that_pays_is_left_out(
    panels: dict[str, tuple[float, int]], inverters: dict[str, tuple[float, int]], limit: int
) -> None:
    candidates = all_sets(panels, inverters)
    found = ranked(candidates, limit)
    assert len(found) == min(limit, len(candidates))
    most = 2 * max(limit // 3, 1)
    rows = {name: sum(name in one.adverts for one in found) for name in (*panels, *inverters)}
    for name, count in rows.items():
        if count > most:
            others = [one for one in candidates if name not in one.adverts and one.fit <= LIKELY_DOES_NOT_FIT]
            assert all(one in found or any(rows[other] >= most for other in one.adverts) for one in others)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(1.0, 1.2), min_size=7, max_size=12), st.lists(st.floats(1.0, 1.2), min_size=2, max_size=4),
    st.integers(1, 10),
)  # fmt: skip
def test_a_set_gives_way_only_to_better_ones_of_its_panels_or_to_its_inverters_share_of_better_ones(
    panels: list[float], inverters: list[float], limit: int
) -> None:
    board = {f"p{at}": (one, LIKELY_FITS) for at, one in enumerate(panels)}
    candidates = [
        one for one in all_sets(board, {f"i{at}": (one, LIKELY_FITS) for at, one in enumerate(inverters)})
        if len(one.panels) == 1 and one.rough <= NEARLY * (min(panels) + min(inverters))
    ]  # fmt: skip
    found = ranked(candidates, limit)
    for place, one in enumerate(candidates[: candidates.index(found[-1])]):
        if one not in found:
            panel, inverter = one.adverts
            better = [other.adverts for other in candidates[:place] if other in found]
            of_its_inverter = sum(inverter in other for other in better)
            assert any(panel in other for other in better) or of_its_inverter >= most_rows(limit)


def test_where_others_do_nearly_as_well_every_inverter_has_its_share_and_panels_differ() -> None:
    panels = {name: (1.0 + at / 100, LIKELY_FITS) for at, name in enumerate("abcdefghij")}
    inverters = {"u": (1.0, LIKELY_FITS), "v": (1.2, LIKELY_FITS), "w": (1.3, LIKELY_FITS), "x": (9.0, LIKELY_FITS)}
    found = ranked([one for one in all_sets(panels, inverters) if len(one.panels) == 1], 9)
    assert [sum(name in one.adverts for one in found) for name in inverters] == [3, 3, 3, 0]
    assert all(sum(name in one.adverts for one in found) == 1 for name in "abcdefghi")
    assert found[0].adverts == ("a", "u")


def test_a_single_inverter_may_fill_the_list() -> None:
    panels = dict.fromkeys("abcdefgh", (1.0, LIKELY_FITS))
    assert len(ranked(all_sets(panels, {"u": (1.0, LIKELY_FITS)}), 8)) == 8


def test_what_gave_way_stands_before_the_last_that_was_taken_and_looks_are_bounded() -> None:
    panels = {name: (1.0 + at / 100, LIKELY_FITS) for at, name in enumerate("abcdef")}
    inverters = {"u": (1.0, LIKELY_FITS), "v": (1.2, LIKELY_FITS)}
    candidates = [one for one in all_sets(panels, inverters) if len(one.panels) == 1]
    seen: list[Candidate] = []
    choice = chosen(candidates, 3, 5, lambda one: bool(seen.append(one)) or len(seen) > 2)
    assert len(seen) == 5
    assert choice.sets == tuple(seen[2:])
    places = [candidates.index(one) for one in choice.gave_way]
    assert places
    assert max(places) < max(candidates.index(one) for one in choice.sets)
    assert not set(map(id, choice.gave_way)) & set(map(id, seen))


@pytest.mark.parametrize("limit", [1, 10])
def test_of_nothing_nothing_is_chosen(limit: int) -> None:
    assert chosen([], limit, limit, lambda _: True).sets == ()
