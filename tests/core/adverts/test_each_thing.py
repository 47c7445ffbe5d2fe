"""What every piece has is no price of one: "je 3 Bypassdioden", "3 diodes each, £100"."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# What one costs, or None; the title; the text.
THINGS = (
    (60, "4 panels 400 W", "two leads each, 3 diodes each. £240 for all four"),
    (60, "4 panels 400 W", "each has 3 scratches. £60 each"),
    (None, "4 panels 400 W", "21 kg each, £200"),
    (60, "Microinverter 800 W", "2 inputs, 1 panel each. £60"),
    (70, "4 Module 400 W", "je 3 Bypassdioden. 70 € pro Stück"),
    (60, "Mikrowechselrichter 800 W", "2 Eingänge mit jeweils 1 MPPT. 60 €"),
    (50, "4 panelen 400 Wp", "per stuk 3 krassen, samen 200 euro"),
    (50, "4 panneaux 400 W", "3 diodes chacun, 200 € le tout"),
    (50, "4 placas 400 W", "cada una 4 tornillos, 200 € todo"),
    (50, "4 pannelli 400 W", "2 graffi ciascuno, 200 € tutto"),
    (200, "4 paneli 400 W", "po 3 diody każdy, razem 800 zł"),
    (50, "4 painéis 400 W", "3 riscos cada um, tudo 200 €"),
    (1000, "4 panely 400 W", "každý 2 kabely, 1000 Kč za kus"),
    (400, "4 paneler 400 W", "hver 3 ridser, samlet 1600 kr."),
)
AMOUNTS = (
    (60, "4 panels 400 W", "60 each"),
    (60, "4 panels 400 W", "each 60 ono"),
    (60, "4 Module 400 W", "je 60 abzugeben"),
    (60, "4 panelen 400 Wp", "60 per stuk ophalen"),
    (400, "4 paneler 400 W", "400 pr stk"),
)


@pytest.mark.parametrize(("each", "title", "text"), THINGS)
def test_what_every_piece_has_is_no_price(each, title, text):
    assert read_advert(Advert(title=title, body=text), WORDS).price.each == each


@pytest.mark.parametrize(("each", "title", "text"), AMOUNTS)
def test_figures_without_a_currency_beside_each_stay_prices(each, title, text):
    assert read_advert(Advert(title=title, body=text), WORDS).price.each == each
