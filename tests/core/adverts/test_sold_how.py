"""How goods on offer are sold does not tell that they are gone."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
FOUR_ON_OFFER = (
    "4 panels 300 W sold without connectors, £160 for all",
    "4 panels 300 W, will be sold on Saturday, £160 for all",
    "Es werden 4 Module 300 W verkauft, 160 € zusammen",
    "Verkauft werden 4 Module 300 W, 160 € zusammen",
    "Er worden 4 panelen 300 W verkocht, samen 160 euro",
    "4 panneaux 300 W vendus cause déménagement, 160 € le lot",
    "4 panneaux 300 W vendus en bloc, 160 € le lot",
    "4 placas 300 W vendidas sin cables, 160 € todas",
    "Vengono venduti 4 pannelli da 300 W, 160 € il lotto",
    "Sprzedane będą 4 panele 300 W, 600 zł za całość",
    "São vendidos 4 painéis de 300 W, 160 € o lote",
    "4 panely 300 W budou prodány dohromady, 4000 Kč",
    "Der bliver solgt 4 paneler 300 W, 1600 kr. samlet",
)
INVERTER_GONE = (
    "4 panels 300 W £40 each. The inverter will not be sold",
    "Kit: 4 panels 300 W, inverter 800 W. Inverter won't be sold. £160",
    "4 panels 300 W £40 each, inverter sold separately",
    "4 Module 300 W je 40 €. Der Wechselrichter ist verkauft worden",
    "4 Module 300 W je 40 €. Der Wechselrichter wird separat verkauft",
    "4 panelen 300 W 40 euro per stuk. De omvormer is verkocht",
    "4 panneaux 300 W 40 € pièce. L'onduleur est vendu",
    "4 pannelli 300 W 40 € l'uno. Inverter venduto separatamente",
    "4 painéis 300 W 40 € cada. O inversor é vendido à parte",
    "4 paneler 300 W 400 kr. stk. Inverteren bliver ikke solgt",
)
SETS = (
    "2 panels 400 W sold with inverter 800 W, £250",
    "Kit 2 panneaux 400 W et onduleur 800 W vendu complet 250 €",
    "2 Module 400 W werden mit Wechselrichter 800 W verkauft, 250 €",
)


@pytest.mark.parametrize("text", FOUR_ON_OFFER)
def test_goods_that_are_being_sold_are_on_offer(text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert (reading.kind, reading.is_offer, reading.quantity_available) == ("panel", True, 4)
    assert not {"sold", "nothing_described"} & set(reading.doubts)


@pytest.mark.parametrize("text", INVERTER_GONE)
def test_an_inverter_that_is_sold_or_kept_is_gone(text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert (reading.kind, reading.quantity_available) == ("panel", 4)


@pytest.mark.parametrize("text", SETS)
def test_what_is_sold_with_another_makes_a_set(text):
    assert read_advert(Advert(title="", body=text), WORDS).kind == "set"
