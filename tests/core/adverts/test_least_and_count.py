"""How many must be taken together, and how many panels belong to one set: told only where the text tells it."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title="", language=None):
    return read_advert(Advert(title=title, body=body, language=language), WORDS)


@pytest.mark.parametrize(
    ("body", "least"),
    [
        ("40 Module 430 Wp, neu. 40 € pro Stück, Mindestabnahme 10 Stück.", 10),
        ("40 Module 430 Wp, neu. 40 € pro Stück, nur paarweise.", 2),
        ("40 solar panels, 430 W, new. £40 each, minimum order of 10.", 10),
        ("40 solar panels, 430 W, new. £40 each, pairs only.", 2),
        ("12 zonnepanelen 430 Wp, nieuw. 40 euro per stuk, afname minimaal 4 stuks.", 4),
        ("12 zonnepanelen 430 Wp, nieuw. 40 euro per stuk, alleen per twee.", 2),
        ("20 panneaux 430 Wc neufs, 40 € pièce, minimum 5 panneaux.", 5),
        ("20 panneaux 430 Wc neufs, 40 € pièce, commande minimum : 4 pièces.", 4),
        ("30 placas de 430 W, nuevas, 40 € la unidad, pedido mínimo de 6 unidades.", 6),
        ("30 pannelli da 430 W, nuovi, 40 € l'uno, ordine minimo 10 pezzi.", 10),
        ("30 paneli 430 W, nowe, 190 zł sztuka, minimalne zamówienie 6 sztuk.", 6),
        ("30 painéis de 430 W, novos, 40 € cada, encomenda mínima de 6 unidades.", 6),
        ("30 panelů 430 W, nové, 900 Kč za kus, minimální odběr 6 kusů.", 6),
        ("30 solpaneler 430 W, nye, 300 kr. pr. stk., mindstekøb 6 stk.", 6),
        ("Six used solar panels, 380 W, £30 each, will not split.", 6),
    ],
)
def test_a_least_number_is_read_and_doubted(body, least):
    reading = reading_of(body)
    assert reading.least_quantity == least
    assert "minimum_order" in reading.doubts


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 800 W, MPPT min 22 V, max 60 V, start min 25 V. £50",
        "Microinversor 800 W, tensión mínima MPPT 22 V, mínimo 16 V. 50 €",
        "4 Module 430 Wp, mindestens 10 Jahre Garantie. 40 € pro Stück.",
        "4 solar panels 430 W, at least 20 kg each. £40 each.",
        "4 Module 430 Wp, je 50 €, min. 40 €",
    ],
)
def test_the_lower_end_of_a_rating_is_no_order(body):
    reading = reading_of(body)
    assert reading.least_quantity is None
    assert "minimum_order" not in reading.doubts


def test_an_order_without_a_number_stays_a_doubt():
    reading = reading_of("Solar panels 430 W, new, £40 each. Minimum order applies.")
    assert reading.least_quantity is None
    assert "minimum_order" in reading.doubts


@pytest.mark.parametrize(
    ("body", "count"),
    [
        ("Balkonkraftwerk: zwei Module mit je 430 Wp plus Wechselrichter 800 W. 300 €", 2),
        ("Balkonkraftwerk mit 1 Modul 430 Wp und Wechselrichter 400 W. 200 €", 1),
        ("Balcony kit: two 410 W panels, micro inverter 800 W. £300", 2),
        ("Balcony kit, panels 410 W x 2, micro inverter 800 W. £300", 2),
        ("Set van 2 panelen (430 Wp, bifaciaal) en een 800 W omvormer. 300 euro", 2),
        ("Kit solaire : un panneau 420 Wc et son micro-onduleur 400 W. 230 €", 1),
        ("Kit de balcón: 2 placas de 410 W y microinversor de 800 W. 350 €", 2),
        ("Kit da balcone composto da due moduli da 415 W e microinverter 800 W. 280 €", 2),
        ("Zestaw na balkon: dwa panele po 420 W, mikroinwerter 600 W. 1100 zł", 2),
        ("Kit para varanda: 2 painéis de 435 W, microinversor 800 W. 300 €", 2),
        ("Sada na balkon: dva panely 400 W a mikroměnič 800 W. 6500 Kč", 2),
        ("Altansæt: to paneler på 400 W og en mikroinverter på 800 W. 2200 kr.", 2),
    ],
)
def test_the_panels_of_a_set_are_counted(body, count):
    reading = reading_of(body)
    assert (reading.kind, reading.panel_count) == ("set", count)


@pytest.mark.parametrize(
    "body",
    [
        "Balkonkraftwerk mit Modulen 430 Wp und Wechselrichter 800 W. 300 €",
        "Balcony kit with solar panels 410 W and a micro inverter 800 W. £300",
        "Kit: 2 panels 410 W or 3 panels 410 W with a micro inverter 800 W. £300",
    ],
)
def test_panels_that_nobody_counts_or_twice_are_not_counted(body):
    reading = reading_of(body)
    assert (reading.kind, reading.panel_count) == ("set", None)


def test_panels_alone_have_no_count_of_a_set():
    assert reading_of("Two solar panels 410 W, £40 each").panel_count is None


def test_a_lot_that_is_counted_by_itself_goes_before_all_there_is():
    assert reading_of("10 Module 430 Wp, Verkauf nur als Paket mit 5 Stück, 40 € pro Stück").least_quantity == 5
