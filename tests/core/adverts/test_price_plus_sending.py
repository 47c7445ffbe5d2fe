"""A price to which sending comes on top is the price, and no cost of sending; in ten languages."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body):
    reading = read_advert(Advert(title="", body=body), WORDS)
    return reading.price.value, reading.shipping_cost


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 500 W, as new. £60 plus postage.",
        "Wechselrichter 500 W, neu. 60 € zzgl. Versandkosten.",
        "Micro-onduleur 500 W neuf, 60 € plus frais de port.",
        "Micro-onduleur 500 W neuf, 60 € hors frais de port.",
        "Microinversor 500 W nuevo, 60 € más gastos de envío.",
        "Microinverter 500 W nuovo, 60 € più spese di spedizione.",
        "Omvormer 500 W nieuw, 60 euro excl. verzendkosten.",
        "Mikroinwerter 500 W nowy, 60 zł plus przesyłka.",
        "Microinversor 500 W novo, 60 € mais envio.",
        "Mikroměnič 500 W nový, 60 Kč plus doprava.",
        "Mikroinverter 500 W ny, 60 kr plus forsendelse.",
        "Solarmodul 400 W, 60 € ohne Versand.",
        "Solar panel 400 W, £60 each plus postage",
    ],
)
def test_what_sending_comes_on_top_of_is_the_price(body):
    assert read(body) == (60.0, None)


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 400 W £60 plus £12 postage", "Solar panel 400 W £60 plus postage £12",
        "Solarmodul 400 W 60 € zzgl. 12 € Versand", "Solarmodul 400 W, Versand 12 €, Preis 60 €",
        "Panneau 400 W 60 € + 12 € envoi", "Zonnepaneel 400 W 60 euro, verzenden 12 euro",
    ],
)  # fmt: skip
def test_a_cost_of_its_own_is_kept_apart(body):
    assert read(body) == (60.0, 12.0)
