"""Panels whose seller looks for an inverter are panels; goods that look for a buyer stay a set."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# Panels, with what is looked for; a set that looks for a buyer.
TEXTS = {
    "en": ("2 solar panels 400 W, £60 each, and I'm looking for an inverter of 800 W.",
           "Two panels and an inverter 800 W looking for a new home, £160."),
    "de": ("2 Solarmodule 400 W, 60 Euro pro Stück, und ich suche einen Wechselrichter mit 800 W.",
           "Zwei Module und ein Wechselrichter 800 W suchen neuen Besitzer, 160 Euro."),
    "fr": ("2 panneaux solaires 400 W, 60 euros pièce, et je cherche un onduleur de 800 W.",
           "Deux panneaux et un onduleur 800 W cherchent preneur, 160 euros."),
    "es": ("2 placas solares 400 W, 60 euros cada una, y busco un inversor de 800 W.",
           "Dos placas y un inversor de 800 W buscan dueño, 160 euros."),
    "it": ("2 pannelli solari 400 W, 60 euro l'uno, e cerco un inverter da 800 W.",
           "Due pannelli e un inverter da 800 W cercano casa, 160 euro."),
    "nl": ("2 zonnepanelen 400 W, 60 euro per stuk, en ik zoek een omvormer van 800 W.",
           "Twee panelen en een omvormer 800 W zoeken een nieuwe eigenaar, 160 euro."),
    "pl": ("2 panele 400 W, 260 zł za sztukę, i szukam inwertera 800 W.",
           "Dwa panele i inwerter 800 W szukają nowego właściciela, 700 zł."),
    "cs": ("2 panely 400 W, 1500 Kč za kus, a hledám střídač 800 W.",
           "Dva panely a střídač 800 W hledají nového majitele, 4000 Kč."),
    "da": ("2 solpaneler 400 W, 450 kr. pr. stk., og jeg søger en inverter på 800 W.",
           "To paneler og en inverter 800 W søger nyt hjem, 1200 kr."),
    "pt": ("2 painéis solares 400 W, 60 euros cada, e procuro um inversor de 800 W.",
           "Dois painéis e um inversor 800 W procuram dono, 160 euros."),
}  # fmt: skip
KITS = {"en": "Balcony kit", "de": "Balkonkraftwerk", "fr": "Kit solaire balcon", "pl": "Zestaw balkonowy"}


@pytest.mark.parametrize("language", TEXTS)
def test_an_inverter_that_is_looked_for_makes_no_set(language):
    head, _, tail = TEXTS[language][0].partition(", ")
    found = read_advert(Advert(title=head, body=tail), WORDS)
    assert (found.kind, found.is_offer, dict(found.inverter)) == ("panel", True, {})
    assert found.panel["rated_power_w"] == 400.0


@pytest.mark.parametrize("language", TEXTS)
def test_goods_that_look_for_a_buyer_are_sold_together(language):
    found = read_advert(Advert(title="", body=TEXTS[language][1]), WORDS)
    assert (found.kind, found.is_offer) == ("set", True)


@pytest.mark.parametrize("language", KITS)
def test_a_title_that_names_a_set_does_not_bring_the_inverter_back(language):
    found = read_advert(Advert(title=KITS[language], body=TEXTS[language][0]), WORDS)
    assert (found.kind, found.is_offer) == ("panel", True)


@pytest.mark.parametrize("body", ["Suche Wechselrichter für zwei Module. Zahle 60 Euro.",
                                  "Looking for an inverter for two panels, up to £60."])  # fmt: skip
def test_who_looks_for_an_inverter_alone_offers_nothing(body):
    found = read_advert(Advert(title="", body=body), WORDS)
    assert (found.kind, found.is_offer) == ("inverter", False)
