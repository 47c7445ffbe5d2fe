"""An operator's own cards: they replace those of their area, and a bad one is refused with file and field."""

import json
import math
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import service.data.local_rules as room
from service.data.local_rules import CardError, card_schema, load_rule_cards, own_cards, with_own
from service.data.local_rules.schema import faults

CARDS = Path(room.__file__).parent / "cards"
FILES = sorted(CARDS.glob("*.json"))


def germany(**changes: Any) -> list[dict[str, Any]]:
    """The packaged card of an area with changes."""
    [row] = json.loads((CARDS / "DE.json").read_text(encoding="utf-8"))
    return [{**row, **changes}]


def written(folder: Path, rows: Any, name: str = "DE.json") -> str:
    """A folder that holds these rows."""
    (folder / name).write_text(rows if isinstance(rows, str) else json.dumps(rows), encoding="utf-8")
    return str(folder)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_every_packaged_card_keeps_to_the_schema(file: Path) -> None:
    rows = json.loads(file.read_text(encoding="utf-8"))
    assert list(faults(rows, card_schema())) == []
    jsonschema.Draft202012Validator(card_schema()).validate(rows)


def test_the_schema_is_itself_one() -> None:
    jsonschema.Draft202012Validator.check_schema(card_schema())


def test_own_cards_replace_all_of_their_area_and_no_other(tmp_path: Path) -> None:
    own = own_cards(written(tmp_path, germany(ac_cap_w=600)))
    merged = with_own(load_rule_cards(), own)
    assert [card.ac_cap_w for card in merged["DE"]] == [600]
    assert {area: cards for area, cards in merged.items() if area != "DE"} == {
        area: cards for area, cards in load_rule_cards().items() if area != "DE"
    }


def test_an_area_that_is_not_packaged_is_added(tmp_path: Path) -> None:
    own = own_cards(written(tmp_path, germany(id="DE-BY"), "DE-BY.json"))
    assert list(own) == ["DE-BY"]


def test_no_folder_is_no_card_and_notes_beside_the_cards_are_passed_over(tmp_path: Path) -> None:
    assert own_cards("") == {}
    (tmp_path / "README.md").write_text("ours", encoding="utf-8")
    (tmp_path / ".hidden").write_text("{", encoding="utf-8")
    assert list(own_cards(written(tmp_path, germany()))) == ["DE"]


WRONG = [
    ({"ac_cap_unit": "kW"}, '/0/ac_cap_unit is "kW"; accepted: W, VA'),
    ({"ac_cap_w": "800"}, '/0/ac_cap_w is "800"; accepted: number or null'),
    ({"ac_cap_w": True}, "/0/ac_cap_w is true"),
    ({"ac_cap_w": -1}, "/0/ac_cap_w is -1"),
    ({"ac_cap_w": math.nan}, "/0/ac_cap_w is NaN"),
    ({"ac_cap_w": None}, "/0/ac_cap_inclusive must be given with ac_cap_w"),
    ({"checked_on": "2026-02-30"}, '/0/checked_on is "2026-02-30", which no calendar has'),
    ({"checked_on": None}, "/0/checked_on is null"),
    ({"checked_on": "2025-01-01"}, "/0/published_on"),
    ({"valid_to": "2020-01-01"}, "/0/valid_to"),
    ({"colour": "green"}, "/0/colour is not known"),
    ({"plug": "any"}, "/0/plug"),
    ({"statement": ""}, "/0/statement has 0 characters"),
    ({"notify": {"who": "x"}}, "/0/notify/when is missing"),
    ({"sources": [{"title_or_body": "x", "year": 2026.5, "says": "x", "seen": "read"}]}, "/0/sources/0/year"),
    ({"panel_cap_by_plug": "none"}, "/0/panel_cap_by_plug"),
    ({"id": "AT"}, '/0/id is "AT"; accepted: DE'),
    ({"id": "../DE"}, "/0/id"),
]


@pytest.mark.parametrize(("changes", "says"), WRONG, ids=[says.split()[0] for _, says in WRONG])
def test_a_bad_card_is_refused_with_file_and_field(tmp_path: Path, changes: dict[str, Any], says: str) -> None:
    with pytest.raises(CardError) as refused:
        own_cards(written(tmp_path, germany(**changes)))
    assert f"{tmp_path / 'DE.json'}: {says}" in str(refused.value)


@pytest.mark.parametrize(
    ("content", "says"),
    [("{", "is no JSON"), ("[]", "has 0 entries"), ("{}", "accepted: array"), ('[{"id":"DE","id":"AT"}]', "said twice"),
     ("[" * 100_000, "is no JSON")],
    ids=["torn", "empty", "object", "twice", "deep"],
)  # fmt: skip
def test_a_file_that_is_no_list_of_cards_is_refused(tmp_path: Path, content: str, says: str) -> None:
    with pytest.raises(CardError, match=says):
        own_cards(written(tmp_path, content))


def test_a_missing_field_is_named(tmp_path: Path) -> None:
    rows = germany()
    del rows[0]["conflicts"]
    with pytest.raises(CardError, match="/0/conflicts is missing"):
        own_cards(written(tmp_path, rows))


def test_several_faults_are_told_at_once(tmp_path: Path) -> None:
    written(tmp_path, germany(plug="any", status="law"))
    with pytest.raises(CardError) as refused:
        own_cards(written(tmp_path, "{", "AT.json"))
    assert all(word in str(refused.value) for word in ("AT.json", "/0/plug", "/0/status"))


def test_a_folder_that_is_not_there_empty_or_holds_something_else_is_refused(tmp_path: Path) -> None:
    with pytest.raises(CardError, match="cannot be read as a folder"):
        own_cards(str(tmp_path / "nowhere"))
    with pytest.raises(CardError, match="holds no card"):
        own_cards(str(tmp_path))
    with pytest.raises(CardError, match=r"DE\.jsn: is no \.json file"):
        own_cards(written(tmp_path, germany(), "DE.jsn"))
    (tmp_path / "DE.jsn").unlink()
    with pytest.raises(CardError, match="background"):
        own_cards(written(tmp_path, germany(id="EU"), "EU.json"))
