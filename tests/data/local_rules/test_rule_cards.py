"""The packaged rule cards: columns, closed lists, dates, checksums, and which card speaks for an area."""

import hashlib
import json
from dataclasses import fields
from pathlib import Path

import pytest

import service.data.local_rules as room
from service.core.errors import UnknownAreaError
from service.core.rules import STATUSES, RuleCard
from service.data.local_rules import cards_of, load_rule_cards, read_cards

FOLDER = Path(room.__file__).parent
FILES = sorted((FOLDER / "cards").glob("*.json"))
ALL = [card for cards in load_rule_cards().values() for card in cards]
IDS = [f"{card.id} {card.status}" for card in ALL]
PLUGS = {"household_allowed", "household_with_conditions", "special_connector", "fixed_wiring_only", "unclear"}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_file_holds_the_cards_of_its_area_and_no_other_column(file: Path) -> None:
    rows = json.loads(file.read_text(encoding="utf-8"))
    assert rows
    for row in rows:
        assert row["id"] == file.stem
        assert set(row) == {f.name for f in fields(RuleCard)}


@pytest.mark.parametrize("card", ALL, ids=IDS)
def test_a_card_keeps_to_the_closed_lists(card: RuleCard) -> None:
    assert card.status in STATUSES
    assert card.plug in PLUGS
    assert card.ac_cap_unit in ("W", "VA")
    assert card.ac_cap_scope in ("meter", "circuit", "household", "building", None)
    assert card.export_payment in ("paid", "unpaid", "netted", "depends", "unknown")
    assert card.reversing_meter in ("tolerated", "not_admitted", "unclear")
    assert card.confidence in ("high", "medium", "low")
    assert card.notify.before_or_after in ("before", "after", "unknown")
    assert card.notify.needed in ("yes", "no", "unknown")
    assert all(source.seen in ("read", "secondary", "carried_over") for source in card.sources)
    assert all(step.plug in PLUGS for step in (*card.ac_tiers, *card.panel_cap_by_plug))


@pytest.mark.parametrize("card", ALL, ids=IDS)
def test_a_card_says_what_when_and_by_whom(card: RuleCard) -> None:
    assert card.statement.endswith((".", ")"))
    assert card.conflicts
    assert "not a permission" in card.advice
    assert card.sources or card.id == "DEFAULT"
    assert (card.ac_cap_w is None) == (card.ac_cap_inclusive is None)
    assert card.ac_cap_w is None or 100 <= card.ac_cap_w <= 5000
    if card.valid_from and card.valid_to:
        assert card.valid_from <= card.valid_to
    if card.published_on:
        assert card.published_on <= card.checked_on.isoformat()


def test_every_file_has_the_checksum_that_the_manifest_names() -> None:
    manifest = json.loads((FOLDER / "manifest.json").read_text(encoding="utf-8"))
    assert manifest == {file.name: hashlib.sha256(file.read_bytes()).hexdigest() for file in FILES}


def test_a_household_plug_without_conditions_is_claimed_nowhere() -> None:
    assert all(card.plug != "household_allowed" for card in ALL)


@pytest.mark.parametrize(
    ("asked", "speaks"),
    [
        ("DE", "DE"), ("de", "DE"), ("DE-BY", "DE"), ("US-UT", "US-UT"), ("US-TX", "US"), ("BE-WAL", "BE-WAL"),
        ("BE", "DEFAULT"), ("EU", "DEFAULT"), ("UY", "DEFAULT"), ("ZZ", "DEFAULT"), ("", "DEFAULT"),
    ],
)  # fmt: skip
def test_an_area_falls_back_to_its_country_and_then_to_the_default(asked: str, speaks: str) -> None:
    assert {card.id for card in cards_of(asked)} == {speaks}


def test_without_even_a_default_there_is_no_answer() -> None:
    with pytest.raises(UnknownAreaError):
        cards_of("UY", {})


def test_a_card_with_an_unknown_or_a_missing_column_is_refused(tmp_path: Path) -> None:
    rows = json.loads((FOLDER / "cards" / "DE.json").read_text(encoding="utf-8"))
    wrong = tmp_path / "DE.json"
    wrong.write_text(json.dumps([{**rows[0], "colour": "green"}]), encoding="utf-8")
    with pytest.raises(TypeError):
        read_cards([wrong])
    del rows[0]["plug"]
    wrong.write_text(json.dumps(rows), encoding="utf-8")
    with pytest.raises(TypeError):
        read_cards([wrong])
