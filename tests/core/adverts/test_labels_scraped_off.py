"""A rating plate that is scraped or torn off is a label removed; a price sticker or a scratched one is none."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
REMOVED = (
    "Panel 300 W £40, rating plate scraped off.",
    "Panel 300 W £40, the type label has been cut away.",
    "Modul 300 W 40 Euro, Typenschild weggekratzt.",
    "Modul 300 W 40 Euro, jemand hat das Typenschild abgezogen.",
    "Paneel 300 W 40 euro, typeplaatje eraf gehaald.",
    "Panneau 300 W 40 €, plaque signalétique grattée.",
    "Placa 300 W 40 €, etiqueta raspada.",
    "Vendo placa 300 W por 40 €. Le han quitado la etiqueta.",
    "Pannello 300 W 40 €, targhetta raschiata via.",
    "Panel 300 W 150 zł, tabliczka znamionowa zdrapana.",
    "Painel 300 W 40 €, etiqueta raspada.",
    "Panel 300 W 1000 Kč, štítek je seškrábaný.",
    "Panel 300 W 400 kr, typeskiltet er revet af.",
)
THERE = (
    "Panel 300 W £40, old paint scraped off the frame.",
    "Panel 300 W £40, a scratched sticker on the frame",
    "Modul 300 W 40 Euro, Preisetikett abgerissen.",
    "Modul 300 W 40 Euro, vom Dach abgenommen, Typenschild vorhanden.",
    "Paneel 300 W 40 euro, prijssticker eraf gehaald.",
    "Panel 300 W 1000 Kč, cenovka odstraněna, štítek je na místě.",
    "Panel 300 W 400 kr, prismærkat revet af.",
)


@pytest.mark.parametrize("text", REMOVED)
def test_a_plate_that_is_scraped_off_is_removed(text):
    reading = read_advert(Advert(title="", body=text), WORDS)
    assert "label_removed" in reading.doubts
    assert reading.condition != "damaged"


@pytest.mark.parametrize("text", THERE)
def test_what_is_scraped_beside_it_is_none(text):
    assert "label_removed" not in read_advert(Advert(title="", body=text), WORDS).doubts
