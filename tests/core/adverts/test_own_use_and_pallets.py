"""What the seller put up or keeps is not on offer; a price by the pallet is that of what stands on one of them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "4 solar panels for sale, 400 W, £60 each. I've put 12 panels on my own roof.",
        "Verkaufe 4 Solarmodule 400 W für je 60 €. Ich habe 12 Module auf mein Dach gebaut.",
        "Te koop: 4 zonnepanelen 400 Wp, 60 euro per stuk. Ik heb zelf 12 panelen op mijn dak gelegd.",
        "4 panneaux solaires 400 W à vendre, 60 € pièce. J'ai mis 12 panneaux sur mon toit.",
        "Vendo 4 placas solares de 400 W a 60 € cada una. Tengo 12 placas montado yo mismo puse en mi tejado.",
        "Vendo 4 pannelli da 400 W a 60 € l'uno. Ne ho 12 pannelli montati sul mio tetto.",
        "Sprzedam 4 panele 400 W po 250 zł za sztukę. Mam 12 paneli, zamontowałem je na swoim dachu.",
        "Vendo 4 painéis solares 400 W a 60 € cada. Tenho 12 painéis que montei no meu telhado.",
        "Prodám 4 solární panely 400 W, 1500 Kč za kus. Mám 12 panelů, dal jsem je na svou střechu.",
        "4 solcellepaneler 400 W sælges, 400 kr. stk. Jeg har sat 12 paneler op på mit tag.",
    ],
)
def test_panels_on_the_sellers_own_roof_are_not_on_offer(body):
    assert read(body).quantity_available == 4


@pytest.mark.parametrize(
    "body",
    [
        "I have 20 solar panels 400 W in all. I keep 12 of them. £50 each.",
        "Insgesamt habe ich 20 Solarmodule 400 W. Davon behalte ich 12 selbst. Je 50 €.",
        "Ik heb 20 zonnepanelen van 400 Wp. 12 houd ik zelf. 50 euro per stuk.",
        "J'ai 20 panneaux solaires 400 W. J'en garde 12. 50 € pièce.",
        "Tengo 20 placas solares de 400 W. Me quedo con 12. 50 € cada una.",
        "Ho 20 pannelli solari da 400 W. Ne tengo 12 per me. 50 € l'uno.",
        "Mam 20 paneli 400 W. 12 zostawiam sobie. 200 zł za sztukę.",
        "Tenho 20 painéis solares de 400 W. Fico com 12. 50 € cada.",
        "Mám 20 solárních panelů 400 W. 12 si nechám. 1500 Kč za kus.",
        "Jeg har 20 solcellepaneler 400 W. De 12 beholder jeg selv. 400 kr. pr. stk.",
    ],
)
def test_pieces_kept_in_a_sentence_of_their_own_are_not_on_offer(body):
    assert read(body).quantity_available == 8


@pytest.mark.parametrize(
    ("body", "on_offer"),
    [
        ("Ik heb 12 zonnepanelen op mijn dak gelegd, 4 jaar terug. 400 Wp, 60 euro per stuk.", 12),
        ("We put 12 solar panels on our roof in 2015 and now sell all of them, 400 W, £60 each.", 12),
        ("J'ai mis les 12 panneaux sur palette. 400 W, 60 € pièce.", 12),
        ("I have 20 solar panels 400 W, £50 each. I keep them in my garage.", 20),
        ("Ich habe 20 Solarmodule 400 W, Stück 50 €. Ich behalte mir 2 Tage Bedenkzeit vor.", 20),
        ("4 panels 400 W for sale, £50 each. I keep 12 for myself.", 4),
        ("20 panels 400 W for sale, £50 each. I am keeping 12.", 20),
    ],
)
def test_what_is_sold_stays_counted(body, on_offer):
    assert read(body).quantity_available == on_offer


@pytest.mark.parametrize(
    "body",
    [
        "62 solar panels 400 W on 2 pallets, 1500 € a pallet.",
        "62 Solarmodule 400 W auf 2 Paletten, 1500 € pro Palette.",
        "62 zonnepanelen 400 Wp op 2 pallets, 1500 euro per pallet.",
        "2 palettes, 62 panneaux solaires 400 W au total. 1500 € par palette.",
        "62 placas solares de 400 W en 2 palés, 1500 € cada palé.",
        "62 pannelli fotovoltaici 400 W su 2 bancali, 1500 € a bancale.",
        "62 panele fotowoltaiczne 400 W na 2 paletach, 1500 zł za paletę.",
        "62 painéis solares 400 W em 2 paletes, 1500 € por palete.",
        "62 solárních panelů 400 W na 2 paletách, 1500 Kč za paletu.",
        "62 solcellepaneler 400 W på 2 paller, 1500 kr. pr. palle.",
        "2 pallets met samen 62 zonnepanelen 400 Wp. Per pallet 1500 euro.",
        "2 pallets of 31 solar panels, 400 W, 1500 € a pallet.",
        "62 solar panels 400 W on 2 pallets, 3000 € for all.",
        "62 solar panels 400 W on 2 pallets, 3000 € for both pallets.",
        "62 Module 400 W auf 2 Paletten. Eine Palette ist noch verpackt. 3000 € für alles.",
        "31 panneaux solaires 400 W sur une palette, 1500 € la palette.",
    ],
)
def test_a_pallet_costs_what_stands_on_it(body):
    assert read(body).price.each == pytest.approx(1500 / 31, abs=0.001)


def test_who_keeps_a_pallets_price_apart_is_read_by_the_piece():
    reading = read("62 zonnepanelen 400 Wp op 2 pallets, 48 euro per stuk.")
    assert (reading.quantity_available, reading.price.each) == (62, 48)
