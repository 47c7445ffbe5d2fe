"""Who takes, needs or pays for some buys; who gives some away, takes a price or needs room sells."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panels 300-400 W", "I'd take two off your hands for £40 each."),
        ("Solar panels 300-400 W", "Need two for my shed, £40 each is what I can spend."),
        ("Solar panels 300-400 W", "If you are selling two of these, message me. I pay £40 each."),
        ("Solarmodule 300-400 W", "Ich würde zwei Stück für je 40 Euro abnehmen."),
        ("Solarmodule 300-400 W", "Wer zwei davon verkauft, bitte melden. Ich zahle 40 Euro pro Stück."),
        ("Solarmodule 300-400 W", "Hat jemand zwei davon herumliegen? Gebe gern 40 Euro pro Stück."),
        ("Panneaux solaires 300-400 W", "J'en prendrais deux à 40 euros pièce."),
        ("Placas solares 300-400 W", "Me llevaría dos a 40 euros cada una."),
        ("Pannelli solari 300-400 W", "Me ne servono due per la casetta, posso spendere 40 euro l'uno."),
        ("Zonnepanelen 300-400 W", "Heb er twee nodig voor mijn schuur, kan 40 euro per stuk uitgeven."),
        ("Zonnepanelen 300-400 W", "Twee panelen nodig, 40 euro per stuk."),
        ("Panele 300-400 W", "Wziąłbym dwa po 40 zł za sztukę."),
        ("Solární panely 300-400 W", "Vzal bych si dva po 40 Kč za kus."),
        ("Solpaneler 300-400 W", "Jeg vil gerne overtage to for 40 kr. pr. stk."),
        ("Painéis solares 300-400 W", "Ficava com dois a 40 euros cada."),
    ],
)
def test_who_takes_or_needs_some_buys(title, body):
    reading = reading_of(body, title)
    assert (reading.kind, reading.is_offer, reading.doubts) == ("panel", False, ("wanted_ad",))


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4 solar panels 300 W", "I'd take £40 each. All work."),
        ("4 solar panels 300 W", "You need two for a balcony, I have four. £40 each."),
        ("4 solar panels 300 W", "Looking for someone who can use them. £40 each."),
        ("4 solar panels 300 W", "I need two for my shed, the rest are £40 each."),
        ("6 solar panels 300 W", "I take two, the rest £40 each."),
        ("Solarmodule 300 W", "Ich würde zwei Stück auch einzeln abgeben, je 40 Euro."),
        ("4 Solarmodule 300 W", "Wer braucht sie? Ich suche Platz. 40 Euro pro Stück."),
        ("4 Solarmodule 300 W", "Wer zwei nimmt, bekommt sie für je 40 Euro."),
        ("4 panneaux solaires 300 W", "Qui en veut ? Je cherche de la place. 40 euros pièce."),
        ("4 placas solares 300 W", "Quien se lleve dos paga 40 euros por cada una."),
        ("4 pannelli solari 300 W", "Chi ne prende due paga 40 euro l'uno."),
        ("4 zonnepanelen 300 W", "Ik heb er zelf twee nodig, de rest gaat weg. 40 euro per stuk."),
        ("4 panele 300 W", "Kto weźmie dwa, płaci 40 zł za sztukę."),
        ("4 solární panely 300 W", "Kdo si vezme dva, zaplatí 40 Kč za kus."),
        ("4 solpaneler 300 W", "De søger et nyt tag. 40 kr. pr. stk."),
        ("4 painéis solares 300 W", "Preciso do espaço na garagem. 40 euros cada."),
    ],
)
def test_who_gives_some_or_needs_room_sells(title, body):
    assert reading_of(body, title).is_offer


@pytest.mark.parametrize(
    ("title", "body", "offers"),
    [
        ("Solarmodule 400 W - Suche", "Bis 50 Euro pro Stück, funktionsfähig.", False),
        ("Solar panels 400 W - wanted", "Up to £50 each.", False),
        ("Zonnepanelen 400 W - gezocht", "Tot 50 euro per stuk.", False),
        ("Solarmodule 400 W - Suche neuen Besitzer", "50 € je Stück", True),
    ],
)
def test_a_title_may_end_with_the_word_for_wanted(title, body, offers):
    assert read_advert(Advert(title=title, body=body), WORDS).is_offer == offers
