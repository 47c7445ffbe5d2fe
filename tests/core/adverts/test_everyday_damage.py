"""Damage in everyday words is told; what sounds alike and is none stays so."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body", "defect"),
    [
        ("2 solar panels 400 W", "Water has got in under the glass. £40 each.", "delamination"),
        ("2 Solarmodule 400 W", "Unter das Glas ist Wasser gekommen. 40 Euro pro Stück.", "delamination"),
        ("2 zonnepanelen 400 W", "Er is water onder het glas gekomen. 40 euro per stuk.", "delamination"),
        ("2 panele 400 W", "Pod szybę dostała się woda. 160 zł za sztukę.", "delamination"),
        ("2 solar panels 400 W", "They work, though the glass of one has a star in it. £40 each.", "cracked_glass"),
        ("2 placas solares 400 W", "El cristal está como una telaraña. 40 euros cada una.", "cracked_glass"),
        ("2 solpaneler 400 W", "Glasset ligner et spindelvæv. 300 kr. pr. stk.", "cracked_glass"),
        ("2 pannelli solari 400 W", "Il vetro di uno ha una stella da sassata. 40 euro l'uno.", "cracked_glass"),
        ("2 solar panels 400 W", "It stopped giving current last winter. £40 each.", "dead"),
        ("2 Solarmodule 400 W", "Seit dem Frühjahr liefern sie nichts mehr. 40 Euro pro Stück.", "dead"),
        ("2 panneaux solaires 400 W", "Ils ne donnent plus rien depuis le printemps. 40 euros pièce.", "dead"),
    ],
)
def test_damage_in_everyday_words_is_told(title, body, defect):
    reading = reading_of(body, title)
    assert (reading.defects, reading.condition) == ((defect,), "damaged")


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("6 solar panels 400 W", "One of them makes only half of what the others do. £40 each."),
        ("6 Solarmodule 400 W", "Eins davon bringt nur die halbe Leistung. 40 Euro pro Stück."),
        ("6 panneaux solaires 400 W", "L'un d'eux ne donne que la moitié de la puissance. 40 euros pièce."),
        ("6 placas solares 400 W", "Una de ellas da solo la mitad de potencia. 40 euros cada una."),
        ("6 pannelli solari 400 W", "Uno dei pannelli rende solo la metà. 40 euro l'uno."),
        ("6 zonnepanelen 400 W", "Eén ervan levert maar de helft. 40 euro per stuk."),
        ("6 paneli 400 W", "Jeden z nich daje tylko połowę mocy. 160 zł za sztukę."),
        ("6 solpaneler 400 W", "Et af dem giver kun det halve. 300 kr. pr. stk."),
        ("6 painéis solares 400 W", "Um deles só dá metade da potência. 40 euros cada."),
    ],
)
def test_a_weak_one_among_several_is_told_as_damage_of_some(title, body):
    reading = reading_of(body, title)
    assert (reading.defects, reading.condition) == ((), "unknown")
    assert "part_damaged" in reading.doubts


def test_a_weak_one_of_two_is_half_of_the_goods():
    assert reading_of("One of the two makes only half. £40 each.", "2 solar panels 400 W").condition == "damaged"


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("2 solar panels 400 W", "In winter one gives only half of what it gives in summer. £40 each."),
        ("2 solar panels 400 W", "One gives half of our electricity. £40 each."),
        ("2 solar panels 400 W", "On an overcast day one gives half. £40 each."),
        ("2 panneaux solaires 400 W", "Par temps gris un panneau ne donne que la moitié. 40 € pièce."),
        ("2 pannelli solari 400 W", "Col cielo coperto uno dà solo la metà. 40 € l'uno."),
        ("2 panele 400 W", "W pochmurny dzień jeden daje tylko połowę. 150 zł sztuka."),
        ("2 solar panels 400 W", "Rain water runs off the glass. £40 each."),
        ("2 solar panels 400 W", "No water under the glass, no star in the pane. £40 each."),
        ("2 solar panels 400 W", "They never stopped giving power. £40 each."),
        ("2 Solarmodule 400 W", "Die zwei bringen die Hälfte unseres Stroms. 40 Euro pro Stück."),
        ("2 Solarmodule 400 W", "Eins kostet nur die Hälfte vom Neupreis. 40 Euro pro Stück."),
        ("2 Solarmodule 400 W", "Es gibt nichts mehr zu tun. 40 Euro pro Stück."),
        ("2 panneaux solaires 400 W", "Pas d'eau sous le verre, pas d'impact. 40 euros pièce."),
        ("2 zonnepanelen 400 W", "Geen vocht onder het glas. 40 euro per stuk."),
        ("2 pannelli solari 400 W", "A metà prezzo. 40 euro l'uno."),
    ],
)
def test_what_sounds_alike_is_no_damage(title, body):
    reading = reading_of(body, title)
    assert (reading.defects, reading.condition, reading.doubts) == ((), "unknown", ())
