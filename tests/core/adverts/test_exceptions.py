"""A "no" that is taken back for some pieces tells of damage; one that is for scratches and dust does not."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("5 solar panels 300 W", "No cracks except on two of them. £40 each."),
        ("5 solar panels 300 W", "Apart from two with broken glass there are no faults. £40 each."),
        ("5 Solarmodule 300 W", "Keine Risse außer bei zweien. 40 Euro pro Stück."),
        ("5 Solarmodule 300 W", "Bis auf zwei mit Glasbruch keine Mängel. 40 Euro pro Stück."),
        ("5 panneaux solaires 300 W", "Pas de fissures sauf sur deux. 40 euros pièce."),
        ("5 placas solares 300 W", "Sin grietas salvo en dos. 40 euros cada una."),
        ("5 pannelli solari 300 W", "Nessuna crepa tranne su due. 40 euro l'uno."),
        ("5 zonnepanelen 300 W", "Geen barsten behalve bij twee. 40 euro per stuk."),
        ("5 paneli 300 W", "Poza dwoma z pękniętą szybą bez wad. 40 zł za sztukę."),
        ("5 solárních panelů 300 W", "Bez prasklin kromě dvou. 40 Kč za kus."),
        ("5 solpaneler 300 W", "Bortset fra to med knust glas ingen fejl. 40 kr. pr. stk."),
        ("5 painéis solares 300 W", "Sem fissuras exceto em dois. 40 euros cada."),
    ],
)
def test_a_no_that_is_taken_back_for_some_tells_of_damage(title, body):
    reading = reading_of(body, title)
    assert (reading.defects, reading.condition) == (("cracked_glass",), "unknown")
    assert "part_damaged" in reading.doubts


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("5 solar panels 300 W", "No cracks, except for light scratches on the frame. £40 each."),
        ("5 solar panels 300 W", "No cracks apart from the two I keep. £40 each."),
        ("5 Solarmodule 300 W", "Keine Risse, bis auf ein paar Kratzer am Rahmen wie neu. 40 Euro pro Stück."),
        ("5 panneaux solaires 300 W", "Pas de fissure, sauf un peu de poussière. 40 euros pièce."),
        ("5 placas solares 300 W", "Sin grietas, salvo un arañazo en el marco. 40 euros cada una."),
        ("5 pannelli solari 300 W", "Nessuna crepa, tranne un po' di polvere. 40 euro l'uno."),
        ("5 zonnepanelen 300 W", "Geen barsten, behalve een beetje stof. 40 euro per stuk."),
        ("5 painéis solares 300 W", "Sem fissuras, exceto um risco na moldura. 40 euros cada."),
    ],
)
def test_scratches_and_dust_are_no_damage(title, body):
    reading = reading_of(body, title)
    assert set(reading.defects) <= {"cosmetic"}
    assert reading.condition != "damaged"


def test_half_of_the_pieces_excepted_are_damaged_goods():
    assert reading_of("No cracks except on two of them. £40 each.", "4 solar panels 300 W").condition == "damaged"
