"""Goods that figures tell: counted panels plus an inverter, short names beside watts, goods priced apart."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(language, body):
    return read_advert(Advert(title="", body=body, language=language), WORDS)


@pytest.mark.parametrize(
    ("language", "inverter"),
    [
        ("en", "microinverter"),
        ("de", "Mikrowechselrichter"),
        ("nl", "micro omvormer"),
        ("fr", "micro onduleur"),
        ("es", "microinversor"),
        ("it", "microinverter"),
        ("pl", "mikroinwerter"),
        ("pt", "microinversor"),
        ("cs", "mikromenic"),
        ("da", "mikroinverter"),
    ],
)
def test_counted_watts_plus_an_inverter_are_a_set(language, inverter):
    for body in (f"2x415w + {inverter} 800w, 5 m", f"{inverter} 800w + 2x415w, 5 m"):
        found = reading_of(language, body)
        assert (found.kind, found.panel_count) == ("set", 2)
        assert (found.panel["rated_power_w"], found.inverter["ac_power_w"]) == (415, 800)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Inverter 800 W for 2x415 W + 5 m lead, £50"),
        ("de", "Wechselrichter 800 W, Eingang 2x415 W + Display, 50 €"),
        ("de", "Mikrowechselrichter für 2x415 W + Kabel, Ausgang 800 W, 50 €"),
        ("nl", "Omvormer max. 2x415 W + kabel, uitgang 800 W, 50 euro"),
        ("fr", "Onduleur 800 W, entrées 2x415 W + câble, 50 €"),
        ("de", "Ausgelegt für 2x415 W + Wechselrichter 800 W, 50 €"),
    ],
)
def test_what_an_inverter_takes_makes_no_set(language, body):
    found = reading_of(language, body)
    assert (found.kind, found.inverter["ac_power_w"]) == ("inverter", 800)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("de", "2 Mod. 415w + Wechselrichter 600w, 260 €"),
        ("fr", "2 pan 415w + micro onduleur 600w, 260 €"),
        ("fr", "2 pan. 415wc + micro-onduleur 600w, 260 €"),
        ("es", "2 plac 415w + micro 600w, 260 €"),
        ("pl", "2 mod 415w + inw. 600w, 1200 zł"),
    ],
)
def test_short_names_of_panels_stand_before_their_watts(language, body):
    found = reading_of(language, body)
    assert (found.kind, found.panel_count) == ("set", 2)
    assert (found.panel["rated_power_w"], found.inverter["ac_power_w"]) == (415, 600)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Micro 600w, 2 inputs, used, £40"),
        ("de", "Mikro 600 W, 2 Eingänge, gebraucht, 40 €"),
        ("nl", "Micro 600 W, 2 ingangen, gebruikt, 40 euro"),
        ("fr", "micro 600w 2 entrées, servi un an, 40 €"),
        ("es", "Micro de 600 W, dos entradas, 40 €"),
        ("it", "micro 600w 2 ingressi, usato, 40 €"),
        ("pl", "mikro 600 W, 2 wejścia, używany, 150 zł"),
        ("pt", "micro 600 W, 2 entradas, usado, 40 €"),
        ("cs", "mikro 600 W, 2 vstupy, použitý, 900 Kč"),
        ("da", "mikro 600 W, 2 indgange, brugt, 300 kr."),
    ],
)
def test_a_short_name_of_an_inverter_beside_its_watts(language, body):
    found = reading_of(language, body)
    assert (found.kind, found.inverter["ac_power_w"], found.inverter["input_count"]) == ("inverter", 600, 2)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("de", "Mikro mit Ständer, kaum benutzt, 20 €"),
        ("fr", "Micro-ondes 800 W, 30 €"),
        ("fr", "Micro sans fil, 20 €"),
        ("fr", "Micro karaoké 300 W, 20 €"),
        ("es", "Micro inalámbrico para karaoke, 20 €"),
        ("it", "Micro onde 800 W, 30 €"),
        ("pl", "Mikrofalówka 800 W, 100 zł"),
        ("cs", "Mikrovlnka 800 W, 500 Kč"),
    ],
)
def test_a_microphone_and_an_oven_are_no_inverters(language, body):
    assert reading_of(language, body).kind == "other"


def test_small_cracks_of_a_panel_make_no_inverter():
    found = reading_of("es", "Panel 400 W con micro grietas, 20 €")
    assert (found.kind, found.panel["rated_power_w"]) == ("panel", 400)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "3 panels 380 W £40 each, inverter 600 W £60, sold separately"),
        ("de", "3 Module 380 W je 40 €, Wechselrichter 600 W 60 € – einzeln"),
        ("nl", "3 panelen 380 W 40 euro per stuk, omvormer 600 W 60 euro, apart te koop"),
        ("fr", "3 panneaux 380 W à 40 € pièce, onduleur 600 W à 60 €, vendus séparément"),
        ("es", "3 paneles 380 W a 40 € cada uno, inversor 600 W a 60 €. Se venden por separado"),
        ("it", "3 pannelli 380 W a 40 € l'uno, inverter 600 W a 60 €. Venduti separatamente"),
        ("pl", "3 panele 380 W po 40 zł za sztukę, inwerter 600 W 60 zł. Sprzedaję osobno"),
        ("pt", "3 painéis 380 W a 40 € cada, inversor 600 W a 60 €. Vendidos em separado"),
        ("cs", "3 panely 380 W po 40 Kč za kus, měnič 600 W 60 Kč. Prodám zvlášť"),
        ("da", "3 paneler 380 W 40 kr. stykket, inverter 600 W 60 kr. Sælges separat"),
    ],
)
def test_goods_sold_apart_are_panels_at_the_price_of_a_panel(language, body):
    found = reading_of(language, body)
    assert (found.kind, found.quantity_available, found.price.each) == ("panel", 3, 40)
    assert found.panel["rated_power_w"] == 380
    assert found.inverter == {}


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "3 panels 380 W £40 each, inverter 600 W £60, also separately"),
        ("de", "3 Module 380 W je 40 €, Wechselrichter 600 W 60 €. Auch einzeln."),
        ("fr", "3 panneaux 380 W à 40 € pièce, onduleur 600 W à 60 €"),
    ],
)
def test_goods_that_may_go_together_stay_a_set_without_a_price(language, body):
    found = reading_of(language, body)
    assert (found.kind, found.price.value) == ("set", None)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Three micro inverters, 350 VA each, single panel type. £15 each"),
        ("de", "Drei Mikrowechselrichter, 350 VA, ein Modul. 15 € je Stück"),
        ("fr", "Trois micro-onduleurs 350 VA, un panneau. 15 € pièce"),
    ],
)
def test_more_inverters_than_panels_are_no_set(language, body):
    found = reading_of(language, body)
    assert (found.kind, found.quantity_available, found.price.each) == ("inverter", 3, 15)


def test_as_many_panels_as_inverters_are_a_set():
    assert reading_of("en", "One panel 400 W and one micro inverter 350 W, £90").kind == "set"
    assert reading_of("en", "Two panels 400 W, two micro inverters 350 W, £190").kind == "set"
    titled = Advert(title="Wechselrichter", body="4 Module, 2 Wechselrichter 350 W. 190 €", language="de")
    assert read_advert(titled, WORDS).kind == "set"


def test_counted_watts_before_a_sign_for_and_are_no_inverters():
    found = reading_of("und", "2x 415W & microinverter 800W £250")
    assert (found.kind, found.inverter["ac_power_w"]) == ("set", 800)


def test_counted_watts_of_inverters_in_a_set_are_theirs():
    found = reading_of("en", "Set: two panels 400 W, 2x 350 W micro inverters, £190")
    assert (found.panel["rated_power_w"], found.inverter["ac_power_w"]) == (400, 350)
