"""Ratings of the panels that hung on an inverter are no limits of it, and an inverter's limits no panel's ratings."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
LIMITS = {"max_current_a", "max_short_circuit_current_a", "max_input_voltage_v"}


def reading(language, title, body):
    return read_advert(Advert(title=title, body=body, language=language), WORDS)


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Micro inverter 800W", "My panels were 37 V Voc 9.2 A Isc and it ran them happily."),
        ("en", "Micro inverter 800W", "I had two panels with Voc 41 V and Isc 11 A connected to it."),
        ("en", "Micro inverter 800W", "Used with two 410 W panels, 37 V Voc / 13.9 A Isc."),
        ("de", "Wechselrichter 800 W", "Nur den Wechselrichter, die Module (37 V, 13,9 A Kurzschluss) behalte ich."),
        ("de", "Wechselrichter 800 W", "Bei mir hingen 2 Module mit je 41 V und 10 A dran."),
        ("nl", "Omvormer 800 W", "Mijn panelen hadden Voc 41 V en Isc 11 A, dat ging prima."),
        ("fr", "Onduleur 800 W", "Mes panneaux : Voc 41 V, Isc 11 A."),
        ("es", "Microinversor 800 W", "Mis placas eran de 41 V y 11 A de cortocircuito."),
        ("it", "Microinverter 800 W", "Andava con due pannelli da 41 V e 11 A di corto circuito."),
        ("pl", "Mikroinwerter 800 W", "Moje panele miały Voc 41 V, Isc 11 A i działał dobrze."),
        ("pt", "Microinversor 800 W", "Os meus painéis tinham Voc 41 V e Isc 11 A."),
        ("cs", "Mikroměnič 800 W", "Panely (Voc 41 V, Isc 11 A) si nechávám."),
        ("da", "Mikroinverter 800 W", "Mine paneler havde Voc 41 V og Isc 11 A, det gik fint."),
    ],
)
def test_ratings_of_the_sellers_panels_are_no_limits(language, title, body):
    found = reading(language, title, body)
    assert found.kind == "inverter"
    assert not LIMITS & found.inverter.keys()


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Micro inverter 800W", "Suitable for 2 panels, max Voc 60 V, max Isc 18 A."),
        ("en", "Micro inverter 800W", "Max Voc 60 V, Isc max 18 A. My panels went to my brother."),
        ("de", "Wechselrichter 800 W", "Max. 60 V DC, Kurzschlussstrom max. 18 A. Meine Module behalte ich."),
        ("nl", "Omvormer 800 W", "Geschikt voor 2 panelen, max 60 V, kortsluitstroom 18 A."),
        ("fr", "Onduleur 800 W", "Pour 2 panneaux, tension max 60 V, Icc max 18 A."),
        ("es", "Microinversor 800 W", "Máx 60 V, Icc máx 18 A. Mis placas ya están vendidas."),
        ("it", "Microinverter 800 W", "Max 60 V, Isc max 18 A. I miei pannelli li tengo."),
    ],
)
def test_limits_for_panels_are_the_inverters(language, title, body):
    found = reading(language, title, body).inverter
    assert (found["max_input_voltage_v"], found["max_short_circuit_current_a"]) == (60, 18)


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Solar panel 410W", "Voc 37.4 V. Will work with inverter Isc limit 18 A."),
        ("de", "Solarmodul 410 W", "Voc 37,4 V, passt an Wechselrichter mit max. Kurzschlussstrom 18 A."),
        ("nl", "Zonnepaneel 410 W", "Voc 37,4 V. Past op omvormer met kortsluitstroom tot 18 A."),
        ("fr", "Panneau solaire 410 W", "Voc 37,4 V. Compatible avec un onduleur Isc max 18 A."),
        ("es", "Placa solar 410 W", "Voc 37,4 V. Compatible con inversor de Isc máx 18 A."),
    ],
)
def test_what_an_inverter_bears_is_no_rating_of_a_panel(language, title, body):
    found = reading(language, title, body).panel
    assert found["open_circuit_voltage_v"] == 37.4
    assert "short_circuit_current_a" not in found


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Solar panel 410W", "My panels are Voc 37.4 V, Isc 13.9 A."),
        ("en", "Solar panel 410W", "Works with any micro inverter. Voc 37.4 V, Isc 13.9 A."),
        ("de", "Solarmodul 410 W", "Voc 37,4 V, Isc 13,9 A, Wechselrichter nicht dabei."),
        ("fr", "Panneau solaire 410 W", "Fonctionne avec un onduleur. Voc 37,4 V, Isc 13,9 A."),
    ],
)
def test_ratings_beside_an_inverter_stay_the_panels(language, title, body):
    found = reading(language, title, body).panel
    assert (found["open_circuit_voltage_v"], found["short_circuit_current_a"]) == (37.4, 13.9)


@pytest.mark.parametrize(
    ("language", "title", "body"),
    [
        ("en", "Micro inverter 800W", "AC max current 3.5 A, max 5 units per string 20 A."),
        ("en", "Micro inverter 800W", "Max 3 units per 12AWG branch."),
        ("en", "Micro inverter 800W", "Up to 6 units on one trunk cable."),
        ("de", "Wechselrichter 800 W", "Maximal 7 Stück pro 25 A Strang."),
        ("nl", "Omvormer 800 W", "Max. 5 stuks per groep van 16 A."),
        ("fr", "Onduleur 800 W", "Courant AC max 3,5 A, max 5 unités par branche 20 A."),
        ("es", "Microinversor 800 W", "Máx 5 unidades por rama de 20 A."),
        ("it", "Microinverter 800 W", "Massimo 5 unità per ramo da 20 A."),
        ("pl", "Mikroinwerter 800 W", "Maks. 5 sztuk na gałąź 20 A."),
        ("pt", "Microinversor 800 W", "Máx. 5 unidades por ramal 20 A."),
        ("cs", "Mikroměnič 800 W", "Max. 5 kusů na větev 20 A."),
        ("da", "Mikroinverter 800 W", "Maks. 5 stk. pr. gruppe 20 A."),
    ],
)
def test_what_one_wire_carries_is_neither_a_count_nor_a_limit(language, title, body):
    found = reading(language, title, body)
    assert found.kind == "inverter"
    assert found.quantity_available in {None, 1}
    assert not LIMITS & found.inverter.keys()


@pytest.mark.parametrize(
    ("language", "title", "body", "pieces"),
    [
        ("en", "Micro inverter 800W", "3 units each with cable, max input current 14 A. £60 each", 3),
        ("de", "Wechselrichter 800 W", "2 Stück mit je 5 m Kabel, Eingangsstrom max. 14 A. 70 € je Stück", 2),
        ("it", "Microinverter 800 W", "2 pezzi con cavo, corrente max 14 A per ingresso. 60 € l'uno", 2),
    ],
)
def test_pieces_with_cables_are_counted(language, title, body, pieces):
    found = reading(language, title, body)
    assert (found.quantity_available, found.inverter["max_current_a"]) == (pieces, 14)
