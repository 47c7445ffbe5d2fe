"""Rule cards over HTTP: published on, by, looked at; old, disputed, and an operator's own."""

import json
from pathlib import Path
from typing import Any

import pytest

import service.data.local_rules as room
from service.app import create_app
from service.data.local_rules import CardError, load_rule_cards
from service.settings import Settings
from tests.http.client import SMALLEST, ask, changed, post

PACKAGED = Path(room.__file__).parent / "cards" / "DE.json"
KRANICHWERFT = json.loads((Path(__file__).parents[2] / "examples" / "kranichwerft.json").read_text(encoding="utf-8"))


def areas(day: str) -> dict[str, dict[str, Any]]:
    answer = ask("GET", f"/v1/local-rules?as_of={day}").json()
    assert answer["as_of"] == day
    return {one["area"]: one for one in answer["areas"]}


def findings(request: dict[str, Any]) -> dict[str, dict[str, Any]]:
    answer = post("/v1/compatibility", request).json()
    return {one["code"]: one for one in answer["compatibility"]["findings"]}


def test_the_list_shows_for_each_area_when_it_was_published_looked_at_and_what_disagrees() -> None:
    listed = areas("2026-11-25")
    assert set(listed) == set(load_rule_cards())
    germany = listed["DE"]
    assert (germany["published_on"], germany["checked_on"]) == ("2025-12-17", "2026-11-25")
    assert len(germany["conflicts"]) == 1
    assert germany["stale"] is False
    assert germany["kept_by"] == "service"
    assert listed["AU"]["conflicts"] == []


def test_a_card_older_than_twelve_months_says_that_it_may_be_stale() -> None:
    assert "may be stale" not in ask("GET", "/v1/local-rules/DE?as_of=2027-11-25").json()["text"]
    old = ask("GET", "/v1/local-rules/DE?as_of=2027-11-26").json()
    assert old["stale"] is True
    assert "may be stale" in old["text"]
    assert areas("2027-11-26")["DE"]["stale"] is True
    fresh, later = (findings(changed("/as_of", day)) for day in ("2026-11-25", "2027-11-26"))
    for code in ("local_cap", "panel_cap", "plug", "registration"):
        assert "may be stale" not in fresh[code]["text"]
        assert "may be stale" in later[code]["text"]
    assert "may be stale" not in later["cold_voltage"]["text"]


@pytest.mark.parametrize("area", sorted(load_rule_cards()))
def test_every_area_is_answered_published_on_by_and_never_called_legal(area: str) -> None:
    request = changed("/site/rule_area", area) if area not in {"DEFAULT", "EU"} else SMALLEST
    told = ask("GET", f"/v1/local-rules/{area}?as_of=2027-12-31")
    assert told.status_code == 200
    assert told.json()["text"].startswith("Published on ")
    for one in findings({**request, "as_of": "2027-12-31"}).values():
        if one["part"] == "local_rule":
            assert "legal" not in one["text"].lower().replace("illegal", "")
            assert len(one["text"]) <= 2000


def test_where_a_plug_rule_admits_what_the_cable_rule_refuses_both_findings_show_both() -> None:
    found = findings(KRANICHWERFT)
    assert (found["plug"]["verdict"], found["circuit_cable"]["verdict"]) == ("fits", "does_not_fit")
    assert "Two published rules disagree" in found["circuit_cable"]["text"]
    assert "rule card DE" in found["circuit_cable"]["text"]
    assert "Two published rules disagree" in found["plug"]["text"]
    assert "IEC 60364-5-551" in found["plug"]["text"]
    mended = findings(changed("/socket_circuit/breaker_a", 13, KRANICHWERFT))
    assert "Two published rules disagree" not in mended["plug"]["text"]


def test_an_operator_s_card_speaks_is_said_to_be_one_and_is_another_edition_of_the_tables(tmp_path: Path) -> None:
    [row] = json.loads(PACKAGED.read_text(encoding="utf-8"))
    row |= {"ac_cap_w": 300, "statement": "Our co-op's own reading."}
    (tmp_path / "DE.json").write_text(json.dumps([row]), encoding="utf-8")
    app = create_app(Settings(rule_cards_folder=str(tmp_path)))
    told = ask("GET", "/v1/local-rules/DE?as_of=2026-11-25", app=app).json()
    packaged = ask("GET", "/v1/local-rules/DE?as_of=2026-11-25").json()
    assert (told["kept_by"], told["speaks"]["ac_cap_w"]) == ("operator", 300)
    assert (packaged["kept_by"], packaged["speaks"]["ac_cap_w"]) == ("service", 800)
    assert told["data_version"] != packaged["data_version"]
    assert ask("GET", "/v1/local-rules/AT", app=app).json()["kept_by"] == "service"
    asked = ask("POST", "/v1/compatibility", app=app, headers={"content-type": "application/json"},
                content=json.dumps(SMALLEST).encode())  # fmt: skip
    cap = next(one for one in asked.json()["compatibility"]["findings"] if one["code"] == "local_cap")
    assert (cap["limit"], cap["verdict"]) == (300, "does_not_fit")


def test_a_bad_card_stops_the_start(tmp_path: Path) -> None:
    (tmp_path / "DE.json").write_text("[{}]", encoding="utf-8")
    with pytest.raises(CardError, match=r"DE\.json: /0/id is missing"):
        create_app(Settings(rule_cards_folder=str(tmp_path)))
