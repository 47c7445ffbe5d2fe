"""Which of two amounts is asked: what it was and is, from what it was lowered, what they cost new?"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())

# What is asked for one panel; the language; the text.
LOWERED = (
    (60, "Solar panel 300 W. Previously £95, price now dropped to £60. Collect."),
    (75, "Solar panel 300 W. Price cut from £120 down to £75 for a quick sale."),
    (75, "Solar panel 300 W. £75 (was £120)"),
    (70, "Solarmodul 350 W. Früher 110 €, mittlerweile nur noch 70 €"),
    (70, "Solarmodul 350 W. Preis gesenkt: 110 € → 70 €"),
    (70, "Zonnepaneel 350 W, voorheen 110 euro, nu nog maar 70 euro"),
    (70, "Panneau 350 W, auparavant 110 €, désormais 70 €"),
    (70, "Placa 350 W, precio rebajado de 110 € a 70 €"),
    (70, "Pannello 350 W, era a 110 €, adesso 70 €"),
    (250, "Panel 350 W, cena obniżona z 400 zł do 250 zł"),
    (70, "Painel 350 W, preço reduzido de 110 € para 70 €"),
    (1200, "Panel 350 W, zlevněno z 2000 Kč na 1200 Kč"),
    (400, "Panel 350 W, sat ned fra 600 kr. til 400 kr."),
)
WHEN_NEW = (
    (40, "Panel 300 W. £150 new, £40 takes it"),
    (60, "Solarmodul 350 W. Neu 160 €, für 60 € abzugeben"),
    (60, "Zonnepaneel 350 W. Nieuw 160 euro, weg voor 60 euro"),
    (40, "Panneau 350 W. Neuf 150 €, vendu 40 €"),
    (60, "Placa 350 W. Nueva 160 €, se vende por 60 €"),
    (60, "Pannello 350 W. Nuovo 160 €, lo vendo a 60 €"),
    (250, "Panel 350 W. Nowy 600 zł, sprzedam za 250 zł"),
    (60, "Painel 350 W. Novo 160 €, vendo por 60 €"),
    (1200, "Panel 350 W. Nový 3000 Kč, prodám za 1200 Kč"),
    (400, "Panel 350 W. Ny 1000 kr., sælges for 400 kr."),
)
ASKED = (  # both are told, and neither of them is old
    (60, "new", "4 new panels 300 W, £60 each, delivery £20"),
    (150, "new", "Modul 400 W. Neu 150 €, Versand 20 €"),
    (150, "new", "Panel 400 W. New £150. Mounting brackets £20."),
    (150, "new", "Modul 400 W, neu, jetzt 150 €"),
    (60, "unknown", "4 panels 400 W, now £60 each or £200 the lot"),
)


@pytest.mark.parametrize(("each", "text"), LOWERED)
def test_what_was_asked_before_is_no_price_and_limits_nothing(each, text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert reading.price.each == each
    assert "output_limited" not in reading.doubts


@pytest.mark.parametrize(("each", "text"), WHEN_NEW)
def test_what_they_cost_new_is_no_price_and_tells_no_state(each, text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert reading.price.each == each
    assert reading.condition == "unknown"


def test_with_the_price_in_the_field_new_beside_the_other_amount_tells_no_state():
    reading = read_advert(Advert(title="Panel 300 W", body="cost £150 new, now £40.", price_text="£40"), WORDS)

    assert (reading.price.each, reading.condition) == (40, "unknown")


def test_a_limit_beside_watts_stays_where_a_price_was_lowered():
    text = "Mikrowechselrichter 800 W, auf 600 W gedrosselt, von 80 € auf 50 € reduziert"

    assert "output_limited" in read_advert(Advert(title="", body=text), WORDS).doubts


@pytest.mark.parametrize(("each", "condition", "text"), ASKED)
def test_what_is_asked_beside_other_amounts_stays(each, condition, text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert (reading.price.each, reading.condition) == (each, condition)


@pytest.mark.parametrize(
    "text", ["Panel 300 W. £80 £50", "Panel 300 W. €80 €50", "Modul 300 W. 80 € 50 €", "Panel 300 W £80£50"]
)
def test_of_two_amounts_side_by_side_neither_is_the_price_but_the_one_of_the_page(text):
    asked = [
        read_advert(Advert(title="", body=text, price_text=field), WORDS).price.value for field in (None, "50", "80")
    ]

    assert asked == [None, 50, 80]


def test_an_amount_beside_that_of_sending_stays_the_price():
    reading = read_advert(Advert(title="", body="Panel 300 W, £40 £10 postage"), WORDS)

    assert (reading.price.value, reading.shipping_cost) == (40, 10)
