"""A text that was broken at a width reads as the whole one; true line ends part the items of a list."""

import json
import textwrap
from pathlib import Path

import pytest

from service.bench.adverts import advert_of, plain_reading
from service.core.adverts import Advert, read_advert, vocabulary_of
from service.core.adverts.lines import joined
from service.core.adverts.plain import plain_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
FILE = Path(__file__).parent / "further_adverts.jsonl"


@pytest.mark.parametrize(("width", "most_lost", "most_other"), [(60, 0.005, 0.0), (40, 0.01, 0.003)])
def test_a_text_broken_at_a_width_loses_next_to_nothing_and_tells_nothing_else(width, most_lost, most_other):
    told = lost = other = 0
    for line in FILE.read_text(encoding="utf-8").splitlines():
        advert = advert_of(json.loads(line))
        if "\n" in advert.body:
            continue
        broken = "\n".join(textwrap.wrap(advert.body, width, break_long_words=False, break_on_hyphens=False))
        whole = plain_reading(read_advert(advert, WORDS))
        again = read_advert(Advert(title=advert.title, body=broken, price_text=advert.price_text), WORDS)
        parts = plain_reading(again)
        told += len(whole)
        lost += sum(name not in parts for name in whole)
        other += sum(name in whole and value != whole[name] for name, value in parts.items() if name != "warnings")
    assert lost <= most_lost * told
    assert other <= most_other * told


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_the_items_of_a_list_are_parted(end):
    body = end.join(("Modul 410 Wp", "Neupreis 120 €", "45 € pro Stück", "4 Stück", "Abholung"))
    reading = read_advert(Advert(title="Module", body=body), WORDS)
    assert (reading.quantity_available, reading.price.each) == (4, 45)


@pytest.mark.parametrize(
    "text",
    [
        "Module vom Dach, alle vier zusammen\nVoc: 37,1 V\nIsc: 13,8 A",
        "Technische Daten der Module vom Dach\n- 410 Wp\n- 37,1 V",
        "Voc 37,1 V\nIsc 13,8 A\nVmp 31,0 V\nImp 12,9 A",
        "used panels for sale from the shed.\nthey were up for two years",
    ],
)
def test_true_line_ends_stay(text):
    assert joined(plain_of(text), WORDS.small.line_waiting).text == plain_of(text).text


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        ("Zwei gebrauchte Module für 25 €\npro Stück abzugeben", "zwei gebrauchte module fur 25 € pro stuck abzugeben"),
        ("Prodám oba panely dohromady za 1\n300 Kč", "prodam oba panely dohromady za 1 300 kc"),
        ("Used solar panels, from the roof of the\nHill House", "used solar panels, from the roof of the hill house"),
        ("Four used panels, 410 W,\r\nTwo of them scratched", "four used panels, 410 w,  two of them scratched"),
    ],
)
def test_a_sentence_goes_on_over_a_line_end(text, whole):
    plain = plain_of(text)
    assert joined(plain, WORDS.small.line_waiting).text == whole
    assert len(plain.text) == len(whole)


def test_claims_point_at_the_text_as_it_was_sent():
    body = "Two used solar panels of 410\nW each, from the shed,\r\n£40 each."
    reading = read_advert(Advert(title="", body=body), WORDS)
    power = next(claim for claim in reading.claims if claim.what == "rated_power_w")
    assert body[power.start : power.end] == "410\nW"


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_row_of_a_name_and_a_value_between_bars_is_read(end):
    rows = ("Four panels, £30 each.", "| Pmax | 280 W |", "| Voc | 38.1 V |", "| Isc | 9.4 A |", "| Vmp | 31.2 V |")
    reading = read_advert(Advert(title="", body=end.join(rows)), WORDS)
    assert reading.panel == {"rated_power_w": 280, "open_circuit_voltage_v": 38.1, "short_circuit_current_a": 9.4,
                             "max_power_voltage_v": 31.2}  # fmt: skip
