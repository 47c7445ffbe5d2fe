"""A figure that the seller takes back in the same breath does not count; the one in its place does."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
LIMIT, INPUT, SHORT = "max_input_voltage_v", "max_current_a", "max_short_circuit_current_a"


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("body", "volts"),
    [
        ("Micro inverter 600 W, used. Maximum input voltage 60 V, apologies, 50 V. £60.", 50),
        ("Micro inverter 600 W, used. Maximum input voltage 60 V, sorry, 55 V, no wait, 50 V. £60.", 50),
        ("Mikrowechselrichter 600 W, max. Eingangsspannung 60 V (Korrektur: 50 V). 95 Euro.", 50),
        ("Micro-omvormer 600 W, max. ingangsspanning 60 V - foutje, 50 V. 95 euro.", 50),
        ("Micro-onduleur 600 W, tension d'entrée maximale 60 V, je veux dire 50 V. 90 euros.", 50),
        ("Microinversor 600 W, tensión máxima de entrada 60 V, o mejor dicho 50 V. 90 euros.", 50),
        ("Microinverter 600 W, tensione massima in ingresso 60 V, anzi 50 V. 90 euro.", 50),
        ("Mikroinwerter 600 W, maks. napięcie wejściowe 60 V, to znaczy 50 V. 400 zł.", 50),
        ("Microinversor 600 W, tensão máxima de entrada 60 V, aliás 50 V. 90 euros.", 50),
        ("Mikroměnič 600 W, max. vstupní napětí 60 V, pardon, překlep, 50 V. 900 Kč.", 50),
        ("Mikroinverter 600 W, maks. indgangsspænding 60 V, nej, vent: 50 V. 900 kr.", 50),
    ],
)
def test_the_later_limit_counts(body, volts):
    reading = reading_of(body)
    assert reading.inverter[LIMIT] == volts
    assert reading.inverter["ac_power_w"] == 600


def test_a_claim_holds_the_words_of_both():
    body = "Micro inverter 600 W. Max input voltage 60 V, sorry, 50 V. £60."
    claim = next(one for one in reading_of(body).claims if one.value == 50)
    assert claim.words == "60 V, sorry, 50 V"
    assert body[claim.start : claim.end] == claim.words


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("2 solar panels 300 W, £40 each, no wait, £90 each.", 90),
        ("2 Solarmodule 300 W, 40 Euro das Stück, Moment, nein: 90 Euro.", 90),
        ("2 panneaux solaires 300 W, 40 euros pièce, oups, 90 euros pièce.", 90),
        ("2 pannelli solari 300 W, 40 euro l'uno, no scusa, 90 euro l'uno.", 90),
        ("2 solpaneler 300 W, 300 kr. pr. stk., hov, 900 kr. pr. stk.", 900),
    ],
)
def test_the_later_price_counts_for_as_many(body, each):
    assert reading_of(body).price.each == each


@pytest.mark.parametrize(
    ("body", "watts"),
    [
        ("2 used solar panels. 400 W each, sorry, 300 W, I misread the label. £90 each.", 300),
        ("2 gebrauchte Solarmodule. 400 W, halt, stimmt nicht, 300 W je Modul. 90 Euro das Stück.", 300),
        ("2 used solar panels. I first thought 400 W but the sticker says 300 W. £90 each.", 300),
        ("2 panneaux solaires. Annoncés à 400 W, en réalité 300 W. 90 euros pièce.", 300),
        ("2 painéis solares usados. Pensava que eram 400 W mas a etiqueta diz 300 W. 90 euros cada.", 300),
    ],
)
def test_what_was_misread_or_only_thought_is_not_the_power(body, watts):
    reading = reading_of(body)
    assert reading.panel["rated_power_w"] == watts
    assert not reading.doubts


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("2 solar panels 400 W", "Sorry, typo in the title: they are 300 W each. £90 each."),
        ("2 Solarmodule 400 W", "Sie haben je 300 W, in der Überschrift ist ein Tippfehler. 90 Euro pro Stück."),
        ("2 zonnepanelen 400 W", "Foutje in de titel: ze zijn 300 W per stuk. 90 euro per stuk."),
        ("2 solární panely 400 W", "Chyba v nadpisu: mají 300 W každý. 900 Kč za kus."),
    ],
)
def test_a_mistake_in_the_title_is_none_of_the_panel(title, body):
    reading = reading_of(body, title)
    assert reading.panel["rated_power_w"] == 300
    assert "power_conflict" not in reading.doubts


@pytest.mark.parametrize(
    ("body", "what", "value"),
    [
        ("2 panels 300 W, Voc 45 V, sorry about the photo, Vmp 37 V. £90 each.", "open_circuit_voltage_v", 45),
        ("2 panels 300 W, Voc 45 V, sorry, Vmp 37 V. £90 each.", "open_circuit_voltage_v", 45),
        ("2 panels 300 W, Isc 9.3 A, or rather good for 10 A inputs. £90 each.", "short_circuit_current_a", 9.3),
        ("2 panels. I thought 400 W would do, but my inverter only takes 300 W. £90 each.", "rated_power_w", 400),
    ],
)
def test_what_is_no_correction_leaves_the_first_figure(body, what, value):
    assert reading_of(body).panel[what] == value


@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("2 panels 300 W. £90 each. Sorry, £15 for the clamps.", 90),
        ("2 panels 300 W. £90 each. Sorry, £15 postage.", 90),
        ("4 pannelli 300 W, 45 euro l'uno, cioè 180 euro in tutto.", 45),
        ("4 panele 300 W, po 100 zł za sztukę, to znaczy 400 zł razem.", 100),
    ],
)
def test_another_sum_is_no_correction(body, each):
    assert reading_of(body).price.each == each


def test_where_nobody_knows_what_the_later_amount_is_for_there_is_no_price():
    assert reading_of("2 panels 300 W. £90, sorry, £15 petrol money.").price.value is None


def test_counts_are_corrected_where_both_are_of_one_thing():
    assert reading_of("Three panels, no wait, two panels, 300 W. £90 each.").quantity_available == 2
    assert reading_of("Two panels, sorry, one inverter too. 300 W panels, £90 each.").kind == "set"


@pytest.mark.parametrize(
    "body",
    [
        "Micro inverter. Sold to me as 800 W, but it only puts out 600 W. £60.",
        "Mikrowechselrichter. Wurde mir als 800 W verkauft, bringt aber nur 600 W. 60 Euro.",
        "Microinversor. Me lo vendieron como de 800 W, pero solo da 600 W. 60 euros.",
        "Mikroinverter. Solgt til mig som 800 W, men giver kun 600 W. 400 kr.",
    ],
)
def test_what_it_was_sold_as_is_not_what_it_puts_out(body):
    assert reading_of(body).inverter["ac_power_w"] == 600
