import json
from pathlib import Path
from typing import Any

import pytest

from tests.http.client import COMPUTING, PLAIN, SMALLEST, ask, changed, post

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.json"))


@pytest.mark.parametrize("path", COMPUTING)
def test_the_smallest_request_is_answered_on_every_computing_path(path: str) -> None:
    answer = post(path, SMALLEST)
    assert answer.status_code == 200, answer.text
    body = answer.json()
    assert body["as_of"] == "2026-11-25"
    assert body["service_version"]
    assert body["data_version"]
    assert body["assumptions"]
    assert {caution["code"] for caution in body["cautions"]} >= {"licensed", "no_island", "dc_arc"}


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
@pytest.mark.parametrize("path", COMPUTING)
def test_each_example_can_be_sent_to_every_computing_path(file: Path, path: str) -> None:
    assert post(path, file.read_bytes()).status_code == 200


def test_an_answer_carries_the_objects_that_its_path_is_named_after() -> None:
    for path in COMPUTING[1:]:
        assert path.rpartition("/")[2] in post(path, SMALLEST).json()
    appraisal = post("/v1/appraisal", SMALLEST).json()
    assert {"decision", "compatibility", "energy", "use", "payback", "steps"} <= set(appraisal)


def test_what_is_computed_on_request_only_is_absent_unless_asked_for() -> None:
    plain = post("/v1/appraisal", SMALLEST).json()
    assert "used" not in plain
    assert "hours" not in plain["energy"]
    assert all("moves" not in one for one in plain["assumptions"])
    full = post("/v1/appraisal", {**SMALLEST, "include": ["used", "hours", "moves"]}).json()
    assert len(full["energy"]["hours"]["ac_w"]) == 8760
    assert sum(full["energy"]["hours"]["ac_w"]) / 1000 == pytest.approx(full["energy"]["year_kwh"]["middle"], rel=1e-3)
    assert any(one.get("moves", {}).get("share", 0) > 0 for one in full["assumptions"])


