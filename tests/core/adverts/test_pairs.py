"""Figures that stand before the names of their ratings, and rows that can be read both ways."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
ALL_FOUR = {
    "open_circuit_voltage_v": 39.5,
    "short_circuit_current_a": 9.6,
    "max_power_voltage_v": 32.1,
    "max_power_current_a": 9.3,
}


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


def ratings_of(body):
    return {name: value for name, value in reading_of(body).panel.items() if name in ALL_FOUR}


@pytest.mark.parametrize(
    "body",
    [
        "Four panels 300 W, 60 cells, 39.5 Voc, 9.6 Isc, 32.1 Vmp, 9.3 Imp, £30 each",
        "4 Module 300 W: 39,5 Uoc / 9,6 Isc / 32,1 Umpp / 9,3 Impp, je 30 €",
        "4 panelen 300 W: 39,5 V Voc, 9,6 A Isc, 32,1 V Vmp, 9,3 A Imp. 30 euro per stuk",
        "4 painéis 300 W, 39,5 Voc 9,6 Isc 32,1 Vmp 9,3 Imp, 30 € cada",
        "4 paneler 300 W\n39,5 Voc\n9,6 Isc\n32,1 Vmp\n9,3 Imp\n200 kr stk",
        "4 panele 300 W, 39,5 Uoc | 9,6 Isc | 32,1 Umpp | 9,3 Impp, 100 zł sztuka",
    ],
)
def test_figures_before_their_names_are_theirs(body):
    assert ratings_of(body) == ALL_FOUR
    assert reading_of(body).doubts == ()


@pytest.mark.parametrize(
    "body",
    [
        "4 Module 300 W, 39,5 Leerlaufspannung / 9,6 Kurzschlussstrom, je 30 €",
        "4 panneaux 300 W, 39,5 Vco - 9,6 Icc, 30 € pièce",
        "4 placas 300 W, 39,5 Voc y 9,6 Isc. 30 € cada una",
        "4 pannelli 300 W (39,5 Voc; 9,6 Isc). 30 € l'uno",
        "4 panely 300 W, 39,5 Voc a 9,6 Isc, 500 Kč kus",
        "Panel 300 W. 39.5 Voc. 9.6 Isc, 20 panels. £30 each",
    ],
)
def test_two_of_them_in_other_words(body):
    assert ratings_of(body) == {"open_circuit_voltage_v": 39.5, "short_circuit_current_a": 9.6}


@pytest.mark.parametrize(
    ("body", "ratings"),
    [
        ("Panel Voc 39.5 Isc 9.6 Vmp 32.1 Imp 9.3 300 W £30", tuple(ALL_FOUR.values())),
        ("Panel 100W 12V Voc 21.6V Isc 6.1A £30", (21.6, 6.1)),
        ("Panel Pmax 100 Voc 22 Isc 6, £30", (22, 6)),
        ("Panel 250 Voc 37.2, Isc 8.6", (37.2, 8.6)),
        ("Panels 250 W, 60 Voc: 37.2 Isc: 8.6 Vmp: 30.1", (37.2, 8.6, 30.1)),
    ],
)
def test_a_figure_before_a_row_that_begins_with_a_name_is_none_of_it(body, ratings):
    assert tuple(ratings_of(body).values()) == ratings


@pytest.mark.parametrize("body", ["Panels 250 W, 37.2 Voc 8.6 Isc 30", "Panel type 60 Voc 37.2, £30"])
def test_what_can_be_read_both_ways_says_nothing(body):
    assert ratings_of(body) == {}


def test_watts_that_need_more_current_than_any_panel_gives_are_doubted():
    assert reading_of("Panel 300 W, Voc 9.7 V, £30").doubts == ("power_vs_vi",)
    assert reading_of("Panel 300 W, Vmp 9.2 V, £30").doubts == ("power_vs_vi",)
    assert reading_of("Panel 300 W, Voc 24 V, £30").doubts == ()


def test_an_open_circuit_under_the_voltage_at_full_power_is_doubted():
    assert "power_vs_vi" in reading_of("Panel 300 W, Voc 31 V, Vmp 39 V, £30").doubts
    assert reading_of("Panel 300 W, Voc 39 V, Vmp 31 V, £30").doubts == ()


def test_the_figure_of_a_limit_before_a_name_is_not_that_rating():
    assert ratings_of("Panel max 30 A Isc 9.2 A Voc 39 V") == {
        "short_circuit_current_a": 9.2,
        "open_circuit_voltage_v": 39,
    }


def test_a_figure_behind_its_name_wins_over_a_later_one_before_it():
    assert ratings_of("Panel 410 W, Voc 37.3 at STC, 35 Voc at NOCT") == {"open_circuit_voltage_v": 37.3}


@pytest.mark.parametrize(
    "body",
    [
        "Four used panels 300W, 39.5V (Voc), 32.1V (Vmp), 9.6A (Isc), 9.3A (Imp). £30 each",
        "4 Module 300 W, 39,5 V (Leerlauf), 9,6 A (Kurzschluss), 32,1 V (MPP), 9,3 A (MPP), je 30 €",
        "4 panneaux 300 W, 39,5 V (Vco), 9,6 A (Icc), 32,1 V (Vmp), 9,3 A (Imp), 30 € pièce",
        "4 panelen 300 Wp: 39,5 V (Voc) / 9,6 A (Isc) / 32,1 V (Vmp) / 9,3 A (Imp), 30 euro per stuk",
        "4 placas 300 W [39,5 V [Voc], 32,1 V [Vmp], 9,6 A [Isc], 9,3 A [Imp]] 30 € cada una",
        "4 pannelli 300 W: 39,5 V - Voc, 32,1 V - Vmp, 9,6 A - Isc, 9,3 A - Imp, 30 € l'uno",
        "4 panele 300 W: 39,5 V = Uoc, 32,1 V = Ump, 9,6 A = Isc, 9,3 A = Imp, 100 zł sztuka",
        "4 painéis 300 W, 39,5/32,1 V (Voc/Vmp), 9,6/9,3 A (Isc/Imp), 30 € cada",
        "4 panely 300 W, 39,5 (Uoc), 32,1 (Ump), 9,6 (Isc), 9,3 (Imp), 500 Kč kus",
        "4 paneler 300 W, 39,5 V (Voc ved 25 °C), 32,1 V (Vmp), 9,6 A (Isc ved 25 °C), 9,3 A (Imp), 200 kr stk",
    ],
)
def test_a_name_in_brackets_or_behind_a_dash_belongs_to_the_figure_before_it(body):
    assert ratings_of(body) == ALL_FOUR
    assert reading_of(body).doubts == ()


@pytest.mark.parametrize(
    "body",
    [
        "4 panels 300 W, (Voc) 39.5 V, (Isc) 9.6 A, (Vmp) 32.1 V, (Imp) 9.3 A",
        "4 Module 300 W - Voc 39,5 V - Isc 9,6 A - Vmp 32,1 V - Imp 9,3 A",
        "4 panneaux 300 W, Voc/Isc = 39,5/9,6, Vmp/Imp = 32,1/9,3",
        "4 panelen 300 W, 12 V (Voc 39,5 V, Isc 9,6 A), Vmp = 32,1 V, Imp = 9,3 A",
        "4 pannelli 300 W: tensione a vuoto (Voc) 39,5 V, corrente di corto (Isc) 9,6 A, (Vmp) 32,1 V, (Imp) 9,3 A",
    ],
)
def test_brackets_and_dashes_around_names_that_stand_first_change_nothing(body):
    assert ratings_of(body) == ALL_FOUR


@pytest.mark.parametrize(
    "body",
    [
        "4 panels 300 W, 39.5V, Voc, 32.1V, Vmp",
        "4 Module 300 W, 32,1 V (Voc), 39,5 V (Vmp)",
        "4 panele 300 W, 39,5 V (Voc/Vmp/Isc), 100 zł sztuka",
    ],
)
def test_brackets_that_fit_no_figures_say_nothing(body):
    assert ratings_of(body) == {}
