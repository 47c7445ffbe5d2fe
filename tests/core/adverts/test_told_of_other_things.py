"""Words and amounts that tell of something else than what is offered and asked."""

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


def test_what_was_paid_for_them_new_makes_nothing_new():
    assert reading_of("Paid £150 each for them new, now £35 each. Four panels 300 W.").condition == "unknown"
    assert reading_of("Four new panels 300 W, £35 each.").condition == "new"


def test_a_price_instead_of_another_is_the_asked_one():
    for body in (
        "Wechselrichter 800 W. Preis 170 € statt 320 €.",
        "Inverter 800 W. Price 170 € instead of 320 €.",
        "Onduleur 800 W. Prix 170 € au lieu de 320 €.",
    ):
        assert reading_of(body).price.each == 170


def test_parts_one_by_one_then_all_together_cost_what_all_costs():
    price = reading_of("2 x 410W Module und 1x 600W WR, einzeln: Module 50 je, WR 70. Zusammen 150€.").price
    assert (price.value, price.basis, price.each) == (150, "set", 150)


def test_what_some_of_them_cost_is_not_the_price_of_all():
    assert reading_of("5 panels 300 W. Two for £100 or all five £230").price.value == 230
    assert reading_of("Vendo 6 placas solares de 330 W a 35 €/ud. Si te llevas los 6, 180 €.").price.value is None


def test_power_of_panels_together_beside_their_inverter_is_that_of_no_panel():
    assert reading_of("Balkonkraftwerk 820Wp/800W, 2 Module, 199 €").panel == {}
    assert reading_of("Balkonset 860 Wp / 800 W, 2 panelen, 250 euro").panel == {}


def test_what_brings_power_is_not_brought():
    assert reading_of("2 Module 400 Wp, je 40 €, bringen aber noch Strom, abholen am Hafen").delivery == "pickup"


def test_some_with_a_fault_leave_the_others_sound():
    reading = reading_of("8 placas de 300 W usadas, 20 € cada una. Algunas con la caja de conexiones rota.")
    assert (reading.condition, reading.doubts) == ("used", ("part_damaged",))


def test_what_is_available_again_is_not_reserved():
    assert reading_of("Four panels 300 W, £30 each. Sold pending pickup? No, available again").doubts == ()
    assert "reserved" in reading_of("Four panels 300 W, £30 each. Sold pending pickup").doubts


def test_panels_that_do_not_come_along_are_not_offered():
    assert reading_of("Staffe per 2 pannelli da 400 W, 25 €, pannelli esclusi").kind == "other"
