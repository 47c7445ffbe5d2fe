"""Who asks anybody for goods and tells what he pays is a buyer, whatever word he has for parting with them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
BUYERS = (
    "Anybody getting rid of a 300 W panel? I'd pay £45",
    "Does anyone want to sell me two panels 300 W? Budget £80",
    "Möchte jemand sein 300 W Modul loswerden? Zahle 40 Euro",
    "Hat noch jemand ein Modul 300 W abzugeben? Gebe 40 Euro",
    "Wil iemand van zijn zonnepaneel 300 Wp af? Geef 40 euro",
    "Doet iemand een zonnepaneel 300 Wp weg? Ik betaal 40 euro",
    "Quelqu'un se débarrasse d'un panneau 300 W ? Je paie 40 euros",
    "Qui se sépare de son panneau 300 W ? J'offre 40 euros",
    "¿Alguien se deshace de una placa de 300 W? Doy 40 euros",
    "¿Quién me vende una placa de 300 W? Ofrezco 40 euros",
    "Qualcuno si libera di un pannello 300 W? Pago 40 euro",
    "Chi mi vende un pannello da 300 W? Do 40 euro",
    "Kto pozbędzie się panelu 300 W? Zapłacę 150 zł",
    "Czy ktoś odda lub sprzeda panel 300 W? Daję 150 zł",
    "Alguém se quer desfazer de um painel 300 W? Pago 40 euros",
    "Quem me vende um painel 300 W? Ofereço 40 euros",
    "Nechce se někdo zbavit panelu 300 W? Zaplatím 800 Kč",
    "Kdo se zbavuje panelu 300 W? Nabízím 800 Kč",
    "Prodáváte někdo panel 300 W? Dám 800 Kč",
    "Er der nogen, der sælger et panel 300 W? Jeg giver 200 kr",
    "Vil nogen af med et solpanel 300 W? Betaler 200 kr",
    "Hvem skiller sig af med et panel 300 W? Byder 200 kr",
    "Neprodáváte někdo panel 300 W? Dám 800 Kč",
    "Er der nogen der vil af med et panel 300 W? Giver 200 kr",
)
SELLERS = (
    "Anyone want to get rid of high bills? 300 W panel, £40",
    "Wer will Stromkosten loswerden? Verkaufe Modul 300 W, 40 Euro",
    "Chce se někdo zbavit účtů? Prodám panel 300 W, 800 Kč",
    "Vil nogen spare på strømmen? Sælger panel 300 W, 200 kr",
    "Skal af med panel 300 W. 200 kr",
    "Chci se zbavit panelu 300 W, 800 Kč",
    "Who wants to buy a 300 W panel? £40",
    "Kdo chce panel 300 W? 800 Kč",
)


@pytest.mark.parametrize("text", BUYERS)
def test_who_asks_for_goods_and_tells_what_he_pays_offers_nothing(text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert not reading.is_offer
    assert reading.price.value is None


@pytest.mark.parametrize("text", SELLERS)
def test_a_question_before_the_goods_of_a_seller_stays_an_offer(text):
    assert read_advert(Advert(title="", body=text), WORDS).is_offer
