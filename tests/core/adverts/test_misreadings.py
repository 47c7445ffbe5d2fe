"""What is easily misread: codes, what broke on its way, a price that only fills a field, halves, what is left."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title="", price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    ("body", "price_text"),
    [
        ("2 Module 430 Wp, gebraucht. VB, bitte Angebot machen.", "1 €"),
        ("2 Module 430 Wp, gebraucht, Abholung.", "1 € VB"),
        ("2 used solar panels, 430 W. Make me an offer.", "£1"),
        ("2 gebruikte zonnepanelen 430 Wp. Doe een bod.", "€ 1"),
        ("2 panneaux solaires 430 Wc d'occasion. Faites une offre.", "1 €"),
        ("2 placas solares usadas de 430 W. Se aceptan ofertas.", "1 €"),
        ("2 pannelli usati da 430 W. Fate offerte.", "1 €"),
        ("2 używane panele 430 W. Proszę o oferty.", "1 zł"),
        ("2 painéis usados de 430 W. Aceito propostas.", "1 €"),
        ("2 použité panely 430 W. Nabídněte cenu.", "1 Kč"),
        ("2 brugte solpaneler 430 W. Kom med bud.", "1 kr."),
    ],
)
def test_a_price_of_one_beside_make_an_offer_is_no_price(body, price_text):
    price = reading_of(body, price_text=price_text).price
    assert (price.value, price.each) == (None, None)


def test_a_price_beside_make_an_offer_stays_one():
    assert reading_of("2 used panels 430 W, £45 each or make me an offer.").price.each == 45
    assert reading_of("One used panel 430 W, everything must go.", price_text="£1").price.each == 1


@pytest.mark.parametrize(
    ("body", "quantity"),
    [
        ("Sieben Module übrig, Sonnhalde SH 285P. Je 20 €.", 7),
        ("Four panels left, Larkrise LK 320M, £20 each.", 4),
        ("12 solar panels 400 W, now 4 left of 20, £40 each.", 4),
        ("Noch da: 5 Module 400 Wp, 40 € pro Stück.", 5),
    ],
)
def test_a_model_code_or_what_there_was_once_is_no_quantity(body, quantity):
    assert reading_of(body).quantity_available == quantity


@pytest.mark.parametrize(
    "body",
    [
        "2 solar panels 400 W, one corner damaged in shipping, £40 each.",
        "Panel de 400 W, una esquina rota por el transporte. 20 €.",
        "Modul 400 Wp, Glas gesprungen beim Versand. 20 €.",
    ],
)
def test_what_broke_on_its_way_is_no_offer_to_send(body):
    assert reading_of(body).delivery == "unknown"


def test_what_the_seller_would_take_in_exchange_is_not_what_it_is_for():
    assert "camping_12v" not in reading_of("12 panels 400 W, will swap for leisure battery, £40 each").doubts
    assert "camping_12v" not in reading_of("2 Module 400 Wp, Tausch gegen Wohnwagen möglich, 40 € je Stück").doubts
    assert "camping_12v" in reading_of("One panel 100 W for a caravan, £40").doubts


@pytest.mark.parametrize(
    ("body", "cells"),
    [
        ("Panneau 500 Wc, demi-cellules 132, 45 €", 66),
        ("Panel 405 W, half-cut 108, £45", 54),
    ],
)
def test_half_cells_are_halved_once(body, cells):
    assert reading_of(body).panel["cells_in_series"] == cells


def test_sides_in_thousands_of_a_millimetre_are_metres():
    panel = reading_of("Modulo da 465 Wp, 1.762 x 1.134 mm, 68 €").panel
    assert (panel["length_mm"], panel["width_mm"]) == (1762, 1134)


def test_the_words_of_a_label_are_its_rating_and_those_of_a_meter_are_not():
    assert reading_of("Panel, label reads Pmax 375W, £40").panel["rated_power_w"] == 375
    assert "rated_power_w" not in reading_of("Solar panel, my meter reads 375W in the sun, £40").panel


def test_a_coefficient_in_one_word_is_that_of_the_voltage():
    panel = reading_of("Zonnepaneel 455 Wp, nieuw. Spanningscoëfficiënt -0,24 %/°C, 60 euro").panel
    assert panel["voc_coefficient_pct_per_k"] == -0.24


def test_a_thing_with_a_panel_is_no_panel():
    assert reading_of("Tuinlamp met zonnepaneeltje, 3 stuks. 5 euro samen.", "Zonnepaneel lader").kind == "other"
    assert reading_of("Gartenlampe mit Solarpanel, 5 €", "Solarpanel").kind == "other"
    assert reading_of("Panels with brackets, 4 solar panels 400 W, £100").kind == "panel"


def test_a_cracked_back_is_no_cracked_glass():
    reading = reading_of("Pannello 330 W, il foglio posteriore è ingiallito e in un punto crepato. 10 euro")
    assert "cracked_glass" not in reading.defects
    assert "backsheet_damage" in reading.defects


@pytest.mark.parametrize(
    "body",
    [
        "Panel 300 W, 30 cells x 2, used, £30",
        "Modul 300 W, 30 Zellen x 2, gebraucht, 30 €",
        "Placa 300 W, 30 células x 2, usada, 30 €",
        "Pannello 300 W, 30 celle x 2, usato, 30 €",
    ],
)
def test_a_number_that_multiplies_cells_counts_no_panels(body):
    reading = read_advert(Advert(title="", body=body), WORDS)
    assert (reading.quantity_available, reading.panel) == (1, {"rated_power_w": 300})


def test_a_number_behind_an_x_counts_panels_where_no_cells_stand_before_it():
    reading = read_advert(Advert(title="", body="Panels 300 W x 2, 60 cells, £30 each"), WORDS)
    assert (reading.quantity_available, reading.panel["cells_in_series"]) == (2, 60)
