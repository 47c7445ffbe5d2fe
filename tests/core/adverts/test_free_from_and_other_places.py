"""Sending that is free only from so much on; what panels are for; a side behind its name; one tracker an input."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panels 310 W", "£30 each. Free delivery on orders over £150."),
        ("Solarmodule 310 W", "30 € das Stück. Versandkostenfrei ab 150 €."),
        ("Zonnepanelen 310 W", "30 euro per stuk. Gratis verzending vanaf 150 euro."),
        ("Panneaux 310 W", "30 € pièce. Franco de port à partir de 5."),
        ("Placas 310 W", "30 € cada una. Envío gratis a partir de 150 €."),
        ("Pannelli 310 W", "30 € l'uno. Spedizione gratuita oltre 150 €."),
        ("Panele 310 W", "130 zł za sztukę. Darmowa wysyłka od 600 zł."),
        ("Painéis 310 W", "30 € cada. Envio grátis acima de 150 €."),
        ("Panely 310 W", "700 Kč za kus. Doprava zdarma od 4000 Kč."),
        ("Solpaneler 310 W", "200 kr stk. Fri fragt over 1000 kr."),
    ],
)
def test_sending_that_is_free_from_so_much_on_has_no_known_cost(title, body):
    read = reading_of(title, body)
    assert read.shipping_cost is None
    assert read.price.value in {30, 130, 200, 700}


def test_sending_that_is_free_costs_nothing():
    assert reading_of("Solar panels 310 W", "£30 each, free delivery").shipping_cost == 0
    assert reading_of("Solarmodule 310 W", "30 € das Stück, versandkostenfrei").shipping_cost == 0


@pytest.mark.parametrize(
    ("title", "body", "doubted"),
    [
        ("Panneau 140 W", "Panneau 140 W pour camping-car, 50 €", False),
        ("Panel 140 W", "Off grid hut, panel for sale, £50", False),
        ("Panel 140 W", "With a pure sine inverter for off grid use, £50", True),
        ("Inversor off-grid 2000W", "Onda pura, 90 €", True),
    ],
)
def test_panels_for_a_camper_or_a_hut_are_no_inverter_off_the_grid(title, body, doubted):
    assert ("off_grid_inverter" in reading_of(title, body).doubts) == doubted


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel 130 W", "height 1250 mm width 560 mm"),
        ("Modul 130 W", "Länge 1250 mm Breite 560 mm"),
        ("Panel 130 W", "1250 mm high x 560 mm wide"),
        ("Panel 130 W", "délka 1250 mm šířka 560 mm"),
    ],
)
def test_a_side_is_named_once(title, body):
    panel = reading_of(title, body).panel
    assert (panel["length_mm"], panel["width_mm"]) == (1250, 560)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panneau 340 W", "40 €. Cadre en bois de 200 x 120 cm donné avec."),
        ("Pannello 340 W", "40 €. Telaio in legno 200 x 120 cm a parte."),
        ("Painel 340 W", "40 €. Moldura de madeira 200 x 120 cm incluída."),
        ("Solar panel 340 W", "£40. Wooden frame 200 x 120 cm comes with it."),
        ("Solarmodul 340 W", "40 €. Holzrahmen 200 x 120 cm dazu."),
    ],
)
def test_the_sides_of_a_wooden_frame_are_none_of_the_panel(title, body):
    assert "length_mm" not in reading_of(title, body).panel


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Mikrowechselrichter 700 W", "2 Eingänge mit je einem Tracker"),
        ("Micro inverter 700 W", "2 inputs, one MPPT each"),
        ("Micro inverter 700 W", "2 inputs, 1 tracker per input"),
    ],
)
def test_one_tracker_for_each_of_two_inputs_makes_two(title, body):
    assert reading_of(title, body).inverter["input_count"] == 2


def test_a_lone_input_with_its_tracker_is_one():
    assert reading_of("Micro-onduleur 500 W", "une seule entrée MPPT 24-50 V, 60 €").inverter["input_count"] == 1
