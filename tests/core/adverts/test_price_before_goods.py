"""A price before the goods that it buys: "450 euro for 9 panels" offers nine of them, together."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "£450 for 9 x 370W panels",
        "£450 for nine 370W panels, collect in Ely",
        "450 € für 9 Module à 370 W",
        "450 euro voor 9 panelen van 370 Wp",
        "450 € pour 9 panneaux de 370 W",
        "450 € por 9 placas solares de 370 W",
        "450 € per 9 pannelli da 370 W",
        "450 zł za 9 paneli 370 W",
        "450 € por 9 painéis de 370 W",
        "450 Kč za 9 panelů 370 W",
        "450 kr. for 9 paneler på 370 W",
        "Paketpreis 450 € für 9 Module à 370 W, entspricht 50 € pro Modul. Kein Einzelverkauf.",
    ],
)
def test_a_price_for_a_number_of_panels_is_that_of_the_lot(body):
    found = reading_of(body)
    assert (found.kind, found.is_offer, found.quantity_available) == ("panel", True, 9)
    assert (found.price.value, found.price.basis, found.price.each) == (450, "lot", 50)
    assert found.panel == {"rated_power_w": 370}
    assert "nothing_described" not in found.doubts


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        ("Micro inverter 800 W, £60 for 2 panels", "inverter"),
        ("Wechselrichter 800 W, 60 € für 2 Module", "inverter"),
        ("Micro-onduleur 800 W, 60 € pour 2 panneaux", "inverter"),
        ("Halterung 60 € für 2 Module", "other"),
        ("Roof hooks and rails, £60 for 2 panels", "other"),
    ],
)
def test_what_is_sold_for_use_with_panels_stays_what_it_is(body, kind):
    found = reading_of(body)
    assert (found.kind, found.price.value) == (kind, 60)
    assert found.quantity_available in {1, None}
