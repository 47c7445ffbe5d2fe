"""Codes, cartons, neighbours and left-over goods are no defects and no use; one of several is no whole lot."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("HS-410-54M panel", "£60"),
        ("Modul HS 410", "410W 60 €"),
        ("Panel HS400", "400W £60"),
        ("Panel 400W", "Krabice prasklá, sklo celé. 1000 Kč"),
        ("Panel 400W", "Karton pęknięty, szkło całe. 200 zł"),
        ("Panel 400W", "Box cracked, glass intact. £40"),
        ("Panel 400W", "One of the neighbours' panels cracked. Mine are perfect. £50"),
        ("Modul 400W", "Beim Nachbarn sind Module gesprungen, meine sind einwandfrei. 50 €"),
        ("Panel 400W", "No hot spots, no burn marks. £50"),
        ("Hot spot protected panel 400W", "Half-cut cells against hot spots, £50"),
    ],
)
def test_of_the_goods_no_defect_is_told(title, body):
    found = reading_of(title, body)
    assert (found.defects, found.condition) == ((), "unknown")


@pytest.mark.parametrize(
    ("title", "body", "defect"),
    [
        ("Onduleur HS", "Onduleur 600 W HS, pour pièces, 10 €", "dead"),
        ("Onduleur HS 600 W", "à réparer, 5 €", "dead"),
        ("Panel 400W", "Sklo prasklé, krabice celá. 200 Kč", "cracked_glass"),
        ("Panel 400W", "Glass is not intact, cracked. £5", "cracked_glass"),
        ("Modul 400W", "Rahmen heil, Glas gesprungen, 10 €", "cracked_glass"),
        ("Panel 250W", "Neighbour's ball cracked the glass. £5", "cracked_glass"),
        ("Panel 400W", "Burn mark on the back. £20", "backsheet_damage"),
        ("Modul 400W", "Brandstelle auf der Rückseite. 20 €", "backsheet_damage"),
        ("Panneau 400W", "Traces de brûlure au dos. 20 €", "backsheet_damage"),
    ],
)
def test_of_the_goods_a_defect_is_told(title, body, defect):
    found = reading_of(title, body)
    assert (found.defects, found.condition) == ((defect,), "damaged")


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panneaux 250W", "6 panneaux dont un avec verre cassé, 150 € le tout"),
        ("Placas", "5 placas 400 W, 4 de ellas perfectas y una con el cristal rajado, 200 €"),
        ("Placas 300 W", "6 placas 300 W, una rota, 120 € todo"),
        ("6 Module 300W", "6 Module, eins mit gesprungenem Glas, 120 €"),
    ],
)
def test_one_of_several_is_broken(title, body):
    found = reading_of(title, body)
    assert found.condition == "unknown"
    assert found.defects
    assert "part_damaged" in found.doubts


@pytest.mark.parametrize(
    ("title", "body", "condition"),
    [
        ("6x PV 415W", "Module 415 W, nagelneu, vom Carport übrig, 70 € das Stück", "new"),
        ("Kit varanda", "Kit para varanda novo, 2 painéis 410 W e microinversor 800 W, 400 €", "new"),
        ("Module 400W", "Vom Carport abgebaut, 30 €/Stück", "used"),
        ("Placas 400W", "Llevan un año montadas. 50 € cada una", "used"),
        ("Placas 300 W", "10 placas 300 W, la mayoría rotas, 50 € todo", "damaged"),
    ],
)
def test_condition(title, body, condition):
    assert reading_of(title, body).condition == condition
