"""What does /v1/tilt answer: planes, ranges, schedules, map and picture, which way a railing faces?"""

import json
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from tests.http.client import SMALLEST, ask, mistakes, post

EXAMPLE: dict[str, Any] = json.loads(
    (Path(__file__).parents[2] / "examples" / "kranichwerft_tilt.json").read_text(encoding="utf-8")
)
YARD = SMALLEST | {"arrays": [{"mount": "ground_frame", "panel": {"rated_power_w": 410}}]}


def tilt(request: dict[str, Any], **wish: Any) -> dict[str, Any]:
    answer = post("/v1/tilt", request | ({"tilt": wish} if wish else {}))
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["tilt"]
    return found


@pytest.fixture(scope="module")
def example() -> dict[str, Any]:
    return tilt(EXAMPLE)


def test_the_smallest_request_gets_a_plane_its_energy_and_schedules() -> None:
    found = tilt(SMALLEST)
    assert found["objective"] == "energy"
    assert 15 <= found["best"]["tilt_deg"] <= 40
    assert 160 <= found["best"]["azimuth_deg"] <= 200
    assert found["best_year_kwh"] == found["best_planes"]["brings"]["year_kwh"]
    assert [one["changes_per_year"] for one in found["schedules"]] == [2, 4]
    assert "map" not in found
    assert "facing" not in found


def test_free_is_at_least_bounded_is_at_least_as_it_stands() -> None:
    request = SMALLEST | {"arrays": [{"mount": "hung_on_rail", "plane": {"tilt_deg": 90, "azimuth_deg": 150},
                                      "panel": {"rated_power_w": 410}}]}  # fmt: skip
    found = tilt(request, bounds={"low_tilt_deg": 60, "high_tilt_deg": 90})
    # The whole plane was given: it is how the set stands, and the tilt may go as far as the bounds say.
    stands, best, free = (found[name]["brings"]["year_kwh"] for name in ("stands", "best_planes", "free"))
    assert stands < best < free
    assert found["given_reaches_share"] == pytest.approx(stands / best, abs=1e-4)
    assert found["best"]["azimuth_deg"] == 150


def test_the_railing_of_the_example_faces_where_the_sun_says_with_a_house_beside_it(example: dict[str, Any]) -> None:
    facing = example["facing"]
    assert facing["sure"]
    assert facing["azimuth_deg"] == pytest.approx(150, abs=2)
    [house] = facing["obstacles"]
    assert (house["clock"], house["appears"]) == ("06:11", True)
    assert {one["plane"]["azimuth_deg"] for one in example["stands"]["planes"]} == {facing["azimuth_deg"]}


@pytest.mark.parametrize("path", ["/v1/energy", "/v1/appraisal"])
def test_the_other_paths_use_that_azimuth_too(path: str, example: dict[str, Any]) -> None:
    request = {name: value for name, value in EXAMPLE.items() if name != "tilt"}
    energy = post(path, request).json()["energy"]
    assert {one["plane"]["azimuth_deg"] for one in energy["arrays"]} == {example["facing"]["azimuth_deg"]}


def test_ranges_are_told_in_words(example: dict[str, Any]) -> None:
    texts = [one["text"] for one in tilt(YARD, bounds={"low_tilt_deg": 0, "high_tilt_deg": 90})["near_best"]]
    assert [text.split(" %")[0] for text in texts] == ["Within 1", "Within 2", "Within 5"]
    assert all("any tilt from" in text and "any direction from" in text for text in texts)
    assert "direction" not in example["near_best"][0]["text"]  # the railing keeps its own


def test_ranges_widen_with_the_share() -> None:
    near = tilt(YARD, bounds={"low_tilt_deg": 0, "high_tilt_deg": 90})["near_best"]
    widths = [one["high_tilt_deg"] - one["low_tilt_deg"] for one in near]
    assert widths == sorted(widths)
    assert widths[0] > 10


def test_a_railing_that_may_not_move_has_nothing_to_gain() -> None:
    request = SMALLEST | {"arrays": [{"mount": "hung_on_rail", "panel": {"rated_power_w": 410}}]}
    for schedule in tilt(request)["schedules"]:
        assert schedule["code"] == "nothing_gained"
        assert len(schedule["steps"]) == 1


