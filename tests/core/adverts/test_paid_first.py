"""Money before the goods, in wordings that no list holds: "first" beside a word for paying, then sending."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
PAID_FIRST = (
    "Panel 300 W, £45. You pay first, I post the same day.",
    "Panel 300 W, £45. First the money by transfer, then it goes by courier.",
    "Panel 300 W, £45. A £20 deposit will hold it for you.",
    "Modul 300 W, 45 €. Erst das Geld, dann verschicke ich.",
    "Modul 300 W, 45 €. Anzahlung von 20 € hält es fest.",
    "Paneel 300 Wp, 45 euro. Eerst het geld overmaken, daarna wordt het verzonden.",
    "Panneau 300 W, 45 €. D'abord vous payez, ensuite j'envoie.",
    "Panneau 300 W, 45 €. Le virement d'abord puis expédition.",
    "Placa 300 W, 45 €. Primero la transferencia, después el envío.",
    "Placa 300 W, 45 €. El pago primero y te la mando por correo.",
    "Pannello 300 W, 45 €. Prima paghi, poi spedisco.",
    "Pannello 300 W, 45 €. Prima mi mandi i soldi, poi spedizione.",
    "Panel 300 W, 150 zł. Najpierw pieniądze, potem wysyłka.",
    "Panel 300 W, 150 zł. Najpierw przelew, wysyłam następnego dnia.",
    "Painel 300 W, 45 €. Primeiro pagas e depois envio.",
    "Painel 300 W, 45 €. Primeiro transferes o dinheiro, depois envio pelo correio.",
    "Panel 300 W, 900 Kč. Nejdřív převod, potom zašlu.",
    "Panel 300 W, 900 Kč. Nejprve peníze na účet, pak poštou.",
    "Panel 300 W, 300 kr. Først betaler du, så sender jeg.",
    "Panel 300 W, 300 kr. Pengene først, derefter forsendelse.",
    "Panel 300 W, £40. Deposit of £10 holds it.",
    "Placa 300 W, 40 €. Primero el dinero y luego la envío.",
    "Painel 300 W, 40 €. Primeiro a transferência, depois envio.",
    "Panel 300 W, 800 Kč. Nejdřív peníze na účet, pak pošlu.",
)
PAID_LATER = (
    "Panel 300 W, £45. First come first served, cash on collection.",
    "Panel 300 W, £45. First look, then pay on pickup.",
    "Modul 300 W, 45 €. Erst ansehen, dann bezahlen bei Abholung.",
    "Modul 300 W, 45 €. Zahlung bei Abholung, kein Versand.",
    "Modul 300 W, 45 €. Bezahlung erst bei Abholung.",
    "Paneel 300 Wp, 45 euro. Eerst komen kijken, betalen bij ophalen.",
    "Panneau 300 W, 45 €. Paiement à la remise, d'abord vous regardez",
    "Placa 300 W, 45 €. Primero lo ves y luego pagas al recoger.",
    "Pannello 300 W, 45 €. Prima lo vedi, pagamento al ritiro.",
    "Panel 300 W, £45. No deposit needed, will hold it.",
    "Panel 300 W, £45. No need to pay first, I send it cash on delivery.",
    "Panel 300 W, 150 zł. Najpierw oglądasz, płatność przy odbiorze.",
    "Panel 300 W, 300 kr. Først til mølle, betaling ved afhentning.",
    "Panel 300 W, 900 Kč. Platba až při převzetí, nejdřív si ho prohlédnete.",
)


@pytest.mark.parametrize("text", PAID_FIRST)
def test_money_before_the_goods_is_doubted_and_binds_them_to_no_account(text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert "advance_payment" in reading.doubts
    assert ("account_bound" in reading.doubts, reading.condition) == (False, "unknown")


@pytest.mark.parametrize("text", PAID_LATER)
def test_a_look_before_the_money_raises_no_doubt(text):
    assert "advance_payment" not in read_advert(Advert(title="", body=text), WORDS).doubts
