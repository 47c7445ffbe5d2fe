"""A line that may be of two languages is read in both; damage in any of them is told, and no language is made up."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.core.adverts.language import tied_languages
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "condition"),
    [
        ("Panel 400 W usado 30 €", "used"),
        ("Placa solar 400 W, no funciona, 20 €", "damaged"),
        ("Modul 400 W defekt 30 €", "damaged"),
        ("Inverter 800 W guasto 20 €", "damaged"),
        ("Panel 400 W roto", "damaged"),
        ("Painel 400 W novo", "new"),
        ("Inverter 800 W 60 €", "unknown"),
        ("Modul 400 W nicht defekt 30 €", "unknown"),
    ],
)
def test_the_condition_is_read_in_any_of_them(body, condition):
    assert reading_of(body).condition == condition


def test_a_limit_told_in_words_of_two_languages_is_read():
    reading = reading_of("Microinversor 800 W limitado a 600 W")
    assert (reading.inverter, reading.language) == ({"ac_power_w": 600}, "und")
    assert "output_limited" in reading.doubts


def test_languages_tie_where_their_words_weigh_alike():
    spanish, portuguese = WORDS.languages.index("es"), WORDS.languages.index("pt")
    assert spanish != portuguese
    word = next(word for word in ("usado", "limitado") if word in WORDS.telling)
    assert {"es", "pt"} <= set(tied_languages({word: WORDS.telling[word]}, {}, WORDS))
    assert tied_languages({}, {}, WORDS) == ()
    told = {word: WORDS.telling[word] for word in ("gebraucht", "verkaufe", "und") if word in WORDS.telling}
    assert tied_languages(told, {}, WORDS) == ()


def test_a_language_that_is_told_is_the_only_one_that_is_read():
    advert = Advert(title="", body="Panel 400 W usado 30 €", language="de")
    assert read_advert(advert, WORDS).condition == "unknown"
