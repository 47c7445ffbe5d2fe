"""A neighbour's damage and damage that is nowhere are none of the goods'; damage that both have is."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4 solar panels 300 W", "The neighbour's were smashed by the hail, mine are whole. £40 each."),
        ("4 Solarmodule 300 W", "Die vom Nachbarn hat der Hagel zerschlagen, meine sind heil. 40 Euro pro Stück."),
        ("4 Solarmodule 300 W", "Das Glas ist nirgends kaputt. 40 Euro pro Stück."),
        (
            "4 panneaux solaires 300 W",
            "Ceux du voisin ont été brisés par la grêle, les miens sont entiers. 40 euros pièce.",
        ),
        ("4 panneaux solaires 300 W", "Le verre n'est cassé nulle part. 40 euros pièce."),
        ("4 placas solares 300 W", "Las del vecino las rompió el granizo, las mías están enteras. 40 euros cada una."),
        ("4 pannelli solari 300 W", "La grandine ha rotto quelli dei vicini, questi sono interi. 40 euro l'uno."),
        ("4 zonnepanelen 300 W", "Bij de buren heeft hagel alles vernield, bij ons niet. 40 euro per stuk."),
        ("4 zonnepanelen 300 W", "Het glas is nergens kapot. 40 euro per stuk."),
        ("4 panele 300 W", "Panele sąsiada rozbił grad, moje są całe. 40 zł za sztukę."),
        ("4 solární panely 300 W", "Sousedovi je rozbily kroupy, moje jsou celé. 40 Kč za kus."),
        ("4 solpaneler 300 W", "Naboens blev smadret af hagl, mine er hele. 40 kr. pr. stk."),
        (
            "4 painéis solares 300 W",
            "Os do vizinho foram partidos pelo granizo, os meus estão inteiros. 40 euros cada.",
        ),
    ],
)
def test_the_damage_of_others_is_none(title, body):
    reading = reading_of(body, title)
    assert (reading.defects, reading.condition, reading.doubts) == ((), "unknown", ())


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4 solar panels 300 W", "The hail smashed them, like the neighbour's. £40 each."),
        ("4 solar panels 300 W", "Nowhere else cracked, but the glass is broken in one corner. £40 each."),
        ("4 Solarmodule 300 W", "Der Hagel hat meine und die vom Nachbarn zerschlagen. 40 Euro pro Stück."),
        ("4 Solarmodule 300 W", "Das Glas ist gebrochen, sonst nirgends Schäden. 40 Euro pro Stück."),
        ("4 placas solares 300 W", "El granizo las rompió, como las del vecino. 40 euros cada una."),
        ("4 zonnepanelen 300 W", "Door hagel kapot, net als die van de buren. 40 euro per stuk."),
        ("4 solpaneler 300 W", "Haglen smadrede dem, ligesom naboens. Hagl er slemt. 40 kr. pr. stk."),
    ],
)
def test_damage_of_both_is_told(title, body):
    assert reading_of(body, title).condition == "damaged"
