"""A price with sending in it beside one without: sending costs the difference."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def asked(body):
    found = read_advert(Advert(title="", body=body), WORDS)
    return found.price.value, found.shipping_cost


@pytest.mark.parametrize(
    ("body", "price", "cost"),
    [
        ("Mikrowechselrichter 800 W, 62 €, mit Versand 69 €.", 62, 7),
        ("Mikrowechselrichter 800 W, 69 € mit Versand, 62 € bei Abholung.", 62, 7),
        ("Mikrowechselrichter 800 W, 62 € (inkl. Versand 69 €).", 62, 7),
        ("Micro inverter 800W, £62 collected or £69 posted.", 62, 7),
        ("Micro inverter 800W, £62, with postage £69.", 62, 7),
        ("Micro-onduleur 800 W, 62 € ou 69 € avec envoi.", 62, 7),
        ("Micro-onduleur 800 W, 62 €, 69 € port compris.", 62, 7),
        ("Microinverter 800 W usato, 62 €, 69 € con spedizione.", 62, 7),
        ("Micro-omvormer 800 W, 62 euro, met verzenden 69 euro.", 62, 7),
        ("Mikroinwerter 800 W, 210 zł, z wysyłką 235 zł.", 210, 25),
        ("Microinversor 800 W usado, 62 €, 69 € com portes.", 62, 7),
        ("Microinversor 800 W usado, en perfecto estado, 62 €, o 69 € con envío.", 62, 7),
        ("Mikroinverter 800 W brugt, 400 kr, 460 kr med fragt.", 400, 60),
        ("Mikroměnič 800 W, 1500 Kč, s dopravou 1640 Kč.", 1500, 140),
        ("2 Module 400 W, zusammen 120 €, inkl. Versand 150 €.", 120, 30),
    ],
)
def test_sending_costs_the_difference_of_two_prices(body, price, cost):
    assert asked(body) == (price, cost)


@pytest.mark.parametrize(
    ("body", "price", "cost"),
    [
        ("2 Module 400 W, je 60 €, mit Versand 150 €.", 60, None),  # for both of them, or for each?
        ("2 panels 400 W, £60 each, £150 posted.", 60, None),
        ("Mikrowechselrichter 800 W, 62 €, mit Versand 7 € mehr.", 62, None),
        ("Mikrowechselrichter 800 W, 69 € mit Versand.", 69, 0),
        ("Micro inverter 800W. £69 posted (£50 for the unit, £19 post).", 69, 0),
        ("Micro inverter 800W £62 + £7 postage.", 62, 7),
    ],
)
def test_where_nobody_tells_both_for_as_many_pieces_no_cost_is_made_up(body, price, cost):
    assert asked(body) == (price, cost)