def test_a_schedule_tells_days_gain_and_gain_for_each_change() -> None:
    request = YARD | {"tariff": EXAMPLE["tariff"]}
    two, four, twelve = tilt(request, bounds={"low_tilt_deg": 0, "high_tilt_deg": 90}, changes_per_year=[2, 4, 12])[
        "schedules"
    ]
    assert 0.015 < two["gain_share"] < four["gain_share"] <= twelve["gain_share"] < 0.06
    for one in (two, four, twelve):
        assert one["gain_kwh_per_change"] == pytest.approx(one["gain_kwh"] / len(one["steps"]), abs=0.01)
        assert one["gain_money"] is not None
    summer, winter = sorted(two["steps"], key=lambda step: step["plane"]["tilt_deg"])
    assert summer["from_date"]["month"] in {3, 4}
    assert winter["from_date"]["month"] in {8, 9, 10}


def test_a_number_of_planes_may_be_written_with_a_point() -> None:
    request = json.dumps(YARD | {"tilt": {"changes_per_year": [2]}}).replace("[2]", "[2.0]").encode()
    answer = post("/v1/tilt", request)
    assert answer.status_code == 200, answer.text
    assert [one["changes_per_year"] for one in answer.json()["tilt"]["schedules"]] == [2]


def test_listed_planes_are_the_only_ones() -> None:
    planes = [{"tilt_deg": 20, "azimuth_deg": 200}, {"tilt_deg": 70, "azimuth_deg": 170}]
    found = tilt(YARD, planes=planes)
    assert found["best"] in planes
    assert all(step["plane"] in planes for one in found["schedules"] for step in one["steps"])
    assert found["near_best"] == []


@pytest.mark.parametrize("objective", ["energy", "money"])
def test_what_each_objective_would_choose_agrees_with_the_best_and_has_most_of_its_own(objective: str) -> None:
    """The wanted one's row was of the tables: 528.38 kWh stood beside a best of 528.53."""
    found = tilt(YARD, objective=objective)
    rows = {one["objective"]: one for one in found["objectives"]}
    assert rows[objective]["plane"] == found["best"]
    assert rows[objective]["brings"] == found["best_planes"]["brings"]
    for wanted, told in (("energy", "year_kwh"), ("self_used", "self_used_kwh"), ("money", "saving_first_year")):
        assert rows[wanted]["brings"][told] == max(row["brings"][told] for row in rows.values())


def test_a_map_has_its_axes_and_a_row_for_each_tilt(example: dict[str, Any]) -> None:
    found = example["map"]
    assert found["tilt_deg"] == [0, 15, 30, 45, 60, 75, 90]
    assert found["azimuth_deg"] == [0, 45, 90, 135, 180, 225, 270, 315]
    for name in ("year_kwh", "saving_first_year"):
        assert [len(row) for row in found[name]] == [8] * 7


def test_a_map_without_steps_is_one_by_five_degrees() -> None:
    found = tilt(YARD, map={})["map"]
    assert (len(found["tilt_deg"]), len(found["azimuth_deg"])) == (91, 72)
    flat = found["year_kwh"][0]
    assert max(flat) - min(flat) < 0.2  # flat has no direction


SVG = "{http://www.w3.org/2000/svg}"


def picture(request: dict[str, Any]) -> ET.Element:
    answer = post("/v1/tilt", request, accept="image/svg+xml")
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"].startswith("image/svg+xml")
    return ET.fromstring(answer.content)


def texts_of(root: ET.Element) -> list[str]:
    return [node.text or "" for node in root.iter(f"{SVG}text")]


def test_a_picture_of_a_railing_has_the_railings_axes_and_needs_no_map_in_the_request() -> None:
    request = {name: value for name, value in EXAMPLE.items() if name != "tilt"}
    texts = texts_of(picture(request))
    assert "degrees out from upright" in texts
    assert "degrees turned left (-) or right of the railing" in texts
    assert {"-90", "+90"} <= set(texts)
    [said] = [text for text in texts if text.startswith("Best where")]
    assert "out from upright, straight out" in said  # the railing faces 150, and the panels with it
    assert "direction" not in said


def test_a_picture_of_a_set_in_the_yard_has_tilt_and_direction_and_says_what_its_marks_are() -> None:
    texts = texts_of(picture(YARD))
    assert "tilt in degrees, 90 upright" in texts
    assert {"best if nothing bound it", "best where it may stand", "as it stands"} <= set(texts)


