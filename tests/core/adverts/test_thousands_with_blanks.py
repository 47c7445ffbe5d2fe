"""A blank parts thousands also before hundredths and dashes, in texts and in the price field; a count stays a count."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
BLANKS = (" ", "\u00a0", "\u202f", "\u2009")


def reading_of(body, title="", price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize("blank", BLANKS)
@pytest.mark.parametrize(
    ("body", "value", "each"),
    [
        ("1 200,00 zł za 4 panele 400W", 1200, 300),
        ("10 500,00 zł za 30 paneli 400W", 10500, 350),
        ("Cena: 2 400,00 zł. Panel 400W", 2400, 2400),
        ("2 000,- Kč za kus, 4 panely 400W", 2000, 2000),
        ("12 000,- Kč za 8 panelů 400W", 12000, 1500),
        ("cena 13 500,- za vše, 9 panelů 400W", 13500, 1500),
        ("1 200,00 € les 20 panneaux 400 W", 1200, 60),
        ("1 450,- € für 30 Module 400 W", 1450, 48.3333),
        ("Pris 1 500,00 kr for 5 paneler 400W", 1500, 300),
        ("Prezzo 1 350,00 € per 18 pannelli 400W", 1350, 75),
        ("20 placas 400W por 1 100,00 €", 1100, None),
        ("1 050,00 € pelos 15 painéis de 400 W", 1050, None),
        ("€ 1 200,00 voor 20 panelen 400W", 1200, 60),
        ("20 panels 400W, £1 100.00 the lot", 1100, 55),
    ],
)
def test_an_amount_of_thousands(blank, body, value, each):
    amount = body.replace(" ", blank)
    price = reading_of(amount).price
    assert price.value == value
    assert each is None or price.each == each


@pytest.mark.parametrize("blank", BLANKS)
@pytest.mark.parametrize(
    ("price_text", "value"),
    [("1 200,00 zł", 1200), ("1 250,50 Kč", 1250.5), ("2 000,- Kč", 2000), ("8 000 ,- Kč", 8000), ("1 200", 1200),
     ("1'200.00 CHF", 1200), ("1.200,00 €", 1200), ("£1,200.00", 1200), ("1.200,-- €", 1200), ("€1.200,=", 1200)],
)  # fmt: skip
def test_the_price_field(blank, price_text, value):
    reading = reading_of("Modul 400W", "Modul", price_text.replace(" ", blank))
    assert reading.price.value == value


@pytest.mark.parametrize(
    ("body", "quantity", "power", "value"),
    [
        ("2 400 W panele, 300 zł sztuka", 2, 400, 300),
        ("2 500 W Module je 90 €", 2, 500, 90),
        ("2 450 W moduly, 500,- Kč/ks", 2, 450, 500),
        ("Panel 410 W 1 200 zł", 1, 410, 1200),
        ("12 paneli 410 W, 4 200 zł za całość", 12, 410, 4200),
        ("4 ks panelů 410 W 200,00 Kč kus", 4, 410, 200),
        ("Panel £60 420W", 1, 420, 60),
        ("Modul 400 W, max. 1 000 V System, 55,00 €", 1, 400, 55),
    ],
)
def test_a_figure_before_watts_or_behind_them_is_no_part_of_an_amount(body, quantity, power, value):
    reading = reading_of(body)
    told = (reading.quantity_available, reading.panel.get("rated_power_w"), reading.price.value)
    assert told == (quantity, power, value)
