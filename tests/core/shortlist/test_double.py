"""Which adverts are one told twice, and which are not?"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.shortlist import Offer, doubles_of
from tests.shortlist_kinds import INVERTER, SHEET, inverter_of, panel_of

ONE = Offer(advert="m", panel=panel_of({**SHEET, "history": "roof"}), pieces=4, each=45.0, km=12.0)


def test_other_words_for_the_same_goods_and_price_are_the_same_advert_and_the_nearest_stands_for_all() -> None:
    reworded = panel_of({**SHEET, "connector": "locking_4mm"})  # nothing of history, and a word on connectors
    again = [replace(ONE, advert="a", panel=reworded, km=12.5), replace(ONE, advert="z", km=11.6)]
    assert doubles_of([ONE, *again]) == {"a": "z", "m": "z"}
    assert doubles_of([*again, ONE]) == doubles_of([ONE, *again])


def test_what_nobody_told_of_getting_it_makes_no_other_advert_of_it() -> None:
    guessed = replace(ONE, advert="a", km=None, freight=80.0, freight_less=40.0, freight_more=80.0)
    assert doubles_of([guessed, ONE]) == {"a": "m"}


def test_adverts_of_two_towns_are_two_however_alike() -> None:
    here, there = replace(ONE, towns=frozenset({"nordmole"})), replace(ONE, advert="a", towns=frozenset({"südkai"}))
    assert doubles_of([here, there]) == {}
    assert doubles_of([replace(here, km=None), replace(there, km=None)]) == {}
    nobody = replace(ONE, advert="z", towns=frozenset(), km=None)
    assert doubles_of([here, there, nobody]) == {"z": "a"}


def test_two_distances_are_two_places_but_for_streets_of_one_town() -> None:
    further = replace(ONE, advert="a", km=16.0)
    assert doubles_of([ONE, further]) == {}
    named = frozenset({"nordmole"})
    assert doubles_of([replace(ONE, towns=named), replace(further, towns=named)]) == {"a": "m"}


def test_an_advert_without_a_distance_is_the_double_of_one_with() -> None:
    assert doubles_of([replace(ONE, advert="a", km=None), ONE]) == {"a": "m"}


@pytest.mark.parametrize(
    "changes",
    [
        {"each": 44.0}, {"lot": 45.0}, {"pieces": 3}, {"pieces": None}, {"km": 30.0}, {"km": 16.0},
        {"freight": 9.0, "freight_told": 9.0},
        {"second_hand": False}, {"tricky": True}, {"trip": "port"}, {"least": 2},
        {"panel": panel_of({**SHEET, "open_circuit_voltage_v": 37.2})}, {"panel": panel_of({"rated_power_w": 400})},
        {"inverter": inverter_of(INVERTER)},
    ],
)  # fmt: skip
def test_other_goods_another_price_or_another_place_are_another_advert(changes: dict[str, object]) -> None:
    assert doubles_of([ONE, replace(ONE, advert="a", **changes)]) == {}  # type: ignore[arg-type]


SAID = replace(ONE, words="two panels of 400 w each used on one roof 45 each")
OF_ONE = ({"trip": "port"}, {"freight": 9.0, "freight_told": 9.0}, {"km": None, "freight_told": 9.0, "only_sent": True})


@pytest.mark.parametrize("changes", OF_ONE)
def test_of_the_same_words_what_is_told_of_one_alone_makes_no_second_thing(changes: dict[str, object]) -> None:
    told = replace(SAID, advert="z", **changes)  # type: ignore[arg-type]
    found = doubles_of([SAID, told])
    assert found == doubles_of([told, SAID])
    assert len(found) == 1
    assert doubles_of([SAID, replace(told, words="other words")]) == {}
    assert doubles_of([SAID, replace(told, words=None)]) == {}
    assert doubles_of([replace(SAID, words=None), replace(told, words=None)]) == {}


def test_of_the_same_words_the_one_of_which_more_is_told_stands_for_all() -> None:
    assert doubles_of([SAID, replace(SAID, advert="z", trip="port")]) == {"m": "z"}
    assert doubles_of([SAID, replace(SAID, advert="z", freight=9.0, freight_told=9.0)]) == {"m": "z"}


@pytest.mark.parametrize(
    ("here", "there"),
    [
        ({"trip": "port"}, {"trip": "mole"}),
        ({"freight": 9.0, "freight_told": 9.0}, {"freight": 12.0, "freight_told": 12.0}),
        ({"km": 12.0}, {"km": 19.0}),
        ({"towns": frozenset({"nordmole"})}, {"towns": frozenset({"südkai"})}),
        ({"each": 45.0}, {"each": 44.0}),
    ],
)  # fmt: skip
def test_of_the_same_words_what_is_told_otherwise_of_both_makes_two(
    here: dict[str, object], there: dict[str, object]
) -> None:
    both = replace(SAID, **here), replace(SAID, advert="z", **there)  # type: ignore[arg-type]
    assert doubles_of(both) == {}


def test_what_is_at_hand_is_no_advert() -> None:
    assert doubles_of([replace(ONE, advert=None), replace(ONE, advert=None), ONE]) == {}


@given(st.lists(st.one_of(st.none(), st.integers(0, 30).map(float)), max_size=8))
def test_whoever_stands_for_others_is_no_double_and_is_near(distances: list[float | None]) -> None:
    offers = {f"a{at}": replace(ONE, advert=f"a{at}", km=km) for at, km in enumerate(distances)}
    found = doubles_of(list(offers.values()))
    for double, lead in found.items():
        assert lead not in found
        apart = offers[double].km, offers[lead].km
        assert apart[0] is None or (apart[1] is not None and 0.0 <= apart[0] - apart[1] <= 1.0)