def test_the_picture_is_of_money_where_money_is_wanted() -> None:
    texts = texts_of(picture(EXAMPLE))
    assert "Money saved in the first year by tilt and direction" in texts
    assert any("EUR" in text for text in texts)
    energy = texts_of(picture(EXAMPLE | {"tilt": EXAMPLE["tilt"] | {"objective": "energy"}}))
    assert "Yearly energy by tilt and direction" in energy


def caption(request: dict[str, Any]) -> list[str]:
    root = picture(request)
    lines = captions(root)
    assert root.findtext(f"{SVG}g/{SVG}desc") == " ".join(lines)
    return lines


def captions(root: ET.Element) -> list[str]:
    """The lines under the title, none wider than the picture."""
    lines = [text for text in texts_of(root) if text.startswith(("Share of", "Best where"))]
    assert all(len(line) <= 110 for line in lines)  # of 720 units, of 12 units' letters
    return lines


def test_the_caption_names_the_best_plane_where_the_set_may_stand() -> None:
    """It named the best plane of all: 38 degrees for a stand that may be tilted from 60 to 75."""
    wish = {"bounds": {"low_tilt_deg": 60, "high_tilt_deg": 75, "low_azimuth_deg": 100, "high_azimuth_deg": 140}}
    found = tilt(YARD, **wish)
    best, [share, said] = found["best"], caption(YARD | {"tilt": wish})
    assert found["free"]["planes"][0]["plane"] != best
    assert f"Best where it may stand: {best['tilt_deg']:.0f} degrees of tilt, {best['azimuth_deg']:.0f} degrees" in said
    assert said.endswith(f"{found['best_year_kwh']:.0f} kWh.")
    assert share.endswith(f": {found['free']['brings']['year_kwh']:.0f} kWh.")


def test_the_picture_is_of_use_at_home_where_that_is_wanted() -> None:
    request = EXAMPLE | {"tilt": {"objective": "self_used", "map": {"tilt_step_deg": 3, "azimuth_step_deg": 6}}}
    texts = texts_of(picture(request))
    assert "Energy used at home in a year by tilt and direction" in texts
    found = post("/v1/tilt", request).json()["tilt"]
    used, kwh = np.array(found["map"]["self_used_kwh"]), np.array(found["map"]["year_kwh"])
    assert used.shape == kwh.shape
    assert (used <= kwh + 0.1).all()
    assert used.max() == pytest.approx(found["free"]["brings"]["self_used_kwh"], rel=4e-3)
    assert caption(request)[1].endswith(f"{found['best_planes']['brings']['self_used_kwh']:.0f} kWh used at home.")
    plain = tilt(EXAMPLE, objective="energy", map={"tilt_step_deg": 15, "azimuth_step_deg": 30})
    assert "self_used_kwh" not in plain["map"]


BELOW_A_SLAB = {"mount": "wall", "plane": {"azimuth_deg": 190}, "panel": {"rated_power_w": 410},
                "overhang": {"above_top_edge_m": 0.5, "reaches_out_m": 1.2}}  # fmt: skip


def test_the_best_plane_of_all_brings_as_much_in_the_pictures_words_as_where_the_set_may_stand() -> None:
    """It brought 29.97 by the map and 30.05 by the account, in one and the same plane."""
    wish = {"objective": "money", "map": {"tilt_step_deg": 5, "azimuth_step_deg": 10}}
    request = SMALLEST | {"arrays": [BELOW_A_SLAB], "tilt": wish}
    found = post("/v1/tilt", request).json()["tilt"]
    assert found["free"]["planes"][0]["plane"] == found["best"]
    [share, said] = caption(request)
    assert share.rpartition(": ")[2] == said.rpartition(": ")[2]
    top = max(max(row) for row in found["map"]["saving_first_year"])
    assert top <= found["free"]["brings"]["saving_first_year"]


