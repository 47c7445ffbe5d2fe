"""What is said of serial numbers, accounts, the back of a panel and the inputs of an inverter."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "2 panels 400 W, £40 each. Serial numbers have been filed off.",
        "2 Module 400 W, je 40 €. Die Seriennummern wurden herausgeschliffen.",
        "2 panelen 400 W, 40 euro per stuk. De serienummers zijn er helaas afgekrast.",
        "2 panneaux 400 W, 40 € pièce. Les numéros de série ont été limés.",
        "2 placas 400 W, 40 € cada una. Los números de serie están raspados.",
        "2 pannelli 400 W, 40 € l'uno. I numeri di serie sono stati grattati via.",
        "2 panele 400 W, 100 zł sztuka. Numery seryjne zostały zeszlifowane.",
        "2 painéis 400 W, 40 € cada. Os números de série foram raspados.",
        "2 panely 400 W, 500 Kč kus. Výrobní čísla jsou vybroušená.",
        "2 paneler 400 W, 200 kr stk. Serienumrene er slebet væk.",
    ],
)
def test_serial_numbers_taken_off_are_a_label_removed_and_no_scratch(body):
    reading = reading_of(body)
    assert (reading.defects, reading.doubts) == ((), ("label_removed",))


@pytest.mark.parametrize(
    "body",
    [
        "2 Module 400 W, je 40 €. Seriennummern sind vorhanden.",
        "2 Module 400 W, je 40 €. Seriennummern sind nicht entfernt.",
        "2 panelen 400 W, 40 euro per stuk. Serienummers zijn goed leesbaar.",
        "2 paneler 400 W, 200 kr stk. Serienumre er tydelige.",
    ],
)
def test_serial_numbers_that_are_there_raise_no_doubt(body):
    assert reading_of(body).doubts == ()


def test_a_scratched_frame_beside_serial_numbers_is_scratched():
    reading = reading_of("2 panels 400 W, £40 each. Serial numbers present, frames scratched.")
    assert (reading.defects, reading.doubts) == (("cosmetic",), ())


@pytest.mark.parametrize(
    ("body", "doubts"),
    [
        ("Wechselrichter 800 W, 40 €. Zahlung vorab auf mein Konto.", ("advance_payment",)),
        ("Mikroinwerter 800 W, 200 zł. Wysyłka po przedpłacie na konto.", ("advance_payment",)),
        ("Měnič 800 W, 900 Kč. Platba předem na účet.", ("advance_payment",)),
        ("Microinversor 800 W, 40 €. Transferencia a mi cuenta.", ()),
        ("Micro-onduleur 800 W, 40 €, compte tenu de son âge.", ()),
        ("Wechselrichter 800 W, 40 €, mit der App steuerbar.", ()),
    ],
)
def test_an_account_that_is_paid_into_binds_nothing(body, doubts):
    assert reading_of(body).doubts == doubts


@pytest.mark.parametrize(
    "body",
    [
        "Wechselrichter 800 W, 40 €. Ist noch im Konto des Vorbesitzers.",
        "Wechselrichter 800 W, 40 €, in der App des Vorbesitzers angemeldet.",
        "Micro inverter 800 W, £40, still paired with the previous owner's app.",
        "Omvormer 800 W, 40 euro, zit nog in de app van de vorige eigenaar.",
        "Microinversor 800 W, 40 €. Sigue en la app del antiguo dueño.",
        "Mikroinverter 800 W, 300 kr, ligger i den forrige ejers app.",
    ],
)
def test_goods_in_the_app_or_account_of_another_are_bound_to_it(body):
    assert reading_of(body).doubts == ("account_bound",)


@pytest.mark.parametrize(
    "body",
    [
        "4 panels 300 W, rear side is cracked",
        "4 Module 300 W, die Rückseite ist leider gerissen",
        "4 panelen 300 W, achterkant is gebarsten",
        "4 panneaux 300 W, l'arrière est fissuré",
        "4 placas 300 W con la trasera algo agrietada",
        "4 pannelli 300 W, lato posteriore crepato",
        "4 panele 300 W, tył popękany",
        "4 painéis 300 W, a traseira está rachada",
        "4 panely 300 W, zadní strana popraskaná",
        "4 paneler 300 W, bagsiden er sprukket",
    ],
)
def test_a_crack_in_the_back_is_none_in_the_glass(body):
    assert reading_of(body).defects == ("backsheet_damage",)


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter 600 W, faulty second input. £20",
        "Wechselrichter 600 W, defekter zweiter Eingang, 20 €",
        "Omvormer 600 W, defecte tweede ingang. 20 euro",
        "Micro-onduleur 600 W, HS sur la deuxième entrée. 20 €",
        "Microinversor 600 W, averiada la segunda entrada. 20 €",
        "Inverter 600 W, guasto il secondo ingresso. 20 €",
        "Mikroinwerter 600 W, uszkodzone drugie wejście. 50 zł",
        "Microinversor 600 W, avariada a segunda entrada. 20 €",
        "Měnič 600 W, nefunkční první vstup, druhý jede. 300 Kč",
        "Mikroinverter 600 W, defekt indgang 2. 100 kr",
    ],
)
def test_a_word_for_dead_before_an_input_is_of_that_input(body):
    assert reading_of(body).defects == ("dead_input",)


def test_a_dead_inverter_of_two_inputs_is_dead():
    assert reading_of("Defekter Wechselrichter mit 2 Eingängen, 600 W, 20 €").defects == ("dead",)
