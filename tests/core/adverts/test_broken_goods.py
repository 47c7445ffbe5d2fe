"""A panel that is said to be broken, or sold for its parts, is damaged; not one beside which another thing broke."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "Broken 400 W solar panel, £10",
        "Solar panel 400 W. Broken. £10",
        "My 410W panel is broken, £15",
        "Micro inverter 800 W, sold for spares or repair, £20",
        "Solarmodul 400 W mit Schaden, 20 Euro",
        "Solarmodul 400 W für Bastler, 10 Euro",
        "Modul 410 W defekt 15 €",
        "Zonnepaneel 400 W, stuk, 20 euro",
        "Omvormer 800 W is stuk, 15 euro",
        "Panneau solaire 400 W, cassé, 20 €",
        "Micro-onduleur 800 W pour pièces 15 €",
        "Placa solar 400 W, no funciona, 20 €",
        "Placa 400 W para piezas 10 €",
        "Due pannelli 400 W rotti 10 euro",
        "Inverter 800 W per pezzi di ricambio 10 euro",
        "Mikroinwerter 800 W na części 50 zł",
        "Panel fotowoltaiczny 400 W uszkodzony, 50 zł",
        "Painel solar 400 W com defeito, 20 €",
        "Solární panel 400 W poškozený, 300 Kč",
        "Mikroměnič 800 W na díly 200 Kč",
        "Solpanel 400 W i stykker, 100 kr.",
        "Solpanel 400 W til reservedele 50 kr.",
    ],
)
def test_broken_goods_are_damaged(body):
    reading = read(body)
    assert (reading.condition, reading.defects) == ("damaged", ("dead",))


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 400 W, £40, nothing broken",
        "4 panels 400 W, not broken, just surplus. £40 each",
        "Panel 400 W, unbroken, £40",
        "Solar panel 400 W, box broken, glass whole, £40",
        "2 panels 400 W £40 each. Some clamps are broken",
        "4 panels 400 W for parts of a roof that never got built. £50 each",
        "Panels 400 W £40. Record broken: 2 kWh on the first day!",
        "Solarmodul 400 W, ideal für Bastler mit Gartenhaus, voll funktionsfähig, 40 Euro",
        "Solarmodul 400 W, 40 Euro. Verpackung beschädigt",
        "Zonnepanelen 400 W, 10 stuks, stuk 40 euro",
        "3 zonnepanelen 410 W. Drie stuk. 40 euro per stuk",
        "Zonnepaneel 400 W, 40 euro het stuk",
        "Panelen 400 W, prijs 30 euro per\nstuk, alle acht 200 euro",
        "Gebruikte panelen 400 W, 50 euro stuk, ophalen",
        "Solarmodul 400 W für Bastler und Heimwerker, neu, 40 Euro",
        "Painel 400 W para peças de exposição, 40 €",
        "Panels 400 W taken down because the roof was damaged. £40 each",
        "The old inverter is broken, so I sell the panels: 4 x 400 W, £40 each",
        "Mon onduleur est cassé, je vends 4 panneaux 400 W, 40 € pièce",
        "4 Module 400 W, weil mein Wechselrichter kaputt ist, je 40 Euro",
        "Panneau solaire 400 W, prix cassé, 40 €",
        "Placa solar 400 W, nada roto, 40 €",
        "Scatola danneggiata, pannello 400 W integro, 40 euro",
        "Panel 400 W, opakowanie uszkodzone, 200 zł",
        "Painel 400 W, nada partido, 40 €",
        "Panel 400 W bez vad 1200 Kč",
        "Solpaneler 400 W i 4 stykker, 300 kr. stk.",
    ],
)
def test_what_broke_beside_them_or_not_at_all_damages_nothing(body):
    reading = read(body)
    assert (reading.kind, reading.condition == "damaged", reading.defects) == ("panel", False, ())


def test_a_finer_defect_says_what_broke():
    reading = read("3 broken panels, 270 W, glass cracked on all of them. £20 each")
    assert (reading.condition, reading.defects) == ("damaged", ("cracked_glass",))


def test_a_damaged_corner_is_a_mark():
    reading = read("2 solar panels 400 W, one corner damaged in shipping, £40 each.")
    assert (reading.condition, reading.defects) == ("unknown", ("cosmetic",))


def test_one_of_several_that_is_broken_damages_a_part():
    reading = read("4 panels 400 W, one is broken, £30 each")
    assert (reading.condition, "part_damaged" in reading.doubts) == ("unknown", True)


@pytest.mark.parametrize(
    "body",
    [
        "800 W micro inverter, works. My old inverter was broken, replaced since. £60",
        "Panneau 400 W, pour remplacer un panneau cassé. 50 €", "Placa 400 W para sustituir una placa rota. 50 €",
    ],
)  # fmt: skip
def test_what_the_goods_are_for_and_what_was_before_them_may_be_broken(body):
    found = read(body)
    assert (found.condition, found.defects) == ("unknown", ())