@pytest.mark.parametrize(("objective", "told"), [("money", "saving_first_year"), ("self_used", "self_used_kwh")])
def test_a_map_of_money_or_use_at_home_tells_of_a_plane_what_the_account_does(objective: str, told: str) -> None:
    """A panel of 200 W in the yard: 56.56 by the map, 56.76 by the account."""
    request = SMALLEST | {"arrays": [{"mount": "ground_frame", "panel": {"rated_power_w": 200}}]}
    found = tilt(request, objective=objective, map={"tilt_step_deg": 15, "azimuth_step_deg": 30})
    most = found["free"]["brings"][told]
    for at, to in ((2, 6), (4, 3), (6, 8)):
        there = [{"tilt_deg": 15 * at, "azimuth_deg": 30 * to}]
        account = tilt(request, objective=objective, planes=there, changes_per_year=[])["best_planes"]["brings"][told]
        assert found["map"][told][at][to] == pytest.approx(account, abs=1e-3 * most)


def test_the_caption_counts_one_degree() -> None:
    """It said "1 degrees"."""
    array = {"mount": "wall", "facade_azimuth_deg": 180, "panel": {"rated_power_w": 410}}
    wish = {"planes": [{"tilt_deg": 89, "azimuth_deg": 179}], "map": {"tilt_step_deg": 15, "azimuth_step_deg": 45}}
    [_, said] = caption(SMALLEST | {"arrays": [array], "tilt": wish})
    assert "1 degree out from upright, 1 degree to the left" in said


def test_a_cell_of_the_picture_has_its_plane_in_its_middle() -> None:
    """Of eight directions each takes an eighth of the width, south in the middle, north half at either end."""
    root = picture(YARD | {"tilt": {"map": {"tilt_step_deg": 15, "azimuth_step_deg": 45}}})
    group = next(node for node in root.iter(f"{SVG}g") if node.get("shape-rendering"))
    top = min(float(rect.get("y", "")) for rect in group)
    edges = set()
    for rect in group:
        if float(rect.get("y", "")) == top:  # upright
            left = float(rect.get("x", ""))
            edges |= {left, left + float(rect.get("width", ""))}
    assert {round((edge - 64) / 720 * 16, 3) for edge in edges} <= {0, 1, 3, 5, 7, 9, 11, 13, 15, 16}


def test_ranges_on_a_railing_are_told_from_the_railing() -> None:
    array = {"mount": "hung_on_rail", "plane": {"azimuth_deg": 150}, "panel": {"rated_power_w": 410}}
    found = tilt(SMALLEST | {"arrays": [array]}, bounds={"low_tilt_deg": 40, "high_tilt_deg": 90,
                 "low_azimuth_deg": 90, "high_azimuth_deg": 210})  # fmt: skip
    assert found["railing_azimuth_deg"] == 150
    wide = found["near_best"][-1]["text"]
    assert f"any lean from {90 - found['near_best'][-1]['high_tilt_deg']:.0f} to" in wide
    assert "out from upright" in wide
    assert "degrees to the right" in wide


def test_a_range_without_a_width_is_told_as_one() -> None:
    found = tilt(YARD, bounds={"low_tilt_deg": 30, "high_tilt_deg": 30, "low_azimuth_deg": 20, "high_azimuth_deg": 350})
    for one in found["near_best"]:
        assert "no tilt but 30 degrees" in one["text"]
    nailed = tilt(YARD, bounds={"low_azimuth_deg": 350, "high_azimuth_deg": 350, "low_tilt_deg": 0})
    assert all("350" not in one["text"] for one in nailed["near_best"])
    far = tilt(YARD, bounds={"low_tilt_deg": 80, "high_tilt_deg": 90, "low_azimuth_deg": 340, "high_azimuth_deg": 40})
    assert all("direction" in one["text"] for one in far["near_best"])


def test_rules_of_thumb_say_their_source_and_how_far_off_they_are() -> None:
    site = {"latitude_deg": 48.1, "longitude_deg": 11.6}
    rules = {one["code"]: one for one in tilt(YARD | {"site": site})["rules_of_thumb"]}
    assert set(rules) == {"fit", "latitude_fixed", "latitude_two", "latitude_four", "tilt_is_latitude"}
    assert all(one["text"].startswith("Rule of thumb") and one["source"] for one in rules.values())
    assert 0 <= rules["fit"]["off_share"] < 0.02
    assert 0 <= rules["latitude_two"]["off_share"] < 0.02


