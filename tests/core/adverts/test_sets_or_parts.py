"""Panels and an inverter: sold together, or is one of them only spoken of?"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panel", "Kit: 1 panel 420 W, 400 W micro inverter, bracket. £150"),
        ("Stecker Solarpanel", "Paket: 1 Modul 420 Wp, Wechselrichter 400 W, Halterung. 150 €"),
        ("Zonnepaneel met stekker", "Setje: 1 paneel 420 Wp, omvormer 400 W en beugels. 150 euro"),
        ("Panneau solaire", "Kit composé de 1 panneau 420 Wc, micro-onduleur 400 W, fixations. 150 €"),
        ("Placa solar", "Kit con 1 placa de 420 W, microinversor de 400 W y soportes. 150 €"),
        ("Pannello solare", "Kit con 1 pannello da 420 W, microinverter 400 W, staffe. 150 €"),
        ("Panel fotowoltaiczny", "Zestaw: 1 panel 420 W, mikroinwerter 400 W, uchwyty. 150 zł"),
        ("Painel solar", "Kit: 1 painel 420 W, microinversor 400 W, suportes. 150 €"),
        ("Solární panel", "Sada: 1 panel 420 W, mikroměnič 400 W, držáky. 150 Kč"),
        ("Solcelle", "Pakke: 1 panel 420 W, mikroinverter 400 W og beslag. 150 kr"),
    ],
)
def test_a_set_that_the_body_spells_out_is_one_whatever_the_title_names(title, body):
    reading = reading_of(title, body)
    assert (reading.kind, reading.price.basis, reading.price.each) == ("set", "set", 150)
    assert (reading.panel["rated_power_w"], reading.inverter["ac_power_w"]) == (420, 400)


@pytest.mark.parametrize(
    "body",
    [
        "Panel 430 W tested with an 800 W inverter, inverter not included. 50 £",
        "Modul 430 Wp, lief mit 800 W Wechselrichter, Wechselrichter bleibt hier. 50 €",
        "Paneel 430 Wp met 800 W omvormer getest, omvormer niet inbegrepen. 50 euro",
        "Panneau 430 Wc testé avec onduleur 800 W, onduleur non inclus. 50 €",
        "Placa 430 W probada con inversor de 800 W, inversor no incluido. 50 €",
        "Pannello 430 W provato con inverter 800 W, inverter escluso. 50 €",
        "Panel 430 W sprawdzony z mikroinwerterem 800 W, inwerter nie w zestawie. 50 zł",
        "Painel 430 W testado com inversor 800 W, inversor não incluído. 50 €",
        "Panel 430 W zkoušený s měničem 800 W, měnič není součástí. 50 Kč",
        "Panel 430 W testet med 800 W inverter, inverter medfølger ikke. 50 kr",
    ],
)
def test_an_inverter_that_does_not_come_along_makes_no_set(body):
    reading = reading_of("", body)
    assert (reading.kind, reading.price.basis, reading.price.value) == ("panel", "each", 50)
    assert (reading.panel, reading.inverter) == ({"rated_power_w": 430}, {})


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("", "Set: 2 Module 430 Wp und Wechselrichter 800 W, zweiter Wechselrichter schon verkauft. 200 €"),
        ("Balkonkraftwerk", "2 Module 430 Wp und Wechselrichter 800 W. 200 €. Kabel nicht dabei."),
        ("", "2 Module 430 Wp + 800 W Wechselrichter, 200 €. Auch ohne Wechselrichter für 100 € zu haben."),
    ],
)
def test_a_set_stays_one_where_something_else_does_not_come_along(title, body):
    assert reading_of(title, body).kind == "set"


def test_parts_of_a_set_are_none():
    body = "4 panels 300 W left over from a kit, £30 each. Inverter sold."
    assert reading_of("Solar panels", body).kind == "panel"
    assert reading_of("Stecker für Solarpanel", "MC4 Stecker, 10 Paar, 5 €").kind == "other"


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("12 panels and inverter", "12 panels 235 W, £22 each, also in pairs. Inverter now sold."),
        ("12 Module mit 2 Wechselrichtern", "12 Module 235 W, je 22 €. Wechselrichter sind schon verkauft."),
        (
            "Vendo 12 pannelli con 2 inverter",
            "12 pannelli da 235 W a 22 € l'uno, anche a coppie. Inverter già venduto.",
        ),
        ("12 panneaux et onduleur", "12 panneaux 235 Wc à 22 € pièce. Onduleur déjà vendu."),
    ],
)
def test_an_inverter_of_the_title_that_is_sold_already_leaves_panels(title, body):
    reading = reading_of(title, body)
    assert (reading.kind, reading.quantity_available, reading.price.each) == ("panel", 12, 22)
    assert (reading.inverter, reading.doubts) == ({}, ())


def test_one_of_two_inverters_that_is_sold_leaves_a_set():
    body = "12 panels 235 W and 2 inverters 800 W. One inverter sold, one left. £300"
    assert reading_of("12 panels and 2 inverters", body).kind == "set"


@pytest.mark.parametrize(
    "body",
    [
        "4 panels 300 W pulled from a working system, £30 each",
        "Wegens nieuw dak 4 panelen 300 Wp, 30 euro per stuk",
        "Suite au remplacement de notre installation, 4 panneaux 300 Wc, 30 € pièce",
        "4 panele 300 W, demontaż z balkonu, 100 zł sztuka",
    ],
)
def test_what_was_up_before_is_used(body):
    assert reading_of("", body).condition == "used"
