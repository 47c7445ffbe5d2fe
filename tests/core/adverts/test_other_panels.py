"""What is told of panels that are not sold is no rating of those that are."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
TITLES = {
    "en": "2 used solar panels", "de": "2 gebrauchte Solarmodule", "fr": "2 panneaux solaires d'occasion",
    "es": "2 placas solares usadas", "it": "2 pannelli solari usati", "nl": "2 gebruikte zonnepanelen",
    "pl": "2 używane panele fotowoltaiczne", "cs": "2 použité solární panely", "da": "2 brugte solpaneler",
    "pt": "2 painéis solares usados",
}  # fmt: skip


def reading_of(language, body):
    return read_advert(Advert(title=TITLES[language], body=body), WORDS)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "A bit weaker than a modern 440 W panel. £90 each."),
        ("de", "Vergleichbar mit heutigen 440-W-Modulen. 90 Euro das Stück."),
        ("fr", "Ils remplacent ceux de 250 W sans rien changer. 90 euros pièce."),
        ("es", "Casi igual de buenas que unas de 440 W. 90 euros cada una."),
        ("it", "I nostri nuovi hanno 440 W, questi avanzano. 90 euro l'uno."),
        ("nl", "Wij hebben nu 8 x 440 W op het dak, deze zijn over. 90 euro per stuk."),
        ("pl", "Słabsze od nowych 440 W. 400 zł za sztukę."),
        ("cs", "O něco slabší než dnešní 440 W. 900 Kč za kus."),
        ("da", "Kan erstatte de gamle 250 W paneler. 900 kr. pr. stk."),
        ("pt", "Mais fracos do que os de 440 W de hoje. 90 euros cada."),
        ("en", "The neighbours have 440 W ones, mine are older. £90 each."),
        ("en", "We now have 440 W panels, so the old ones go. £90 each."),
    ],
)
def test_no_power_is_read_from_others(language, body):
    reading = reading_of(language, body)
    assert "rated_power_w" not in reading.panel
    assert reading.quantity_available == 2
    assert reading.price.each is not None


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Not as powerful as my new 440 W ones. These are 300 W each. £90 each."),
        ("de", "Meine neuen haben 440 W, diese sind kleiner. Diese haben je 300 W. 90 Euro das Stück."),
        ("it", "Sostituiscono quelli da 250 W. Questi sono da 300 W ciascuno. 90 euro l'uno."),
    ],
)
def test_their_own_power_is_read_beside_it(language, body):
    reading = reading_of(language, body)
    assert reading.panel["rated_power_w"] == 300
    assert not reading.doubts


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Bigger than they look: 400 W each. £90 each."),
        ("en", "My 400 W panels, as good as new. £90 each."),
        ("de", "Verkaufe meine neuen 400 W Module, diese wurden nie montiert. 90 Euro das Stück."),
        ("de", "Größer als 1,7 m mit 400 W. 90 Euro das Stück."),
        ("es", "Placas grandes que dan 400 W. 90 euros cada una."),
        ("fr", "Mes panneaux font 400 W et marchent comme au premier jour. 90 euros pièce."),
        ("it", "Come nuovi, 400 W, meglio di tanti altri. 90 euro l'uno."),
        ("pl", "Moje panele mają 400 W, zamieniam na większe. 400 zł za sztukę."),
        ("pt", "Os meus painéis têm 400 W e estão como novos. 90 euros cada."),
    ],
)
def test_what_is_said_of_themselves_stays(language, body):
    assert reading_of(language, body).panel["rated_power_w"] == 400
