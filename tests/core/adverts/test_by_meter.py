"""What a meter or a test has shown is no rating; what the label says beside it is."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
PANELS = {"en": "Solar panel 410 W", "de": "Solarmodul 410 W", "nl": "Zonnepaneel 410 W",
          "fr": "Panneau solaire 410 W", "es": "Placa solar 410 W", "it": "Pannello solare 410 W",
          "pl": "Panel fotowoltaiczny 410 W", "pt": "Painel solar 410 W", "cs": "Solární panel 410 W",
          "da": "Solpanel 410 W"}  # fmt: skip
VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"


def reading(language, body):
    found = read_advert(Advert(title=PANELS[language], body=body, language=language), WORDS)
    assert found.kind == "panel"
    return found


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Voc 36.1 V Isc 7.8 A (tested today, cloudy)."),
        ("en", "Tested at 36.2 V and 8.1 A."),
        ("en", "I measured Voc 36.1 and Isc 8.7 in autumn sun."),
        ("de", "Getestet: Leerlauf 36 V, Kurzschluss 7,8 A."),
        ("de", "Getestet mit 36,2 V und 8,1 A."),
        ("nl", "Getest: Voc 36,1 V, Isc 7,8 A, bewolkt."),
        ("fr", "Voc 36,1 V, Isc 7,8 A (testé hier, temps couvert)."),
        ("es", "Comprobadas una a una: Voc 36,1 V, Isc 7,8 A."),
        ("it", "Testati: Voc 36,1 V, Isc 7,8 A."),
        ("pl", "Przetestowany: Voc 36,1 V, Isc 7,8 A."),
        ("pt", "Testado: 36,1 V em aberto e 7,8 A em curto."),
        ("cs", "Odzkoušeno: naprázdno 36,1 V, nakrátko 7,8 A."),
        ("da", "Testet: tomgang 36,1 V, kortslutning 7,8 A."),
    ],
)
def test_what_a_test_has_shown_is_no_rating(language, body):
    found = reading(language, body)
    assert not {VOC, ISC} & found.panel.keys()
    assert "measured_not_rated" in found.doubts


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Tested and working. Voc 37.4 V, Isc 13.9 A."),
        ("en", "Voc 37.4 V, Isc 13.9 A, all tested."),
        ("de", "Module geprüft, Daten: Voc 37,4 V, Isc 13,9 A."),
        ("nl", "Getest, werkt goed. Voc 37,4 V, Isc 13,9 A."),
        ("fr", "Panneaux testés. Caractéristiques : Voc 37,4 V, Isc 13,9 A."),
        ("es", "Voc 37,4 V, Isc 13,9 A. Comprobadas, ven a verlas hoy."),
        ("it", "Testati e funzionanti, Voc 37,4 V, Isc 13,9 A."),
        ("pl", "Sprawdzone, sprawne. Voc 37,4 V, Isc 13,9 A."),
        ("pt", "Testados, a funcionar. Voc 37,4 V, Isc 13,9 A."),
        ("cs", "Vyzkoušené, funkční. Voc 37,4 V, Isc 13,9 A."),
        ("da", "Testet og virker. Voc 37,4 V, Isc 13,9 A."),
    ],
)
def test_ratings_of_tested_panels_stay(language, body):
    found = reading(language, body)
    assert (found.panel[VOC], found.panel[ISC]) == (37.4, 13.9)
    assert "measured_not_rated" not in found.doubts


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Label says Isc 13.8 A, I measured 11 A."),
        ("en", "Measured Isc 11 A, label says 13.8 A."),
        ("de", "Isc laut Label 13,8 A, gemessen 11 A."),
        ("nl", "Isc volgens label 13,8 A, gemeten 11 A."),
        ("fr", "Isc 13,8 A selon l'étiquette, mesuré 11 A."),
        ("es", "Según etiqueta Isc 13,8 A, medido 11 A."),
        ("it", "Isc da etichetta 13,8 A, misurato 11 A."),
        ("cs", "Podle štítku Isc 13,8 A, naměřeno 11 A."),
    ],
)
def test_what_the_label_says_beside_a_reading_is_the_rating(language, body):
    assert reading(language, body).panel[ISC] == 13.8


def test_a_label_behind_a_reading_takes_its_name():
    assert reading("de", "Leerlauf 37,5 V gemessen, laut Label 37,9 V.").panel[VOC] == 37.9
    assert reading("it", "Voc misurata 36,5 V, sulla targhetta 37,9 V.").panel[VOC] == 37.9


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Label: Voc 37.5 V, Isc 13.9 A (tested)."),
        ("de", "Laut Typenschild Voc 37,5 V, Isc 13,9 A (geprüft)."),
        ("de", "Voc 37,5 V, Isc 13,9 A laut Datenblatt (getestet)."),
        ("nl", "Volgens label Voc 37,5 V, Isc 13,9 A (getest)."),
        ("fr", "Selon l'étiquette Voc 37,5 V, Isc 13,9 A (testé)."),
        ("es", "En la etiqueta pone Voc 37,5 V, Isc 13,9 A (comprobado)."),
        ("it", "Da etichetta Voc 37,5 V, Isc 13,9 A (testato)."),
        ("pl", "Według tabliczki Voc 37,5 V, Isc 13,9 A (sprawdzony)."),
        ("pt", "Na etiqueta diz Voc 37,5 V, Isc 13,9 A (verificado)."),
        ("cs", "Na štítku Voc 37,5 V, Isc 13,9 A (vyzkoušeno)."),
        ("da", "På mærkaten står Voc 37,5 V, Isc 13,9 A (testet)."),
    ],
)
def test_behind_what_a_label_says_tested_takes_no_rating_away(language, body):
    found = reading(language, body)
    assert (found.panel[VOC], found.panel[ISC]) == (37.5, 13.9)
    assert "measured_not_rated" not in found.doubts


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Voc 36.1 V, Isc 7.8 A (tested)."),
        ("en", "No label. Voc 36.1 V, Isc 7.8 A (tested)."),
        ("de", "Typenschild fehlt, Voc 36,1 V, Isc 7,8 A (getestet)."),
        ("de", "Laut Label 410 W, Voc 36,1 V, Isc 7,8 A (getestet)."),
        ("de", "Laut Label 410 W, Voc 36,1 V, Isc 7,8 A (heute getestet)."),
        ("nl", "Geen label, Voc 36,1 V, Isc 7,8 A (getest)."),
        ("fr", "Étiquette illisible, Voc 36,1 V, Isc 7,8 A (testé)."),
        ("it", "Etichetta illeggibile, Voc 36,1 V, Isc 7,8 A (testato)."),
        ("cs", "Štítek chybí, Voc 36,1 V, Isc 7,8 A (odzkoušeno)."),
    ],
)
def test_without_a_label_that_tells_them_tested_figures_are_readings(language, body):
    assert not {VOC, ISC} & reading(language, body).panel.keys()
