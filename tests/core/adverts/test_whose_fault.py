"""Whose fault is told: that of the goods, of another thing that is not sold, or one that only may come?"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "4 solar panels 330 W, £25 each. The inverter packed up and we moved to gas.",
        "4 solar panels 330 W, my inverter stopped working, £25 each.",
        "4 solar panels 330 W for sale because of a dead inverter, £25 each.",
        "4 solar panels 330 W, £25 each. My van broken down, so collection only.",
        "4 solar panels 330 W, £25 each, money back if faulty.",
        "4 Solarmodule 330 W, 25 € je Stück. Unser Wechselrichter ist leider defekt, deshalb kommt alles weg.",
        "4 Solarmodule 330 W wegen kaputtem Wechselrichter abzugeben, 25 € je Stück.",
        "4 Solarmodule 330 W, 25 € je Stück, Transporter kaputt, bitte abholen.",
        "4 zonnepanelen 330 W, 25 euro per stuk. Mijn omvormer is kapot.",
        "4 zonnepanelen 330 W, 25 euro per stuk, geld terug indien defect.",
        "4 panneaux 330 W, suite à panne de l'onduleur, 25 € pièce.",
        "4 panneaux 330 W, 25 € pièce. L'onduleur est hors service, je revends le reste.",
        "4 placas de 330 W, 25 € cada una. El inversor no funciona y no compro otro.",
        "4 pannelli da 330 W, 25 € l'uno. Il mio inverter è guasto.",
        "4 panele 330 W, mój falownik nie działa, 100 zł sztuka.",
        "4 panele 330 W, 100 zł sztuka. Mój falownik jest uszkodzony.",
        "4 painéis de 330 W, 25 € cada. O meu inversor está avariado.",
        "4 panely 330 W, 500 Kč kus. Můj střídač je nefunkční.",
        "4 panely 330 W, 500 Kč kus. Shořel nám měnič.",
        "4 solpaneler 330 W, 200 kr stykket. Min vekselretter er defekt.",
    ],
)
def test_a_fault_of_what_is_not_sold_is_none_of_the_panels(body):
    reading = reading_of(body)
    assert (reading.kind, reading.quantity_available, reading.condition, reading.defects) == ("panel", 4, "unknown", ())


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 500 W, beyond 55 V it is dead. £30",
        "Mikrowechselrichter 500 W, oberhalb von 55 V ist er kaputt. 30 €",
        "Micro-omvormer 500 W, boven de 55 V is hij stuk. 30 euro",
        "Micro-onduleur 500 W, au-delà de 55 V il est mort. 30 €",
        "Microinversor 500 W, por encima de 55 V no funciona. 30 €",
        "Microinverter 500 W, oltre 55 V è bruciato. 30 €",
        "Mikroinwerter 500 W, powyżej 55 V nie działa. 120 zł",
        "Microinversor 500 W, acima de 55 V fica queimado. 30 €",
        "Mikroměnič 500 W, nad 55 V je mrtvý. 700 Kč",
        "Mikroinverter 500 W, over 55 V er den død. 200 kr",
    ],
)
def test_what_kills_an_inverter_is_its_limit_and_no_fault(body):
    reading = reading_of(body)
    assert (reading.condition, reading.defects) == ("unknown", ())
    assert reading.inverter["max_input_voltage_v"] == 55


@pytest.mark.parametrize(
    "body",
    [
        "Inverter 1500 W 12 V, does not feed the grid. £90",
        "Wechselrichter 1500 W 12 V, speist nicht ins Netz. 90 €",
        "Inversor 1500 W 12 V, no se conecta a la red. 90 €",
        "Inversor 1500 W 12 V, não liga à rede. 90 €",
        "Inverter 1500 W 12 V, non si collega alla rete. 90 €",
        "Měnič 1500 W 12 V, nedodává do sítě. 1500 Kč",
    ],
)
def test_what_does_not_feed_the_grid_is_not_dead(body):
    reading = reading_of(body)
    assert (reading.condition, reading.defects) == ("unknown", ())
    assert "off_grid_inverter" in reading.doubts


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 330 W, tried on my inverter and does not work. £5",
        "Micro inverter 500 W for one panel, faulty. £5",
        "Solarmodul 330 W, am Wechselrichter geprüft und tot. 5 €",
        "Wechselrichter 500 W für ein Modul, defekt. 5 €",
        "Panneau 330 W testé avec mon onduleur, ne fonctionne pas. 5 €",
        "Zonnepaneel 330 W, getest op mijn omvormer, doet het niet. 5 euro",
        "Painel 330 W, não funciona. 5 €",
    ],
)
def test_a_fault_of_the_goods_stays_theirs(body):
    reading = reading_of(body)
    assert (reading.condition, reading.defects) == ("damaged", ("dead",))


def test_an_inverter_of_which_one_input_is_dead_is_not_dead():
    reading = reading_of("Defekt mikroinverter 800 W, en indgang virker ikke. 50 kr")
    assert (reading.condition, reading.defects) == ("damaged", ("dead_input",))


def test_a_reason_beside_an_inverter_that_is_sold_leaves_it_sold():
    for body in (
        "Wegen Umzug Wechselrichter 800 W und 2 Module 430 W abzugeben, 200 €",
        "Due to moving, inverter 800 W and 2 panels 430 W, £200",
    ):
        assert reading_of(body).kind == "set"
