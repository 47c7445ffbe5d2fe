"""Equal sets, rests of more, frames and broken things beside panels, inches, phrases that begin with a figure."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panels 370 W", "3 sets of 4 (=12), £100 a set"),
        ("Module 370 W", "3 Sätze à 4 Module (= 12), Satz 100 €"),
        ("Zonnepanelen 370 Wp", "3 sets van 4 panelen, 100 euro per set"),
        ("Pannelli 370 W", "3 set da 4 (=12), 100 € a set"),
        ("Paneler 370 W", "3 sæt á 4 (=12), 100 kr pr. sæt"),
    ],
)
def test_equal_sets_are_multiplied_and_the_price_of_one_set_is_divided(title, body):
    reading = reading_of(title, body)
    assert reading.quantity_available == 12
    assert (reading.price.value, reading.price.each) == (100, 25)


def test_of_equal_lots_nobody_knows_whether_one_or_all_are_priced():
    reading = reading_of("Panneaux 370 W", "3 lots de 4 panneaux (=12), 100 € le lot")
    assert (reading.quantity_available, reading.price.each) == (12, None)


def test_numbers_beside_sets_that_make_no_product_are_not_multiplied():
    assert reading_of("Panels 370 W", "3 sets, 4 panels").quantity_available != 12
    assert reading_of("Balcony kit 2 x 370 W with inverter", "2 kits of 2 panels").quantity_available != 4
    assert reading_of("Panels 370 W", "3 of 4 (=12 kg)").quantity_available != 12


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panels 370 W", "7 left of the 16, £20 each"),
        ("Module 370 W", "noch 7 von 16 übrig, je 20 €"),
        ("Zonnepanelen 370 Wp", "nog 7 over van de 16, 20 euro per stuk"),
        ("Panneaux 370 W", "il m'en reste 7 sur les 16, 20 € pièce"),
    ],
)
def test_what_is_left_of_more_counts(title, body):
    assert reading_of(title, body).quantity_available == 7


def test_some_that_have_faults_are_not_what_is_left():
    assert reading_of("16 zonnepanelen 370 Wp", "nog 2 van de 16 kapot glas, 20 euro per stuk").quantity_available == 16


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("8 panels 260 W", "frames are 2100 x 1150, 40 kg each frame. £20 each"),
        ("8 Module 260 W", "Gestelle 2100 x 1150 mm, je Gestell 40 kg. Je 20 €"),
        ("8 zonnepanelen 260 Wp", "frames 2100 x 1150 mm en 40 kg. 20 euro per stuk"),
    ],
)
def test_size_and_weight_of_frames_are_not_those_of_a_panel(title, body):
    assert not {"length_mm", "width_mm", "weight_kg"} & set(reading_of(title, body).panel)


def test_inches_are_read_in_small_letters_as_in_great_ones():
    body = "66 in x 40 in, 41 lb"
    small, great = reading_of("Panels 270 W", body).panel, reading_of("Panels 270 W", body.upper()).panel
    assert small == great
    assert small["length_mm"] == pytest.approx(66 * 25.4)
    assert "length_mm" not in reading_of("12 panels 270 W", "6 in the shed, 40 in the barn").panel


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel 120 W", "charge controller faulty, panel works. £20"),
        ("Panel 120 W", "mounting bracket broken. £20"),
        ("Panneau 120 W", "régulateur de charge HS, panneau ok. 20 €"),
        ("Placa 120 W", "regulador de carga estropeado, la placa funciona. 20 €"),
        ("Pannello 120 W", "regolatore di carica guasto, pannello ok. 20 €"),
        ("Panel 120 W", "regulator ładowania uszkodzony, panel sprawny. 90 zł"),
        ("Painel 120 W", "controlador de carga avariado, painel funciona. 20 €"),
        ("Panel 120 W", "regulátor nabíjení nefunguje, panel v pořádku. 500 Kč"),
        ("Panel 120 W", "laderegulator defekt, panelet virker. 150 kr"),
    ],
)
def test_a_broken_thing_beside_is_no_fault_of_the_panel(title, body):
    reading = reading_of(title, body)
    assert "dead" not in reading.defects
    assert reading.condition != "damaged"


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panneau 120 W avec régulateur", "panneau HS. 5 €"),
        ("Placa 120 W con regulador", "la placa está estropeada. 5 €"),
        ("Solarmodul 120 W mit Laderegler", "Modul defekt. 5 €"),
    ],
)
def test_a_dead_panel_stays_dead_beside_a_controller(title, body):
    assert "dead" in reading_of(title, body).defects


@pytest.mark.parametrize(
    ("title", "body"),
    [("Panel 270 W", "2nd hand, £20"), ("Zonnepaneel 270 Wp", "2e hands, 20 euro"), ("Panneau 270 W", "2e main, 20 €")],
)
def test_a_phrase_may_begin_with_a_figure(title, body):
    reading = reading_of(title, body)
    assert (reading.condition, reading.price.value) == ("used", 20)


def test_an_inverter_for_a_battery_is_doubted_by_its_volts():
    for title in ("12v inverter 1000 W", "24 V Wechselrichter 1000 W", "12v omvormer 1000 W"):
        assert "off_grid_inverter" in reading_of(title, "40 euro").doubts
    assert "off_grid_inverter" not in reading_of("Inverter 800 W", "12 panels on it, £40").doubts