def test_how_far_off_a_rule_is_stands_in_its_text_and_one_by_season_is_held_to_the_best_schedule() -> None:
    site = {"latitude_deg": 48.1, "longitude_deg": 11.6}
    found = tilt(YARD | {"site": site}, bounds={"low_tilt_deg": 0, "high_tilt_deg": 90})
    rules = {one["code"]: one for one in found["rules_of_thumb"]}
    for code, rule in rules.items():
        assert "% below the best" in rule["text"], code
    for code, schedule in zip(("latitude_two", "latitude_four"), found["schedules"], strict=True):
        best = found["best_year_kwh"] + schedule["gain_kwh"]
        assert rules[code]["off_share"] == pytest.approx(1 - rules[code]["year_kwh"] / best, abs=3e-4)
        assert rules[code]["off_share"] >= 0


def test_money_can_say_that_moving_is_not_worth_it_whatever_the_energy() -> None:
    """Nearly all of the surplus leaves unpaid: 60 kWh more a year are worth cents."""
    request = YARD | {"site": {"latitude_deg": 40, "longitude_deg": -3, "rule_area": "ES"},
                      "tariff": EXAMPLE["tariff"], "household": {"demand_kwh_per_year": 300}}  # fmt: skip
    arrays = [YARD["arrays"][0] | {"count": 2}]
    two, _ = tilt(request | {"arrays": arrays}, bounds={"low_tilt_deg": 0, "high_tilt_deg": 90})["schedules"]
    assert two["gain_kwh_per_change"] > 10
    assert two["gain_money_per_change"] < 1
    assert two["code"] == "hardly_worth_moving"


@pytest.mark.parametrize("objective", ["energy", "self_used", "money"])
def test_a_schedule_is_told_in_what_was_wanted(objective: str) -> None:
    request = YARD | {"tariff": EXAMPLE["tariff"], "household": {"demand_kwh_per_year": 900}}
    found = tilt(request, objective=objective, bounds={"low_tilt_deg": 0, "high_tilt_deg": 90})
    brought, gained = {
        "energy": ("year_kwh", "gain_kwh"),
        "self_used": ("self_used_kwh", "gain_self_used_kwh"),
        "money": ("saving_first_year", "gain_money"),
    }[objective]
    of_best = found["best_planes"]["brings"][brought]
    for schedule in found["schedules"]:
        share = schedule[gained] / of_best
        assert schedule["gain_share"] == pytest.approx(share, abs=2e-3)
        said = float(schedule["text"].split(" %")[0].rpartition("(")[2])
        assert said == pytest.approx(100 * schedule["gain_share"], abs=0.051)
        first = schedule["text"].split("(")[0]
        half = 0.005 if objective == "money" else 0.05  # of the last digit told; the figure itself is rounded to 0.01
        told = [float(number) for number in re.findall(r"\d+\.\d+", first)]
        assert any(abs(number - schedule[gained]) <= half + 0.0051 for number in told), (first, schedule[gained])


def test_beyond_their_latitudes_rules_are_not_told() -> None:
    assert {one["code"] for one in tilt(YARD)["rules_of_thumb"]} == {"fit", "tilt_is_latitude"}


def test_under_an_export_limit_of_nothing_energy_chooses_as_use_at_home_does() -> None:
    request = YARD | {"inverter": {"ac_power_w": 600, "export_limit_w": 0}}
    energy, used = (
        tilt(request, objective=objective)["best_planes"]["brings"] for objective in ("energy", "self_used")
    )
    assert energy["year_kwh"] == pytest.approx(energy["self_used_kwh"], rel=1e-6)
    assert energy["year_kwh"] == pytest.approx(used["year_kwh"], rel=5e-4)


def test_every_objective_says_what_it_would_choose_and_what_that_brings() -> None:
    found = tilt(YARD | {"tariff": EXAMPLE["tariff"]}, objective="self_used")
    chosen = {one["objective"]: one["brings"] for one in found["objectives"]}
    assert set(chosen) == {"energy", "self_used", "money"}
    assert chosen["energy"]["year_kwh"] >= chosen["self_used"]["year_kwh"] * (1 - 1e-3)
    assert chosen["self_used"]["self_used_kwh"] >= chosen["energy"]["self_used_kwh"] * (1 - 1e-3)


