"""Reading adverts: line ends about a text move nothing, nor do those that a width puts within its sentences."""

import json
from pathlib import Path
from textwrap import fill

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
ROWS = (Path(__file__).parents[1] / "core/adverts/invented_adverts.jsonl").read_text(encoding="utf-8").splitlines()
HONEST = [one for one in map(json.loads, ROWS) if len(one["body"]) < 3000 and "\x00" not in one["body"]]


def told(title, body, price):
    """All that is read but where it stands."""
    found = read_advert(Advert(title=title, body=body, price_text=price), WORDS)
    return {name: getattr(found, name) for name in found._fields if name != "claims"}


def as_they_are():
    return [(one["title"] or "", one["body"], one.get("asking_price_text")) for one in HONEST]


@pytest.mark.parametrize("ends", ["\n", " \n\t", "\r\n", "\n\n  \n"])
def test_white_space_about_title_and_body_moves_nothing(ends):
    for title, body, price in as_they_are():
        assert told(f"{ends}{title}{ends}", f"{ends}{body}{ends}", price) == told(title, body, price), title


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Fachgerechter Aufbau / Balkonkraftwerk Anmeldung", "Ab 149 € fest. Auch Lieferung von 440W Modulen."),
        ("Onderhoud zonnepanelen", "Al vanaf 49 euro, bel voor een afspraak."),
        ("Suche Solarmodule", "4 Module 400 W, zahle bis 50 € pro Stück."),
    ],
)
def test_first_words_of_a_title_are_the_first_behind_a_line_end(title, body):
    found = told(title, body, None)
    assert not found["is_offer"]
    assert told(f"\n{title}", body, None) == found


@pytest.mark.parametrize("width", [80, 60, 45, 38])
def test_a_body_broken_at_a_width_reads_as_it_did(width):
    for title, body, price in as_they_are():
        broken = "\n".join(
            fill(line, width, break_long_words=False, break_on_hyphens=False) for line in body.split("\n")
        )
        if "|" in body or "\\u0000" in body:  # rows of tables have no width
            continue
        assert told(title, broken, price) == told(title, body, price), broken
