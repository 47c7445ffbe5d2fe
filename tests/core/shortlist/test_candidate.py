"""Do sets come in the order of their places, and equal ones by what is said of them?"""

from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.shortlist import NEVER, Bought, Candidate, OnInput
from service.core.shortlist.candidate import candidate_of, in_order
from service.core.shortlist.offer import Offer


def a_set(
    name: str, inverter: str | None, pieces: int, km: float, outlay: float, fit: int, rough: float, gain: float
) -> Candidate:
    offer = Offer(advert=name, km=km, tricky=name == "trick")
    layout = (OnInput(0, 0, pieces, "series", 0),)
    figures = outlay, fit, rough, gain
    return candidate_of((Bought(offer, pieces),), Offer(advert=inverter, panels_each=0), layout, *figures)


SETS = st.builds(
    a_set, st.sampled_from(["a", "b", "trick"]), st.sampled_from([None, "u", "v"]), st.integers(1, 2),
    st.sampled_from([0.0, 9.0]), st.sampled_from([100.0, 120.0]), st.integers(0, 1), st.sampled_from([2.0, 3.0, NEVER]),
    st.sampled_from([50.0, 80.0]),
)  # fmt: skip


def whole_place(one: Candidate) -> tuple[object, ...]:
    pieces = [bought.pieces for bought in one.panels]
    rest = len(one.adverts), one.said, one.goods, pieces, one.layout
    return (one.fit, one.tricky, one.rough, one.outlay, -one.gain, *rest)


@settings(max_examples=80, deadline=None)
@given(st.lists(SETS, max_size=14))
def test_the_order_is_that_of_whole_places(found: list[Candidate]) -> None:
    ordered = list(in_order(found))
    assert sorted(map(id, ordered)) == sorted(map(id, found))
    assert [whole_place(one) for one in ordered] == sorted(whole_place(one) for one in found)


def test_a_set_that_is_sold_whole_names_its_advert_once_and_what_is_at_hand_none() -> None:
    whole, hand = Offer(advert="s"), Offer(advert=None, panels_each=0)
    layout = (OnInput(0, 0, 1, "series", 0),)
    assert candidate_of((Bought(whole),), whole, layout, 1.0, 0, 1.0, 1.0).adverts == ("s",)
    assert candidate_of((Bought(Offer(advert="a")),), hand, layout, 1.0, 0, 1.0, 1.0).adverts == ("a",)