def test_under_yearly_netting_money_chooses_as_energy_does() -> None:
    tariff = {"currency": "EUR", "periods": [{"valid_from": "2026-01-01", "import_price_per_kwh": 0.3,
                                              "export": "netted", "export_price_per_kwh": 0.0}]}  # fmt: skip
    request = YARD | {"tariff": tariff, "meter": {"netting": "year"}, "household": {"demand_kwh_per_year": 3000}}
    chosen = {one["objective"]: one["brings"]["saving_first_year"] for one in tilt(request)["objectives"]}
    assert chosen["money"] == pytest.approx(chosen["energy"], rel=2e-3)
    assert chosen["money"] >= chosen["self_used"] - 0.01


@pytest.mark.parametrize(("wish", "pointer", "code"), [
    ({"objective": "most"}, "/tilt/objective", "not_one_of"),
    ({"bounds": {"low_tilt_deg": 50, "high_tilt_deg": 20}}, "/tilt/bounds/high_tilt_deg", "contradiction"),
    ({"bounds": {"low_azimuth_deg": 50}}, "/tilt/bounds/high_azimuth_deg", "contradiction"),
    ({"changes_per_year": [3]}, "/tilt/changes_per_year/0", "not_one_of"),
    ({"map": {"tilt_step_deg": 0.1}}, "/tilt/map/tilt_step_deg", "out_of_range"),
    ({"planes": []}, "/tilt/planes", "wrong_count"),
    ({"planes": [{"tilt_deg": 10, "azimuth_deg": 180}], "hinge_tilts_deg": [20]}, "/tilt/hinge_tilts_deg",
     "contradiction"),
])  # fmt: skip
def test_a_wish_that_makes_no_sense_is_refused_where_it_stands(wish: dict[str, Any], pointer: str, code: str) -> None:
    answer = post("/v1/tilt", YARD | {"tilt": wish})
    assert answer.status_code == 422, answer.text
    assert mistakes(answer) == {pointer: code}


def test_money_without_a_price_is_refused_with_what_would_do() -> None:
    request = YARD | {"site": {"latitude_deg": -34, "longitude_deg": 20}, "tilt": {"objective": "money"}}
    assert mistakes(post("/v1/tilt", request)) == {"/tilt/objective": "contradiction"}


@pytest.mark.parametrize(("note", "pointer"), [
    ({"month": 12, "day": 12, "from_clock": "02:00"}, "/site/sun_seen/0/from_clock"),
    ({"month": 2, "day": 30, "from_clock": "10:00"}, "/site/sun_seen/0/day"),
    ({"month": 2, "day": 3}, "/site/sun_seen/0"),
    ({"month": 5, "day": 10, "from_clock": "16:00", "to_clock": "07:40"}, "/site/sun_seen/0/to_clock"),
])  # fmt: skip
def test_a_note_of_the_sun_that_cannot_be_is_refused(note: dict[str, Any], pointer: str) -> None:
    request = SMALLEST | {"site": SMALLEST["site"] | {"sun_seen": [note]}}
    assert mistakes(post("/v1/tilt", request)) == {pointer: "contradiction"}


def test_the_same_question_gets_the_same_bytes_and_other_formats_are_refused() -> None:
    assert post("/v1/tilt", YARD).content == post("/v1/tilt", YARD).content
    assert post("/v1/tilt", YARD, accept="text/csv").status_code == 406


def test_the_vocabulary_lists_the_codes_of_tilt() -> None:
    words = {one["code"] for one in ask("GET", "/v1/vocabulary").json()["tilt"]}
    assert {"worth_moving", "hardly_worth_moving", "nothing_gained", "fit", "tilt_is_latitude"} <= words


def test_where_every_plane_costs_money_the_one_that_costs_least_is_told() -> None:
    # All that is sent out is billed, so that no plane brings anything; the arrays may stand apart.
    array = {"mount": "hung_on_rail", "panel": {"rated_power_w": 440}}
    request = {
        **SMALLEST,
        "arrays": [{**array, "name": "left", "input": 1, "count": 2, "joined": "series"},
                   {**array, "name": "right", "input": 2}],
        "inverter": {"ac_power_w": 800, "input_count": 2},
        "household": {"demand_kwh_per_year": 300, "always_on_w": 10},
        "meter": {"counts": "one_way", "sums_phases": False},
        "tariff": {"currency": "EUR", "periods": [
            {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"}]},
    }  # fmt: skip
    told = tilt(request, objective="money", bounds={"low_tilt_deg": 55, "high_tilt_deg": 90})
    assert told["best_planes"]["brings"]["saving_first_year"] < 0, told["best_planes"]