def test_energy_of_a_string_that_destroys_its_input_says_so_as_compatibility_does() -> None:
    panel = {"rated_power_w": 440, "open_circuit_voltage_v": 39.4, "voc_coefficient_pct_per_k": -0.26}
    limits = {"max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55}
    told = {
        count: {
            **SMALLEST,
            "arrays": [{"count": count, "joined": "series", "panel": panel}],
            "inverter": {"ac_power_w": 1200, "input_count": 1, "inputs": [limits]},
        }
        for count in (1, 3)
    }
    assert "findings" not in post("/v1/energy", told[1]).json()
    for _ in range(2):  # made, then of what is kept
        (found,) = post("/v1/energy", told[3]).json()["findings"]
        assert found["verdict"] == "does_not_fit"
        assert found["measured"] > 3 * 39.4 > found["limit"] == 60
        whole = post("/v1/compatibility", told[3]).json()["compatibility"]["findings"]
        assert found in [{**one, "remedies": []} for one in whole]


def test_pointers_of_assumptions_and_findings_resolve_in_the_completed_request() -> None:
    answer = post("/v1/appraisal", {**SMALLEST, "include": ["used"]}).json()
    pointers = [one["pointer"] for one in answer["assumptions"]]
    pointers += [one["about"] for one in answer["compatibility"]["findings"]]
    for pointer in pointers:
        node: Any = answer["used"]
        for part in pointer.split("/")[1:]:
            node = node[int(part)] if isinstance(node, list) else node[part]


def test_the_completed_request_sent_again_gives_the_same_energy() -> None:
    first = post("/v1/energy", {**SMALLEST, "include": ["used"]}).json()
    again = post("/v1/energy", first["used"])
    assert again.status_code == 200, again.text
    assert again.json()["energy"]["months_kwh"] == first["energy"]["months_kwh"]


@pytest.mark.parametrize("path", COMPUTING)
def test_the_same_question_gives_the_same_bytes(path: str) -> None:
    assert post(path, SMALLEST).content == post(path, SMALLEST).content


def test_null_means_absent() -> None:
    with_nulls = changed("/site/elevation_m", None, changed("/storage", None, changed("/socket_circuit", None)))
    assert post("/v1/energy", with_nulls).json()["energy"] == post("/v1/energy", SMALLEST).json()["energy"]


def test_an_integer_may_be_written_with_a_point_and_nought() -> None:
    assert post("/v1/energy", changed("/arrays/0/count", 2.0)).status_code == 200
    assert post("/v1/energy", changed("/arrays/0/count", 2.5)).status_code == 422


def test_the_loss_account_closes_in_the_answer() -> None:
    energy = post("/v1/energy", SMALLEST).json()["energy"]
    left = energy["light_kwh"] - sum(energy["lost_kwh"].values())
    assert left == pytest.approx(energy["year_kwh"]["middle"], abs=0.1)
    assert sum(energy["months_kwh"]) == pytest.approx(energy["year_kwh"]["middle"], abs=0.1)


def test_a_yield_of_ones_own_is_enough_for_the_payback() -> None:
    payback = post("/v1/payback", PLAIN).json()["payback"]
    assert payback["saving_first_year"]["middle"] == pytest.approx(640 * 0.55 * 0.34, abs=0.01)
    assert payback["simple_payback_years"]["middle"] == pytest.approx(245 / (640 * 0.55 * 0.34), abs=0.001)
    assert payback["currency"] == "EUR"


def test_parts_of_an_appraisal_can_be_pasted_into_the_payback() -> None:
    appraisal = post("/v1/appraisal", SMALLEST).json()
    pasted = {**PLAIN, "energy": appraisal["energy"], "use": appraisal["use"]}
    answer = post("/v1/payback", pasted)
    assert answer.status_code == 200, answer.text
    used = appraisal["energy"]["year_kwh"]["middle"] * appraisal["use"]["self_used_share"]
    bought = appraisal["energy"]["night_draw_kwh"]  # what the inverter draws by night is taken off
    assert answer.json()["payback"]["saving_first_year"]["middle"] == pytest.approx((used - bought) * 0.34, abs=0.02)


def test_no_number_of_an_answer_is_missing_its_digits() -> None:
    text = post("/v1/appraisal", {**SMALLEST, "include": ["used", "moves"]}).text

    def refuse(name: str) -> None:
        raise AssertionError(name)

    json.loads(text, parse_constant=refuse)
    assert "-0.0," not in text


def test_the_climate_is_the_same_by_get_and_by_post() -> None:
    got = ask("GET", "/v1/climate?latitude_deg=54.2&longitude_deg=12.3")
    posted = post("/v1/climate", {"site": SMALLEST["site"]})
    assert got.json() == posted.json()
    climate = got.json()
    assert climate["country"] == "DE"
    assert 900 < sum(climate["level_ground_kwh_per_m2"]) < 1200
    assert 0 < climate["uncertainty_sd_share"] < 0.2


def test_the_climate_says_how_far_a_single_year_may_lie_off() -> None:
    """The ends that hold eight of ten years of a normal distribution (1.2816 standard deviations either side)."""
    climate = ask("GET", "/v1/climate?latitude_deg=54.2&longitude_deg=12.3").json()
    year = climate["level_ground_year_kwh_per_m2"]
    assert year["middle"] == pytest.approx(sum(climate["level_ground_kwh_per_m2"]), abs=1.0)
    doubt = (climate["uncertainty_sd_share"] ** 2 + climate["year_to_year_sd_share"] ** 2) ** 0.5
    assert year["cautious"] == pytest.approx(year["middle"] * (1 - 1.2816 * doubt), rel=0.002)
    assert year["hopeful"] == pytest.approx(year["middle"] * (1 + 1.2816 * doubt), rel=0.002)


def test_the_vocabulary_prints_every_default_and_every_code_of_an_answer() -> None:
    vocabulary = ask("GET", "/v1/vocabulary").json()
    answer = post("/v1/appraisal", SMALLEST).json()
    priced = post("/v1/payback", PLAIN).json()["payback"]
    for noun, codes in {
        "assumptions": {one["code"] for one in answer["assumptions"]},
        "cautions": {one["code"] for one in answer["cautions"]},
        "findings": {one["code"] for one in answer["compatibility"]["findings"]},
        "remedies": {two["code"] for one in answer["compatibility"]["findings"] for two in one["remedies"]},
        "steps": {one["code"] for one in answer["steps"]},
        "conditions": {one["code"] for one in answer["decision"]["conditions"]},
        "losses": set(answer["energy"]["lost_kwh"]),
        "spread": {one["code"] for one in answer["energy"]["spread"]},
        "crossings": {priced["crossings"]["code"]},
        "rates_of_return": {priced["rates_of_return"]["code"]},
        "sensitivity": {one["of"] for one in priced["sensitivity"]},
        "co2": {priced["co2"]["code"]},
    }.items():
        assert codes <= {word["code"] for word in vocabulary[noun]}, noun
    assert any(row["pointer"] == "/money/ageing_share_per_year" for row in vocabulary["defaults"])


def test_every_text_of_an_answer_is_a_sentence_and_not_a_bare_code() -> None:
    def texts(node: Any) -> list[tuple[str, str]]:
        if isinstance(node, list):
            return [pair for one in node for pair in texts(one)]
        if not isinstance(node, dict):
            return []
        own = [(node["code"], node["text"])] if {"code", "text"} <= set(node) else []
        return own + [pair for one in node.values() for pair in texts(one)]

    for file in EXAMPLES:
        for code, text in texts(post("/v1/appraisal", file.read_bytes()).json()):
            assert not text.lower().startswith(code.replace("_", " ") + ":"), (file.stem, code, text)
            assert text != code.replace("_", " "), (file.stem, code)
            assert " " in text, (file.stem, code, text)
            assert "{" not in text, (file.stem, code, text)


def test_the_local_rules_of_an_area_name_their_card_and_a_wider_area_is_said_to_be_one() -> None:
    areas = {one["area"] for one in ask("GET", "/v1/local-rules").json()["areas"]}
    assert {"DE", "PT", "US-UT", "DEFAULT"} <= areas
    germany = ask("GET", "/v1/local-rules/DE?as_of=2026-11-25").json()
    assert germany["speaks"]["ac_cap_w"] == 800
    assert germany["in_force"] is True
    assert germany["fell_back"] is False
    texas = ask("GET", "/v1/local-rules/US-TX").json()
    assert texas["fell_back"] is True
    assert texas["speaks"]["id"] == "US"


def test_an_area_without_a_card_is_not_found() -> None:
    for area in ("XX", "de", "%3Cscript%3E", "A" * 300):
        answer = ask("GET", f"/v1/local-rules/{area}")
        assert answer.status_code == 404
        assert answer.json()["code"] == "unknown_area"


def test_applying_a_remedy_mends_the_finding_it_was_named_for() -> None:
    file = next(file for file in EXAMPLES if file.stem == "kranichwerft")
    request = json.loads(file.read_text())
    before = post("/v1/compatibility", request).json()["compatibility"]
    refused = next(one for one in before["findings"] if one["verdict"] == "does_not_fit")
    remedy = next(one for one in refused["remedies"] if one["verdict_then"] == "fits" and one["pointer"])
    after = post("/v1/compatibility", changed(remedy["pointer"], remedy["new_value"], request)).json()["compatibility"]
    same = [one for one in after["findings"] if (one["code"], one["about"]) == (refused["code"], refused["about"])]
    assert [one["verdict"] for one in same] == ["fits"]


def test_a_price_for_what_is_sent_out_is_never_dropped_in_silence() -> None:
    period = {"valid_from": "2026-01-01", "import_price_per_kwh": 0.3, "export_price_per_kwh": 0.1}
    asked = changed("/tariff", {"currency": "EUR", "periods": [period]})
    paid = changed("/tariff", {"currency": "EUR", "periods": [{**period, "export": "paid"}]})
    answer = post("/v1/payback", asked).json()
    assert answer["payback"] == post("/v1/payback", paid).json()["payback"]
    [said] = [one for one in answer["assumptions"] if one["pointer"] == "/tariff/periods/0/export"]
    assert (said["code"], said["value"]) == ("paid_as_priced", "paid")


def test_a_log_with_gaps_and_a_plant_on_the_roof_are_answered_with_what_was_made_of_them() -> None:
    values = [200.0 + 150.0 * (at % 24 > 16) + at % 7 for at in range(8760)]
    values[300:400] = [None] * 100
    household = {
        "demand": {"log": {"first": "2025-01-01T00:00", "step_minutes": 60, "values_w": values}},
        "other_generation": {"panel_power_w": 3000},
        "machines": [{"name": "washing", "kwh_a_run": 0.9, "runs_per_week": 4, "usual_hour": 19}],
    }
    answer = post("/v1/appraisal", {**SMALLEST, "household": household, "include": ["used"]}).json()
    use = answer["use"]
    assert 0 < use["self_used_kwh"]["middle"] < use["upper_bound_self_used_kwh"]
    other = use["other_generation"]
    # Each of the three is rounded to 0.01 kWh by itself.
    displaced = other["set_alone_self_used_kwh"] - use["self_used_kwh"]["middle"]
    assert other["displaced_kwh"] == pytest.approx(displaced, abs=0.016)
    assert [habit["machine"] for habit in use["habits"]] == ["washing"]
    assert use["habits"][0]["currency"] == "EUR"
    gaps = [one for one in answer["assumptions"] if one["code"] == "gaps_filled"]
    assert [(one["pointer"], one["value"]) for one in gaps] == [("/household/demand/filled_share", 0.0114)]
    again = post("/v1/appraisal", answer["used"]).json()
    for name in ("other_generation", "habits", "demand_kwh", "self_used_share", "upper_bound_self_used_kwh"):
        assert again["use"][name] == use[name]


def test_without_a_plant_or_machines_none_is_invented() -> None:
    use = post("/v1/appraisal", SMALLEST).json()["use"]
    assert use["other_generation"] is None
    assert use["habits"] == []


def test_the_year_of_a_plant_beside_an_export_limit_reaches_the_energy() -> None:
    request = changed("/inverter/export_limit_w", 200)
    alone = post("/v1/energy", request).json()["energy"]["lost_kwh"]["export_limit"]
    request["household"] = {"other_generation": {"year_kwh": 3000}}
    assert post("/v1/energy", request).json()["energy"]["lost_kwh"]["export_limit"] > alone


def test_a_completed_request_sent_again_keeps_the_figures_and_loses_only_ranges_and_that_is_said() -> None:
    """What was filled in counts as given the second time: fewer assumptions, no wider band, the same middle."""
    first = post("/v1/energy", {**SMALLEST, "include": ["used"]}).json()
    again = post("/v1/energy", first["used"]).json()
    before, after = first["energy"]["year_kwh"], again["energy"]["year_kwh"]
    assert after["middle"] == before["middle"]
    assert before["cautious"] <= after["cautious"]
    assert after["hopeful"] <= before["hopeful"]
    assert len(again["assumptions"]) < len(first["assumptions"])
    document = ask("GET", "/openapi.json").json()
    said = document["components"]["schemas"]["EnergyAnswerOut"]["properties"]["used"]["description"]
    assert "counts as given" in said
    assert "range" in said


@pytest.mark.parametrize("first", ["2024-01-01T00:00:00+01:00", "2023-12-31T23:00:00.000Z", "2024-01-01T00:00"])
def test_a_leap_years_log_of_quarter_hours_goes_with_a_year_of_hourly_prices_both_ways(first: str) -> None:
    """35,136 values and two years of hourly prices in less than 2 MiB; the instants as other programs write them."""
    values = [150 + at * 7919 % 400 for at in range(35136)]
    hourly = {"import_prices_per_kwh": [0.2 + at % 24 * 0.01 for at in range(8760)],
              "export_prices_per_kwh": [0.05 + at % 24 * 0.001 for at in range(8760)]}  # fmt: skip
    asked = {
        **SMALLEST,
        "household": {"demand": {"log": {"first": first, "step_minutes": 15, "values_w": values}}},
        "tariff": {"currency": "EUR", "periods": [{"valid_from": "2026-01-01", "export": "paid", "hourly": hourly}]},
    }
    answer = post("/v1/payback", asked)
    assert answer.status_code == 200, answer.text
    assert not [one for one in answer.json()["assumptions"] if one["code"] == "gaps_filled"]
