"""Panels named by their watts ("415er"), panels in rows, and only some of more that are for sale."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "quantity", "power"),
    [
        ("6 Platten übrig, 415er, nagelneu, 70 das Stück", 6, 415),
        ("Verkaufe 10 Module, 375er, je 30 €", 10, 375),
        ("Restposten: 14 Stück 405er Module à 40 €", 14, 405),
        ("8 panelen over, 400'ers, 50 per stuk", 8, 400),
        ("6 paneler, 415'ere, 300 kr stk", 6, 415),
        ("20er Paket Module 400W, 45 € Stück", 20, 400),
        ("12 Module, 8 davon 380 W, 4 davon 400 W, 40 € je", 12, None),
        ("12 panneaux dont 8 de 380 W et 4 de 400 W, 40 € pièce", 12, None),
        ("Row of 3 x 2 panels, 280W each, all in £150", 6, 280),
        ("2x2 Module 400W 50€", 4, 400),
        ("1-4 panels available, 300W, £20 each", None, 300),
        ("I have 12 on the roof but only 5 are for sale. Panels 400W £25 each", 5, 400),
        ("12 auf dem Dach, aber nur 5 zu verkaufen. Module 400W 25 € Stück", 5, 400),
        ("J'en ai 12 sur le toit mais seulement 5 à vendre. Panneaux 400 W, 25 € pièce", 5, 400),
        ("Tengo 12 en el tejado pero solo vendo 5. Placas 400W, 25 € cada una", 5, 400),
        ("12 panels 400W for sale, only 5 years old, £25 each", 12, 400),
    ],
)
def test_how_many_and_how_strong(body, quantity, power):
    reading = reading_of(body)
    assert (reading.quantity_available, reading.panel.get("rated_power_w")) == (quantity, power)


@pytest.mark.parametrize("body", ["2x2 Module 400W 50€", "3x2 Module 300W je 40 €", "Row of 3 x 2 panels 280W, £150"])
def test_rows_are_no_size(body):
    assert "length_mm" not in reading_of(body).panel


def test_a_size_is_one():
    assert reading_of("Modul 2 x 1 m, 300 W, 40 €").panel["length_mm"] == 2000
