"""Books, courses, calculators and plans are no panels; goods with a guide, or left of a changed plan, stay goods."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panel calculator", "Works out panels, inverter and battery. Instant download £9."),
        ("Guide to solar panels (book)", "Paperback about panels and inverters, good condition, £6."),
        ("Solar-Rechner für Balkonkraftwerk", "Excel-Tabelle zum Berechnen von Modulen und Wechselrichter, 9 €."),
        ("Cursus zonnepanelen leggen", "Leer zelf panelen en omvormer aansluiten. 29 euro."),
        ("Guide panneaux solaires", "Un livre sur les panneaux et onduleurs, 12 €."),
        ("Curso de placas solares", "Aprende a montar placas e inversor, curso online 29 €."),
        ("Corso fotovoltaico", "Corso online su pannelli e inverter, 29 €."),
        ("Kalkulator paneli fotowoltaicznych", "Arkusz do obliczeń paneli i falownika, 19 zł."),
        ("Guia de painéis solares", "E-book sobre painéis e inversores, 9 €."),
        ("Příručka solární panely", "Kniha o solárních panelech a měničích, 190 Kč."),
        ("Kursus i solpaneler", "Online kursus om paneler og invertere, 299 kr."),
    ],
)
def test_what_teaches_or_reckons_is_no_panel(title, body):
    assert reading_of(title, body).kind == "other"


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panel planning service", "I draw your solar panel layout. From £49."),
        ("Planung Photovoltaikanlage", "Ich plane Ihre Anlage mit Modulen und Wechselrichter, ab 49 €."),
        ("Conception d'installation solaire", "Panneaux, onduleur, plans complets, 49 €."),
        ("Progettazione impianto fotovoltaico", "Pannelli e inverter del tuo impianto, 49 €."),
    ],
)
def test_plans_of_a_plant_are_no_offer_of_goods(title, body):
    found = reading_of(title, body)
    assert not found.is_offer
    assert "service" in found.doubts


@pytest.mark.parametrize(
    ("title", "body", "kind"),
    [
        ("Solar panel with installation guide", "400 W, used. £50", "panel"),
        ("Solar panel, used on a training course", "£50, collect", "panel"),
        ("Planning change: 4 solar panels", "Planned roof fell through. £50 each", "panel"),
        ("Planung geändert, Solarmodule 400 W", "4 Stück, je 50 €", "panel"),
        ("Solarmodul mit Anleitung", "Gebraucht, 50 €", "panel"),
        ("Kurz gebrauchtes Solarmodul", "400 W, 50 €", "panel"),
        ("Panneaux solaires livrés", "4 panneaux 400 W, 50 € pièce", "panel"),
        ("Placa solar con guía de montaje", "400 W, 50 €", "panel"),
        ("Pannello solare", "400 W, con guida, avanzo di un corso. 50 €", "panel"),
        ("Solární panel s příručkou", "400 W, 900 Kč", "panel"),
        ("Solpanel med vejledning", "400 W, 300 kr", "panel"),
        ("Micro-onduleur 800 W", "Changement de projet, 60 €", "inverter"),
    ],
)
def test_goods_beside_a_lesson_or_a_plan_stay_goods(title, body, kind):
    found = reading_of(title, body)
    assert (found.kind, found.is_offer) == (kind, True)
