"""A broken fence, roof or box is no damage to panels; what else is said of broken ones in everyday words is."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def condition(body):
    return read_advert(Advert(title="", body=body), WORDS).condition


@pytest.mark.parametrize(
    "body",
    [
        "4 Solarmodule 400 W, je 50 €. Zaun kaputt, deshalb kommen die Module weg.",
        "4 Solarmodule 400 W, je 50 €. Beim Sturm ist das Dach kaputt gegangen, Module laufen.",
        "Panel 400 W, £50. Box crushed and damaged. Panel works.",
        "4 solar panels 400 W £50 each. Broken fence, so they have to go.",
        "Zonnepaneel 400 Wp 20 euro. Kapot dak dus weg ermee",
        "4 placas solares 400 W a 50 € cada una. La valla está rota, por eso las vendo.",
        "4 pannelli 400 W, 50 € l'uno. Scatola rotta, pannelli perfetti.",
        "4 panele 400 W po 200 zł za sztukę. Dach uszkodzony, panele sprawne.",
        "4 panely 400 W, 1500 Kč za kus. Rozbitý plot, proto je prodávám.",
        "4 solcellepaneler 400 W, 400 kr. stk. Hegnet er gået i stykker, så de skal væk.",
        "Solar panel 400 W, £40. Gives no current at night of course.",
    ],
)
def test_another_thing_is_broken(body):
    assert condition(body) == "unknown"


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 400 W £50. Fell off the roof and cracked",
        "Solarmodul 400 W 20 €. Vom Dach gefallen, kaputt",
        "Panneau 400 W 20 €. Le verre est cassé, le carton aussi",
        "Solar panel 400 W, £20. Gives no current.",
        "Solarmodul 400 W, 20 €. Liefert leider keinen Strom.",
        "Zonnepaneel 400 Wp, 20 euro. Wekt niets meer op.",
        "Panneau solaire 400 W, 20 €. Une cellule brûlée.",
        "Placa solar 400 W, 20 €. Tiene una célula quemada.",
        "Pannello solare 400 W, 20 €. Non dà più corrente.",
        "Panel fotowoltaiczny 400 W, 80 zł. Nie daje prądu.",
        "Painel solar 400 W, 20 €. Vidro rebentado.",
        "Solární panel 400 W, 500 Kč. Voda pod sklem.",
        "Solcellepanel 400 W, 150 kr. Giver ikke strøm mere.",
        "Solar panel 400 W, £20. For spares only",
    ],
)
def test_panels_themselves_are_broken(body):
    assert condition(body) == "damaged"


@pytest.mark.parametrize(
    "body",
    [
        "2 panels 400 W, £20 each. Spares only, never needed",
        "2 zonnepanelen 400 Wp, 50 euro per stuk. Als reserve gekocht, nooit nodig gehad.",
        "2 panneaux 400 W, 50 € pièce. Achetés en rechange, jamais servis.",
        "2 placas 400 W, 50 € cada una. Compradas como repuesto, nunca hicieron falta",
        "2 pannelli 400 W, 50 € l'uno. Comprati come scorta, mai serviti",
        "2 panely 400 W, 1500 Kč za kus. Koupené jako rezerva, nikdy nepotřeba",
        "2 paneler 400 W, 400 kr. stk. Købt som reserve, aldrig brug for dem",
    ],
)
def test_spare_ones_that_were_not_needed_are_unused(body):
    assert condition(body) == "unused"
