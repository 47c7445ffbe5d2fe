"""Figures of real conditions are no ratings beside those of the label."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
BOTH = (
    "Panel 300 W, £40. At real-world conditions Voc 37.0 V. Label Voc 39.5 V.",
    "Panel 300 W, £40. Voc 37.0/39.5 V (NOCT/STC).",
    "Panel 300 W, £40. Voc 39.5/37.0 V (STC/NOCT).",
    "Modul 300 W, 40 Euro. Unter realen Bedingungen Voc 37,0 V. Laut Typenschild Voc 39,5 V.",
    "Paneel 300 W, 40 euro. In de praktijk Voc 37,0 V. Volgens het label Voc 39,5 V.",
    "Panneau 300 W, 40 €. En conditions réelles Voc 37,0 V. Étiquette : Voc 39,5 V.",
    "Placa 300 W, 40 €. En condiciones reales Voc 37,0 V. Etiqueta: Voc 39,5 V.",
    "Pannello 300 W, 40 €. In condizioni reali Voc 37,0 V. Targhetta: Voc 39,5 V.",
    "Panel 300 W, 150 zł. W warunkach rzeczywistych Voc 37,0 V. Na tabliczce Voc 39,5 V.",
    "Painel 300 W, 40 €. Em condições reais Voc 37,0 V. Na etiqueta Voc 39,5 V.",
    "Panel 300 W, 1000 Kč. V reálných podmínkách Voc 37,0 V. Na štítku Voc 39,5 V.",
    "Panel 300 W, 400 kr. Under virkelige forhold Voc 37,0 V. Mærkeplade: Voc 39,5 V.",
    "Panel 300 W £40. Tested in real conditions: all fine. Voc 39.5 V",
)


@pytest.mark.parametrize("text", BOTH)
def test_the_rating_is_that_of_the_label(text):
    assert read_advert(Advert(title="", body=text), WORDS).panel["open_circuit_voltage_v"] == 39.5
