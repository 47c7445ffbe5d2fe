"""An amount a watt, for sending or for a part of a mixed lot is no price of a panel; and names are no terms."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(title, body, price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    ("title", "body", "price_text"),
    [
        ("Solarmodule", "10 Module 400 Wp, 0,10 EUR/Wp, Abholung", None),
        ("20 Solarpanels 400W", "0.12 €/W", None),
        ("20 solar panels 400W", "only £0.15 per watt, collect", "£0.15"),
        ("20 solar panels 400W", "collect", "£0.15/W"),
    ],
)
def test_a_price_a_watt_is_no_price_of_a_panel(title, body, price_text):
    assert read(title, body, price_text).price.value is None


def test_each_where_all_are_taken_is_the_price_of_one():
    price = read("20 Solarmodule 400 W", "je 5 EUR bei Abnahme aller, 20 Stück").price
    assert (price.value, price.basis, price.each) == (5, "each", 5)


@pytest.mark.parametrize("price_text", [None, "59,90"])
def test_the_price_before_plus_sending_is_the_price_and_what_follows_is_for_sending(price_text):
    found = read("Solarmodul 400 W", "40 EUR zzgl. Versand 39,90", price_text)
    assert (found.price.each, found.shipping_cost) == (40, 39.9)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Mischlos", "3 Module je 45 EUR, WR 60 EUR"),
        ("Mischlos: 3x 410 W, 1x WR", "3 Module 410 W (je 45 €) und 1 Wechselrichter (60 €). Auch einzeln."),
    ],
)
def test_parts_of_a_mixed_lot_that_are_priced_one_by_one_make_no_price_of_the_whole(title, body):
    found = read(title, body)
    assert (found.kind, found.price.value) == ("set", None)


@pytest.mark.parametrize(
    ("title", "watts", "pieces"), [("Job lot 20 solar panels 250w", 250, 20), ("Lote 10 paneles 330W", 330, 10)]
)
def test_the_power_behind_the_panels_of_a_lot_is_that_of_one(title, watts, pieces):
    found = read(title, "")
    assert (found.panel["rated_power_w"], found.quantity_available) == (watts, pieces)


def test_the_power_of_a_whole_lot_is_still_no_panels():
    assert "rated_power_w" not in read("Solar panels", "Job lot 800 W, collect").panel


def test_a_name_with_mini_is_no_least_order():
    french = read_advert(Advert(title="Onduleur Corvo mini 700", body="Très bon état, 60 €", language="fr"), WORDS)
    assert "minimum_order" not in french.doubts


def test_plain_cyrillic_is_no_disguise_and_a_look_alike_within_a_word_is():
    assert "hostile_content" not in read("Solarmodule 400W", "Продаю панели, 4 штуки, 40 €").doubts
    assert "hostile_content" in read("Solarmоdule 400W", "40 €, sоlar").doubts


def test_what_delivers_power_is_not_sent():
    assert read("Solarmodul 400W", "Das Modul liefert noch Strom. 40 €").delivery == "unknown"
    assert read("Solarmodul 400W", "40 €, wir liefern").delivery == "shipping"


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("10x 320 W panels. Unit price £30, if all taken £250", 30),
        ("10x 320 Wp Module. Stückpreis 30,- bei Abnahme aller 250,-", 30),
        ("10 Module 320 Wp. Einzelpreis 30 € komplett 250 €", 30),
        ("10 panelen 320 Wp. Stuksprijs 30,- bij afname van alles 250,-", 30),
        ("10 panneaux 320 Wc. Prix unitaire 30, le lot 250", 30),
        ("10 placas 320 W. Precio unidad 30, todas por 250", 30),
        ("10 pannelli 320 W. Prezzo cadauno 30, tutti a 250", 30),
        ("10 paneli 320 W. Cena za sztukę 120, za całość 1000", 120),
        ("10 painéis 320 W. Preço unitário 30, todos por 250", 30),
        ("10 panelů 320 W. Cena za jeden kus 700, při odběru všech 6000", 700),
        ("10 paneler 320 W. Stykpris 200,- ved køb af alle 1500,-", 200),
    ],
)
def test_an_amount_behind_the_words_for_the_price_of_a_piece_is_that(body, each):
    price = read_advert(Advert(title="", body=body), WORDS).price
    assert (price.basis, price.each) == ("each", each)
