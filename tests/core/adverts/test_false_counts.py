"""Numbers that are easily taken for a number of pieces, and numbers of pieces that are easily missed."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Nur 65: Modul 430 W", "Modul 430 W"),
        ("Only 65: solar panel 430 W", ""),
        ("Van 90 naar 65: zonnepaneel 430 Wp", ""),
        ("Solo 65: panel 430 W", "Placa solar de 430 W"),
        ("Panneau", "Panneau solaire 430 Wc, H 1m76 x L 1m13"),
    ],
)
def test_a_price_or_a_side_is_no_number_of_pieces(title, body):
    assert reading_of(body, title).quantity_available == 1


@pytest.mark.parametrize(
    "body",
    [
        "Neues Modul 430 W, noch 6 da, je 60 €",
        "Neues Modul 430 W, 6 Stück da, je 60 €",
        "Nieuw paneel 430 Wp, 6 over, 60 euro per stuk",
        "Nieuw paneel 430 Wp, nog 6 stuks over, 60 euro per stuk",
        "Panneau neuf 430 W, reste 6, 60 € pièce",
        "New panel 430 W, 6 left, £60 each",
    ],
)
def test_what_is_left_of_a_thing_named_in_the_singular_counts(body):
    assert reading_of(body).quantity_available == 6


@pytest.mark.parametrize(
    ("body", "quantity"),
    [
        ("Tolv paneler 250 W. Fire har knust glas. 75 kr stykket", 12),
        ("Twelve panels 250 W. Four have cracked glass. £10 each", 12),
        ("Zwölf Module 250 W. Vier haben Glasbruch. Je 10 €", 12),
        ("Twaalf panelen 250 Wp. Vier hebben gebroken glas. 10 euro per stuk", 12),
    ],
)
def test_some_that_have_a_fault_are_not_all_that_there_are(body, quantity):
    reading = reading_of(body)
    assert (reading.quantity_available, reading.doubts) == (quantity, ("part_damaged",))
    assert reading.condition != "damaged"


def test_a_count_written_with_no_counts_and_denies_nothing():
    reading = reading_of("6no 300w panels, used, £20 each")
    assert (reading.quantity_available, reading.panel["rated_power_w"]) == (6, 300)
    assert reading_of("We have 5no 250w panels and 9no 300w panels. £20 each").quantity_available is None


def test_half_a_panel_is_not_counted():
    assert reading_of("2½ solar panels").quantity_available is None


def test_metres_and_centimetres_are_one_length():
    panel = reading_of("Panneau 430 Wc, 1m76 de long et 1m13 de large, 60 €").panel
    assert (panel["length_mm"], panel["width_mm"]) == (1760, 1130)
