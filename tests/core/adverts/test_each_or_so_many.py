"""One price for a piece and one for a counted number of them: which is the price of one, whatever the field holds?"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
EACH_OR_ALL = (  # 6 pieces: what one costs, what all cost
    (40, 200, "£40 each, £200 for the 6"),
    (40, 200, "40 € das Stück, 200 € für 6"),
    (40, 200, "40 euro per stuk of 200 euro voor 6"),
    (40, 200, "40 € pièce ou 200 € les 6."),
    (40, 200, "40 € cada una o 200 € las 6."),
    (40, 200, "40 € l'uno oppure 200 € i 6"),
    (150, 800, "150 zł sztuka lub 800 zł za 6."),
    (40, 200, "40 € a unidade ou 200 € pelos 6"),
    (900, 5000, "900 Kč kus nebo 5000 Kč za 6"),
    (300, 1600, "300 kr. stk. eller 1600 kr. for 6"),
)


@pytest.mark.parametrize("of_all", [True, False])
@pytest.mark.parametrize(("each", "together", "text"), EACH_OR_ALL)
def test_the_price_of_all_is_never_that_of_one(each, together, text, of_all):
    field = str(together if of_all else each)

    reading = read_advert(Advert(title="6 x 330 W solar panel", body=text, price_text=field), WORDS)

    assert reading.price.each in {each, round(together / 6, 4)}
    assert "price_conflict" not in reading.doubts


def test_the_price_of_some_beside_that_of_one_is_left_out():
    reading = read_advert(Advert(title="8 panneaux 330 W", body="25 € pièce ou 90 € les 4.", price_text="25 €"), WORDS)

    assert reading.price.each == 25
