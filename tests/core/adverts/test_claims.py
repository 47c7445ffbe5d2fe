"""What is told besides ratings has its words and its place too, so that a misread one can be seen at once."""

import json
from pathlib import Path

import pytest

from service.bench.adverts import advert_of
from service.core.adverts import CLAIMS, DEFECTS, Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
HERE = Path(__file__).parent
FILES = ("invented_adverts.jsonl", "further_adverts.jsonl", "sellers_adverts.jsonl", "finer_adverts.jsonl")


def claims_of(body, title=""):
    reading = read_advert(Advert(title=title, body=body), WORDS)
    return {(claim.what, claim.value): claim.words for claim in reading.claims}


def test_quantity_state_way_defects_and_kind_have_their_words():
    assert claims_of(
        "Vier gebrauchte Solarmodule 410 Wp, monokristallin, bifazial, Kratzer am Rahmen. 45 € pro Stück, "
        "Mindestabnahme 2. Versand 30 € oder Abholung."
    ).items() >= {
        ("quantity_available", 4): "Vier", ("least_quantity", 2): "2", ("condition", "used"): "gebrauchte",
        ("delivery", "either"): "Versand", ("shipping_cost", 30.0): "30 €", ("defect", "cosmetic"): "Kratzer am Rahmen",
        ("technology", "mono"): "monokristallin", ("bifacial", True): "bifazial",
    }.items()  # fmt: skip


def test_the_panels_of_a_set_have_their_words():
    claims = claims_of("Balcony kit: two 410 W panels, inverter 800 W, new, £300, postage £20")
    assert claims["panel_count", 2] == "two"
    assert claims["condition", "new"] == "new"
    assert claims["delivery", "shipping"] == "postage"


def test_what_is_not_told_is_not_claimed():
    told = {what for what, _ in claims_of("Solar panels 410 W, £40 each")}
    assert told == {"rated_power_w", "price"}


@pytest.mark.parametrize("name", FILES)
def test_every_claim_stands_where_it_says_and_agrees_with_the_reading(name):
    counted = placed = 0
    for line in (HERE / name).read_text(encoding="utf-8").splitlines():
        advert = advert_of(json.loads(line))
        reading = read_advert(advert, WORDS)
        sent = {"title": advert.title, "body": advert.body, "price_text": advert.price_text or ""}
        for claim in reading.claims:
            assert sent[claim.field][claim.start : claim.end][:120] == claim.words
            assert 0 < claim.sureness_share <= 1
        told = {claim.what: claim.value for claim in reading.claims if claim.what != "defect"}
        assert told.get("condition", reading.condition) == reading.condition
        assert told.get("delivery", reading.delivery) == reading.delivery
        assert told.get("quantity_available", reading.quantity_available) == reading.quantity_available
        assert {one.value for one in reading.claims if one.what == "defect"} <= set(reading.defects)
        counted += reading.quantity_available is not None
        placed += "quantity_available" in told
    assert placed >= 0.9 * counted


def test_what_may_be_claimed_is_listed():
    rows = [json.loads(line) for name in FILES for line in (HERE / name).read_text(encoding="utf-8").splitlines()]
    readings = [read_advert(advert_of(row), WORDS) for row in rows]
    assert {claim.what for reading in readings for claim in reading.claims} <= set(CLAIMS)
    assert len({claim.what for reading in readings for claim in reading.claims}) > len(CLAIMS) - 4
    told = {meaning[2:] for words in load_advert_words().meanings.values() for meaning in words if meaning[:2] == "d:"}
    assert told | {"dead_input"} == set(DEFECTS)
