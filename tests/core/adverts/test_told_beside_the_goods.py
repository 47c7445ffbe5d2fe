"""What is told beside the goods: what new ones cost, other new things, who sends nothing."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("4 Module 400 W. Neu haben sie 130 gekostet, jetzt je 45 €", 45),
        ("4 panelen 400 W. Nieuw waren ze 130, nu 45 euro per stuk", 45),
        ("4 panneaux 400 W. Neufs ils coûtent 130, je vends 45 € pièce", 45),
        ("4 placas 400 W. Nuevas costaron 130, las dejo a 45 € cada una", 45),
        ("4 pannelli 400 W. Nuovi costavano 130, vendo a 45 € l'uno", 45),
        ("4 panele 400 W. Nowe kosztowały 500, sprzedam po 200 zł za sztukę", 200),
        ("4 painéis 400 W. Novos custavam 130, vendo a 45 € cada", 45),
        ("4 panely 400 W. Nové stály 3000, prodám za 900 Kč kus", 900),
        ("4 paneler 400 W. Nye kostede 900, sælges for 300 kr stykket", 300),
    ],
)
def test_what_new_ones_cost_makes_these_not_new(body, each):
    reading = reading_of(body)
    assert (reading.condition, reading.price.each) == ("unknown", each)


@pytest.mark.parametrize(
    "body",
    [
        "4 panels 400 W, £40 each, we got new ones.",
        "4 Module 400 W, je 40 €, haben neue bekommen.",
        "4 panelen 400 W, 40 euro per stuk, wij hebben een nieuw dak.",
        "4 placas 400 W, 40 € cada una, compré nuevas.",
        "4 panely 400 W, 900 Kč kus, máme novou střechu.",
    ],
)
def test_other_things_that_are_new_do_not_make_the_goods_new(body):
    assert reading_of(body).condition == "unknown"


def test_new_at_the_end_of_a_sentence_is_new():
    assert reading_of("30 panelen 400 wp, nieuw. prijs per stuk 50 euro").condition == "new"


@pytest.mark.parametrize(
    "body",
    [
        "4 panels 400 W, £40 each. I dont post, sorry",
        "4 panels 400 W, £40 each. Postage not an option",
        "4 Module 400 W, je 40 €. Verschicke nicht",
        "4 panelen 400 W, 40 euro per stuk. Niet versturen",
        "4 panneaux 400 W, 40 € pièce. Je n'envoie pas",
        "4 placas 400 W, 40 € cada una. No hago envíos",
        "4 pannelli 400 W, 40 € l'uno. Non spedisco",
        "4 panele 400 W, 200 zł sztuka. Nie wysyłam",
        "4 painéis 400 W, 40 € cada, encomenda errada. Não envio",
        "4 panely 400 W, 900 Kč kus. Neposílám",
        "4 paneler 400 W, 300 kr stykket. Sender ikke",
    ],
)
def test_who_sends_nothing_is_to_be_visited(body):
    assert reading_of(body).delivery == "pickup"


def test_sending_of_which_the_price_holds_the_cost_costs_nothing_more():
    for body in (
        "Modul 420 W, 75 € mit Versand (davon 8 € Porto)",
        "Panel 420 W, £75 posted (of which £8 postage)",
    ):
        reading = reading_of(body)
        assert (reading.price.each, reading.shipping_cost) == (75, 0)


def test_names_in_brackets_behind_their_currents_tell_them():
    panel = reading_of("Panel 300 W, current 9.6A (Isc) / 9.1A (Imp), £30").panel
    assert (panel["short_circuit_current_a"], panel["max_power_current_a"]) == (9.6, 9.1)


def test_panels_of_different_numbers_of_cells_have_no_single_one():
    panel = reading_of("Mixed panels, 60 cells 250 W and 72 cells 300 W, £20 each").panel
    assert panel == {}


def test_a_work_of_the_seller_does_not_make_panels_small():
    for body in (
        "2 panels 400 W left from a campervan project, £50 each",
        "2 Module 400 W, vom Wohnmobil Ausbau übrig, je 50 €",
    ):
        assert "camping_12v" not in reading_of(body).doubts
    assert "camping_12v" in reading_of("Panel 100 W for a campervan, £40").doubts


def test_a_scratch_of_an_inverter_that_is_not_sold_is_none_of_the_panels():
    assert reading_of("2 panels 400 W, £40 each. The inverter has scratches and stays here.").defects == ()
    assert reading_of("2 panels 400 W, £40 each, with scratches. Inverter not included.").defects == ("cosmetic",)


def test_mono_beside_poly_is_neither():
    assert reading_of("3 mono panels and 2 poly panels, used, £20 each").technology is None
    assert reading_of("3 mono panels, not poly, £20 each").technology == "mono"


def test_what_is_only_like_death_is_no_fault():
    assert reading_of("Micro inverter 600 W, dead quiet, £30").defects == ()
    assert reading_of("Micro inverter 600 W, dead, £30").defects == ("dead",)
