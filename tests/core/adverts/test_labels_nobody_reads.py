"""A label on a frame that nobody can read any more is missed; one of a box, or one that can be read, is not."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def lacks_label(body):
    return "missing_label" in read_advert(Advert(title="", body=body), WORDS).defects


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 410 W. Frame sticker unreadable. £40",
        "Solar panel 410 W. The sticker on the frame can no longer be read. £40",
        "Solarmodul 410 W. Typenschild nicht lesbar. 40 €",
        "Solarmodul 410 W. Das Typenschild ist kaum noch zu lesen. 40 €",
        "Zonnepaneel 410 W. Sticker op het kader onleesbaar. 40 euro",
        "Panneau solaire 410 W. Autocollant sur le cadre effacé. 40 €",
        "Placa solar 410 W. Pegatina del marco ilegible. 40 €",
        "Pannello solare 410 W. Adesivo sulla cornice illeggibile. 40 €",
        "Panel fotowoltaiczny 410 W. Naklejka na ramie nieczytelna. 160 zł",
        "Painel solar 410 W. Autocolante da moldura ilegível. 40 €",
        "Solární panel 410 W. Štítek na rámu nejde přečíst. 900 Kč",
        "Solpanel 410 W. Typeskiltet kan ikke aflæses. 300 kr",
    ],
)
def test_a_label_that_nobody_can_read_is_missed(body):
    assert lacks_label(body)


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 410 W. Frame sticker readable. £40",
        "Solar panel 410 W. Old stickers scraped off the frame. £40",
        "Solar panel 410 W. Price sticker unreadable. £40",
        "Solarmodul 410 W. Rahmen verkratzt, Typenschild gut lesbar. 40 €",
        "Solarmodul 410 W. Preisaufkleber nicht lesbar. 40 €",
        "Zonnepaneel 410 W. Typeplaatje op het frame goed leesbaar. 40 euro",
        "Panneau solaire 410 W. Étiquette du carton illisible. 40 €",
        "Placa solar 410 W. Pegatina del marco legible. 40 €",
        "Pannello solare 410 W. Etichetta della scatola illeggibile. 40 €",
        "Panel fotowoltaiczny 410 W. Naklejka na ramie czytelna. 160 zł",
        "Painel solar 410 W. Etiqueta legível. 40 €",
        "Solární panel 410 W. Štítek na rámu čitelný. 900 Kč",
        "Solpanel 410 W. Mærkat læselig. 300 kr",
    ],
)
def test_a_label_that_can_be_read_or_is_another_is_not(body):
    assert not lacks_label(body)
