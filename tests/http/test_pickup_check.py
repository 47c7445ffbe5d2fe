"""What must a multimeter read at the seller's door, asked over HTTP?"""

import json
from html import escape
from pathlib import Path
from typing import Any

import pytest

from service.api.words.english.pickup import TEXTS
from tests.http.client import ask, post
from tests.http.test_document import checker

PATH = "/v1/pickup-check"
PANEL = {"open_circuit_voltage_v": 40.6, "short_circuit_current_a": 9.85, "voc_coefficient_pct_per_k": -0.3,
         "isc_coefficient_pct_per_k": 0.05, "cells_in_series": 60}  # fmt: skip
SITE = {"latitude_deg": 54.2, "longitude_deg": 12.3}
READ = {"open_circuit_voltage_v": 38.3, "short_circuit_current_a": 6.1}
EXAMPLES = sorted((Path(__file__).parents[2] / "examples" / "pickup").glob("*.json"))


def checked(**request: Any) -> dict[str, Any]:
    answer = post(PATH, {"as_of": "2026-11-25", "panel": PANEL, **request})
    assert answer.status_code == 200, answer.text
    whole: dict[str, Any] = answer.json()
    return whole


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_examples_and_their_answers_keep_to_the_document(file: Path) -> None:
    document = ask("GET", "/openapi.json").json()
    request = json.loads(file.read_text(encoding="utf-8"))
    checker(document, "PickupCheckIn").validate(request)
    answer = post(PATH, request)
    assert answer.status_code == 200, answer.text
    checker(document, "PickupCheckOut").validate(answer.json())


def test_the_three_panels_of_the_example_are_told_apart() -> None:
    request = json.loads((EXAMPLES[0].parent / "three_panels.json").read_text(encoding="utf-8"))
    found = {one["panel"]: one for one in post(PATH, request).json()["pickup"]["results"]}
    assert {name: one["verdict"] for name, one in found.items()} == {
        "left": "as_expected", "middle": "suspicious", "right": "suspicious",
    }  # fmt: skip
    assert found["right"]["causes"][0]["code"] == "bypass_section_lost"
    assert "One third" in found["right"]["causes"][0]["text"]
    assert found["middle"]["causes"][0]["code"] == "lower_than_the_lot"


def test_measured_light_gives_what_the_formula_gives() -> None:
    """Worked case: 38.627 V and 6.435 A at 650 W/m2 and 35 C; see the tests of the core for the source."""
    pickup = checked(conditions={"irradiance_w_per_m2": 650, "cell_c": 35}, readings=[READ])["pickup"]
    assert pickup["expected"]["open_circuit_voltage_v"]["likely"] == pytest.approx(38.627, abs=0.005)
    assert pickup["expected"]["short_circuit_current_a"]["likely"] == pytest.approx(6.4345, abs=0.001)
    assert pickup["verdict"] == "as_expected"


def test_without_readings_it_tells_what_to_expect_and_judges_nothing() -> None:
    pickup = checked(conditions={"irradiance_w_per_m2": 650, "cell_c": 35})["pickup"]
    assert pickup["verdict"] is None
    assert pickup["results"] == []
    assert [one["code"] for one in pickup["look_at"]][:3] == ["glass", "cells", "back"]


@pytest.mark.parametrize(
    ("conditions", "code"),
    [
        ({"sky": "indoors"}, "light_indoors"),
        ({"sky": "indoors", "irradiance_w_per_m2": 650}, "light_indoors"),
        ({"site": SITE, "time": "2026-11-25T18:00:00+01:00", "sky": "clear"}, "sun_is_down"),
        ({"site": SITE, "time": "2026-11-25T18:00:00+01:00"}, "sun_is_down"),
        ({"site": SITE, "time": "2026-11-25T12:00:00+01:00"}, "light_not_known"),
        ({"site": SITE, "time": "2026-11-25T12:00:00+01:00", "sky": "overcast"}, "light_too_low"),
        ({"irradiance_w_per_m2": 60, "cell_c": 12}, "light_too_low"),
        ({"irradiance_w_per_m2": 0}, "light_too_low"),
        ({}, "light_not_known"),
    ],
)
def test_without_light_to_judge_by_nobody_can_tell_and_it_says_when_to_ask(conditions: Any, code: str) -> None:
    pickup = checked(conditions=conditions, readings=[READ])["pickup"]
    assert pickup["verdict"] == "cannot_tell"
    assert code in [one["code"] for one in pickup["results"][0]["causes"]]
    assert pickup["results"][0]["worth_now_share"] is None
    assert pickup["ask_for"]["text"]


def test_after_sunset_the_next_days_sun_is_told_by_the_places_clock() -> None:
    conditions = {"site": SITE, "time": "2026-11-25T18:00:00+01:00", "sky": "clear"}
    told = checked(conditions=conditions)["pickup"]["ask_for"]
    assert told["from_time"].startswith("2026-11-26T")
    assert told["from_time"].endswith("+01:00")
    assert told["from_time"] < "2026-11-26T12:10" < told["to_time"]


@pytest.mark.parametrize(
    ("meter", "code"),
    [
        ({}, "no_current_with_this_meter"),
        ({"current_limit_a": 20}, "current"),
        ({"clamps_dc": True}, "current_by_clamp"),
        ({"current_limit_a": 0.4}, "no_current_with_this_meter"),
    ],
)
def test_nobody_is_told_to_short_thirteen_amperes_through_a_ten_ampere_fuse(meter: Any, code: str) -> None:
    panel = {"open_circuit_voltage_v": 38.2, "short_circuit_current_a": 14.3, "cells_in_series": 54}
    found = checked(panel=panel, conditions={"irradiance_w_per_m2": 930, "cell_c": 42}, multimeter=meter)
    told = [one["code"] for one in found["pickup"]["how"]]
    assert code in told
    assert told.index(code) + 1 == told.index("never_part_under_sun")
    assert len([one for one in told if "current" in one]) == 1


def test_a_meter_for_few_volts_is_kept_away() -> None:
    found = checked(multimeter={"voltage_limit_v": 30}, conditions={"irradiance_w_per_m2": 800})
    assert "no_voltage_with_this_meter" in [one["code"] for one in found["pickup"]["how"]]


@pytest.mark.parametrize(
    ("panel", "unread"),
    [
        ({"rated_power_w": 300}, {"open_circuit_voltage_v", "short_circuit_current_a"}),
        ({"open_circuit_voltage_v": 40.6}, {"short_circuit_current_a"}),
        ({"short_circuit_current_a": 9.85}, {"open_circuit_voltage_v"}),
    ],
)
def test_a_rating_not_read_is_assumed_with_a_range_and_proves_nothing(panel: Any, unread: set[str]) -> None:
    found = checked(panel=panel, conditions={"irradiance_w_per_m2": 650, "cell_c": 35}, readings=[READ])
    assumed = {one["pointer"].rpartition("/")[2]: one for one in found["assumptions"]}
    for name in unread:
        assert assumed[name]["low"] < assumed[name]["value"] < assumed[name]["high"]
    [seen] = found["pickup"]["results"]
    assert seen["verdict"] == "cannot_tell"
    assert all(one["verdict"] != "as_expected" for one in seen["quantities"] if one["what"] in unread)


def test_what_was_taken_stands_at_places_of_this_request() -> None:
    found = checked(conditions={"irradiance_w_per_m2": 650})
    pointers = [one["pointer"] for one in found["assumptions"]]
    assert all(one.startswith(("/panel/", "/conditions/", "/multimeter/")) for one in pointers)
    assert {"/conditions/air_c", "/conditions/cell_c", "/multimeter/current_limit_a"} <= set(pointers)
    assert all(one["text"] and one["source"] for one in found["assumptions"])


def test_the_cautions_are_those_of_the_door() -> None:
    found = checked(conditions={"irradiance_w_per_m2": 650})
    assert found["cautions"]
    assert {one["step"] for one in found["cautions"]} == {"at_the_door"}


def test_readings_without_a_name_are_panels_of_their_own() -> None:
    found = checked(conditions={"irradiance_w_per_m2": 650, "cell_c": 35}, readings=[READ, READ])
    assert [one["panel"] for one in found["pickup"]["results"]] == ["#1", "#2"]


@pytest.mark.parametrize(
    ("request_", "pointer", "code"),
    [
        ({"panel": {"cells_in_series": 60}}, "/panel/rated_power_w", "missing"),
        ({}, "/panel", "missing"),
        ({"panel": PANEL, "conditions": {"plane": {"tilt_deg": 30}}}, "/conditions/plane/azimuth_deg", "missing"),
        ({"panel": PANEL, "conditions": {"sky": "sunny"}}, "/conditions/sky", "not_one_of"),
        ({"panel": PANEL, "conditions": {"time": "2026-11-25T12:00"}}, "/conditions/time", "wrong_form"),
        ({"panel": PANEL, "conditions": {"irradiance_w_per_m2": 6500}}, "/conditions/irradiance_w_per_m2",
         "out_of_range"),
        ({"panel": PANEL, "readings": [{"voc": 38}]}, "/readings/0/voc", "unknown_field"),
        ({"panel": PANEL, "readings": [{"open_circuit_voltage_v": "38"}]}, "/readings/0/open_circuit_voltage_v",
         "not_a_number"),
        ({"panel": {**PANEL, "max_power_voltage_v": 44, "rated_power_w": 310}}, "/panel", "contradiction"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_at_its_place(request_: Any, pointer: str, code: str) -> None:
    answer = post(PATH, request_)
    assert answer.status_code == 422, answer.text
    assert any(one["pointer"].startswith(pointer) and one["code"] == code for one in answer.json()["errors"]), (
        answer.text
    )


def test_a_count_of_cut_cells_is_halved_and_told_and_the_label_counts_as_read() -> None:
    halves = {"rated_power_w": 330, "open_circuit_voltage_v": 40.6, "short_circuit_current_a": 10.2}
    read = {"open_circuit_voltage_v": 38.3, "short_circuit_current_a": 6.5}
    conditions = {"irradiance_w_per_m2": 650, "cell_c": 35}
    found, whole = (
        checked(panel={**halves, "cells_in_series": cells}, conditions=conditions, readings=[read])
        for cells in (120, 60)
    )  # fmt: skip
    assert found["pickup"] == whole["pickup"]
    assert found["pickup"]["verdict"] == "as_expected"
    [told] = [one for one in found["assumptions"] if one["pointer"] == "/panel/cells_in_series"]
    assert (told["value"], told["code"]) == (60, "halves_counted")


def test_a_label_that_does_not_hang_together_is_told_by_what_is_wrong_with_it() -> None:
    odd = {"open_circuit_voltage_v": 40.6, "short_circuit_current_a": 9.85, "cells_in_series": 40}
    found = checked(panel=odd, conditions={"irradiance_w_per_m2": 650, "cell_c": 35}, readings=[READ])
    causes = [one for one in found["pickup"]["results"][0]["causes"] if one["code"] == "label_doubtful"]
    assert causes[0]["text"] == TEXTS["cause.label_doubtful.voltage_per_cell"]
    assert "not told" not in causes[0]["text"]


def test_the_leak_is_told_in_megohms_beside_the_least_for_the_panels_size() -> None:
    """5 + 5 V of 38 V through 10 megohms: 28 megohms; 1.9 m2 want 40 / 1.9 = 21.05."""
    panel = {**PANEL, "length_mm": 1900, "width_mm": 1000}
    frame = {"panel": "a", "plus_to_frame_v": 5, "frame_to_minus_v": 5, "meter_input_mohm": 10}
    sound = {"panel": "a", "open_circuit_voltage_v": 38.0, "short_circuit_current_a": 6.3}
    conditions = {"irradiance_w_per_m2": 650, "cell_c": 35}
    for wet, verdict in ((False, "cannot_tell"), (True, "as_expected")):
        [seen] = checked(panel=panel, conditions=conditions, readings=[sound, {**frame, "wetted": wet}])["pickup"][
            "results"
        ]
        [leak] = [one for one in seen["quantities"] if one["leak_mohm"] is not None]
        assert leak["leak_mohm"] == pytest.approx(28.0, abs=0.01)
        assert leak["least_mohm"] == pytest.approx(21.05, abs=0.01)
        assert seen["verdict"] == leak["verdict"] == verdict


def test_the_fuse_is_judged_alike_under_a_cloud_and_in_sun() -> None:
    """9.85 A x 1.05 x 1.25 = 12.93 A: too much for 10 A though 450 W/m2 drive 4.5 A now."""
    for light in (150, 250, 450, 850, 1100):
        panel, meter = {**PANEL, "age_years": 9}, {"current_limit_a": 10}
        found = checked(panel=panel, conditions={"irradiance_w_per_m2": light}, multimeter=meter)
        how = {one["code"]: one for one in found["pickup"]["how"]}
        assert "current" not in how
        assert how["no_current_with_this_meter"]["facts"]["most"] == 13.0
        cautions = [one["code"] for one in found["cautions"]]
        assert "meter_isc_fuse" in cautions
        assert "meter_isc_time" not in cautions


def test_the_dark_test_of_the_diodes_is_told_with_the_leads_either_way() -> None:
    [told] = [one for one in checked()["pickup"]["how"] if one["code"] == "diodes_in_the_dark"]
    assert "Red on the minus lead, black on the plus lead: 0.45 to 1.2 V for 3 Schottky" in told["text"]
    assert "red on plus, black on minus: no value" in told["text"]
    seen = checked(
        conditions={"irradiance_w_per_m2": 650, "cell_c": 35},
        readings=[{**READ, "bypass_over_range": True, "bypass_swapped_v": 0.9}],
    )["pickup"]["results"][0]
    assert [one["code"] for one in seen["causes"]] == ["bypass_leads_mixed_up"]


def test_a_time_without_its_offset_is_asked_back_with_what_is_lacking() -> None:
    answer = post(PATH, {"panel": PANEL, "conditions": {"site": SITE, "time": "2026-05-10T12:30", "sky": "clear"}})
    [error] = answer.json()["errors"]
    assert "offset from UTC" in error["accepted"]


def test_volts_below_those_of_the_lot_are_not_laid_to_dirt() -> None:
    """Dirt and shade take current; volts hardly move with light."""
    lot = [{"panel": name, "open_circuit_voltage_v": volts} for name, volts in zip("abc", (38, 38.2, 33), strict=True)]
    seen = checked(readings=lot)["pickup"]["results"][2]
    assert seen["causes"][0]["code"] == "lower_than_the_lot"
    assert "dirt" not in seen["causes"][0]["text"]


def on_paper(request: dict[str, Any]) -> str:
    answer = post(PATH, {"as_of": "2026-11-25", **request}, accept="text/plain")
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"] == "text/plain; charset=utf-8"
    assert max(len(line) for line in answer.text.split("\n")) <= 72
    return answer.text


def worth_on_paper(seen: dict[str, Any]) -> str:
    """From the least to the most, where the least is known and less."""
    least, most = seen["worth_now_least_share"], seen["worth_now_share"]
    between = "" if least is None or least >= most else f"{100 * least:.0f} to "
    return f"Worth now: {between}{100 * most:.0f}"


FAIR = {"irradiance_w_per_m2": 650, "cell_c": 35}


def test_two_sound_readings_claim_no_full_worth_and_say_what_they_cannot_see() -> None:
    sound = {"panel": "a", "open_circuit_voltage_v": 38.3, "short_circuit_current_a": 6.3}
    [seen] = checked(conditions=FAIR, readings=[sound])["pickup"]["results"]
    assert seen["verdict"] == "as_expected"
    assert seen["worth_now_least_share"] < 0.35
    assert "at most" in seen["worth_because"]["text"]
    [told] = seen["not_seen"]
    for word in ("bypass diodes", "load near the knee", "hot spots", "dark"):
        assert word in told["text"]


def test_exchanged_columns_come_as_a_remark() -> None:
    exchanged = {"panel": "a", "open_circuit_voltage_v": 6.3, "short_circuit_current_a": 38.3}
    pickup = checked(conditions=FAIR, readings=[exchanged])["pickup"]
    assert [one["code"] for one in pickup["remarks"]] == ["columns_swapped"]
    assert (pickup["verdict"], pickup["results"][0]["worth_now_share"]) == ("cannot_tell", None)


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_the_page_for_the_phone_says_what_the_json_says(file: Path) -> None:
    request = json.loads(file.read_text(encoding="utf-8"))
    whole, page = checked(**request), " ".join(on_paper(request).split())
    pickup = whole["pickup"]
    causes = [cause for seen in pickup["results"] for cause in seen["causes"]]
    worth = [seen["worth_because"] for seen in pickup["results"]]
    ask_for = [pickup["ask_for"]] if pickup["ask_for"] else []
    for one in (*causes, *worth, *ask_for, *pickup["how"], *pickup["look_at"], *whole["cautions"]):
        assert one["text"] in page
    for seen in pickup["results"]:
        assert f"{seen['panel']}: {seen['verdict'].replace('_', ' ').upper()}" in page
        if seen["worth_now_share"] is not None:
            assert f"{worth_on_paper(seen)} % of a sound one's price. {seen['worth_because']['text']}" in page
        for told in seen["not_seen"]:
            assert told["text"] in page


def test_the_page_begins_with_the_verdict_and_without_readings_with_what_they_should_be() -> None:
    conditions = {"irradiance_w_per_m2": 650, "cell_c": 35}
    assert on_paper({"panel": PANEL, "conditions": conditions}).startswith("What a sound panel reads now")
    read = on_paper({"panel": PANEL, "conditions": conditions, "readings": [{"panel": "left", **READ}]})
    assert read.startswith("What the readings say")
    assert "left: AS EXPECTED." in read
    low = checked(conditions=conditions)["pickup"]["expected"]["open_circuit_voltage_v"]["low"]
    assert f"Open-circuit voltage: 38.3 V, expected {low:.2f} to" in read


def test_on_paper_a_leak_stands_in_megohms_and_a_dark_room_promises_no_volts() -> None:
    """21 of 38.3 V through 10 megohms: 10 (38.3 / 21 - 1) = 8.24 megohms; 1.6 m2 want 25."""
    leak = {"panel": "a", "plus_to_frame_v": 12, "frame_to_minus_v": 9, "wetted": True, "meter_input_mohm": 10}
    conditions = {"irradiance_w_per_m2": 650, "cell_c": 35}
    panel = {**PANEL, "length_mm": 1600, "width_mm": 1000}
    page = " ".join(
        on_paper({"panel": panel, "conditions": conditions, "readings": [{"panel": "a", **READ}, leak]}).split()
    )
    assert "wetted: 21 V; about 8.24 megohms, where 25 are the least" in page
    indoors = on_paper({"panel": PANEL, "conditions": {"sky": "indoors"}, "readings": [READ]})
    assert "Open-circuit voltage: there is no daylight to read by" in indoors
    assert "#1: CANNOT TELL." in indoors
    assert "When to read it" in indoors


def test_what_cannot_be_is_told_as_text_too_and_other_formats_are_refused() -> None:
    refused = post(PATH, {"panel": {"cells_in_series": 60}}, accept="text/plain")
    assert refused.status_code == 422
    assert refused.headers["content-type"].startswith("text/plain")
    assert "/panel/rated_power_w" in refused.text
    assert post(PATH, {"panel": PANEL}, accept="image/svg+xml").status_code == 406


def test_every_sentence_is_filled_in_and_none_promises_that_it_does_no_harm() -> None:
    for text in TEXTS.values():
        assert "safe" not in text.lower()
        assert "legal" not in text.lower()
    leak = {"panel": "a", "plus_to_frame_v": 12, "frame_to_minus_v": 9, "wetted": True, "bypass_over_range": True}
    found = checked(conditions={"irradiance_w_per_m2": 650, "cell_c": 35}, readings=[{"panel": "a", **READ}, leak])
    [seen] = found["pickup"]["results"]
    assert {one["code"] for one in seen["causes"]} == {"leaks_frame_wetted", "bypass_open"}
    for one in (*seen["causes"], *found["pickup"]["how"], *found["pickup"]["look_at"]):
        assert len(one["text"]) > 20
        assert "{" not in one["text"]


def test_the_vocabulary_lists_what_the_check_may_say() -> None:
    words = ask("GET", "/v1/vocabulary").json()
    assert words["pickup_verdicts"] == ["as_expected", "suspicious", "cannot_tell"]
    assert {"bypass_section_lost", "leaks_frame_wetted"} <= {one["code"] for one in words["pickup_causes"]}
    skies = next(one["words"] for one in words["words"] if one["name"] == "sky")
    assert skies == ["clear", "thin_cloud", "overcast", "indoors"]


@pytest.mark.parametrize(
    ("field", "given", "example", "said"),
    [
        ("open_circuit_voltage_v", -37.9, "37.9", "connectors were fitted the wrong way round"),
        ("short_circuit_current_a", -6.1, "6.1", "minus sign"),
        ("plus_to_frame_v", -3, "3", "black on the frame"),
        ("frame_to_minus_v", -3, "3", "red belongs on the frame"),
        ("meter_input_mohm", 10_000, "10", "did you mean 10 megohm?"),  # kilohms: any leak would have passed
        ("meter_input_mohm", 10_000_000, "10", "did you mean 10 megohm?"),
        ("bypass_forward_v", 620, "0.62", "did you mean 0.62 V?"),
        ("short_circuit_current_a", 7700, "7.7", "did you mean 7.7 A?"),
    ],
)
def test_what_a_meter_shows_in_another_way_is_asked_back_with_what_was_meant(
    field: str, given: float, example: str, said: str
) -> None:
    answer = post(PATH, {"panel": PANEL, "readings": [{"panel": "a", field: given}]})
    assert answer.status_code == 422, answer.text
    [error] = answer.json()["errors"]
    assert (error["pointer"], error["code"], error["example"]) == (f"/readings/0/{field}", "out_of_range", example)
    assert said in error["problem"]


def test_a_contact_that_was_lost_once_is_told_at_the_door_and_asks_for_a_third_round() -> None:
    conditions = {"irradiance_w_per_m2": 650, "cell_c": 35}
    rounds = [{"panel": "a", **READ}, {"panel": "a", "open_circuit_voltage_v": 0, "short_circuit_current_a": 0}]
    shares = set()
    for order in (rounds, rounds[::-1]):
        [seen] = checked(conditions=conditions, readings=order)["pickup"]["results"]
        assert seen["verdict"] == "suspicious"
        assert {one["code"] for one in seen["causes"]} == {"no_contact"}
        assert all("third time" in one["text"] for one in seen["causes"])
        assert seen["worth_because"]["code"] == "contact_not_sure"
        shares.add(seen["worth_now_share"])
    [share] = shares
    assert 0 < share < 1
    [dead] = checked(conditions=conditions, readings=rounds[1:] * 2)["pickup"]["results"]
    assert dead["worth_now_share"] == 0


def test_most_of_a_lot_that_are_low_are_not_told_that_the_others_are_not() -> None:
    lot = [{"panel": name, "short_circuit_current_a": a} for name, a in zip("abcd", (4, 4, 6, 4), strict=True)]
    found = checked(conditions={"irradiance_w_per_m2": 620, "cell_c": 31}, readings=lot)["pickup"]["results"]
    low = [one for one in found if one["beside_the_lot"]["short_circuit_current_a"] == "low"]
    assert len(low) == 3
    for one in low:
        assert one["causes"][0]["text"] == TEXTS["cause.lower_than_the_lot.current.most"]


NOON = "2026-05-10T12:30:00+02:00"
SUNNY = {"irradiance_w_per_m2": 650, "cell_c": 35}


@pytest.mark.parametrize(
    ("request_", "code", "words"),
    [
        ({"conditions": {"irradiance_w_per_m2": 700, "sky": "indoors"}}, "light_told_twice", "Indoors and 700 W/m2"),
        ({"conditions": {"irradiance_w_per_m2": 900, "site": SITE, "time": NOON, "sky": "overcast"}},
         "light_told_twice", "900 W/m2 were measured, and place, time and sky leave 390 W/m2 at most"),
        ({"conditions": {"irradiance_w_per_m2": 700, "site": SITE, "time": "2026-05-10T23:30:00+02:00"}},
         "light_told_twice", "the sun is down"),
        ({"conditions": {"sky": "clear"}}, "sky_without_place", "without place and time"),
        ({"conditions": {"irradiance_w_per_m2": 300, "site": SITE, "time": NOON, "sky": "clear"}}, "light_told_twice",
         "300 W/m2 were measured, and place, time and sky give"),
        ({"conditions": {**SUNNY, "sky": "overcast"}}, "sky_without_place", "beside what was measured"),
        ({"conditions": {"irradiance_uncertainty_share": 0.05}}, "uncertainty_without_light", "not what it showed"),
        ({"conditions": SUNNY, "readings": [{"panel": "left", **READ, "wetted": True}]}, "wetted_without_frame",
         "Of left it was told that frame and back were wetted"),
        ({"conditions": SUNNY, "readings": [{"panel": "left", **READ, "back_state": "sound"},
                                            {"panel": "left", "back_state": "burnt"}]}, "back_told_twice", "Of left"),
    ],
)  # fmt: skip
def test_what_does_not_go_together_is_said_in_every_format(request_: Any, code: str, words: str) -> None:
    [told] = checked(**request_)["pickup"]["remarks"]
    assert told["code"] == code
    assert words in told["text"]
    assert told["text"] in " ".join(on_paper({"panel": PANEL, **request_}).split())
    page = post(PATH, {"panel": PANEL, **request_}, accept="text/html").text
    assert "What does not go together" in page
    assert escape(told["text"]) in page
    words_kept = ask("GET", "/v1/vocabulary").json()["pickup"]
    assert code in {one["code"].partition(".")[0] for one in words_kept}


def test_what_goes_together_has_no_remark() -> None:
    assert checked(conditions=SUNNY, readings=[READ])["pickup"]["remarks"] == []
    dim = {"irradiance_w_per_m2": 30, "sky": "indoors"}
    room = checked(conditions=dim)["pickup"]
    assert room["remarks"] == []
    assert (room["light"]["origin"], room["light"]["w_per_m2"]["likely"]) == ("indoors", 30)


def test_less_light_than_a_cloudless_sky_that_nobody_told_has_no_remark() -> None:
    dim = {"irradiance_w_per_m2": 300, "site": SITE, "time": NOON}
    assert checked(conditions=dim)["pickup"]["remarks"] == []
    assert checked(conditions={**dim, "sky": "overcast"})["pickup"]["remarks"] == []


def test_neither_heat_nor_a_range_is_told_that_cannot_be() -> None:
    lone = {"panel": "a", "open_circuit_voltage_v": 18.7, "short_circuit_current_a": 6.1}
    [seen] = checked(conditions=SUNNY, readings=[lone])["pickup"]["results"]
    assert seen["causes"][0]["code"] == "voltage_low"
    assert "neither low light nor heat explains that" in seen["causes"][0]["text"]
    [how] = [one for one in checked(conditions=SUNNY, multimeter={"voltage_limit_v": 58})["pickup"]["how"]
             if one["code"] == "voltage"]  # fmt: skip
    assert "its highest range: up to 47 V can be there, and it bears 58." in how["text"]


def test_a_trace_above_the_range_is_not_told_as_nought_per_cent() -> None:
    most = checked(conditions=SUNNY)["pickup"]["expected"]["open_circuit_voltage_v"]["high"]
    read = {"open_circuit_voltage_v": most + 0.005, "short_circuit_current_a": 6.1}
    [seen] = checked(conditions=SUNNY, readings=[read])["pickup"]["results"]
    assert seen["causes"][0]["code"] == "cooler_than_thought"
    assert seen["causes"][0]["text"].startswith("It gives a trace more voltage")


def test_a_lost_third_is_named_in_a_lot_of_another_type() -> None:
    lot = [{"panel": str(at), "open_circuit_voltage_v": volts, "short_circuit_current_a": 6.1}
           for at, volts in enumerate((34.7, 34.6, 34.8, 34.7, 23.1))]  # fmt: skip
    *mates, last = checked(conditions=SUNNY, readings=lot)["pickup"]["results"]
    assert {one["causes"][0]["code"] for one in mates} == {"wrong_panel.other_cells"}
    lost, kind = (one["text"] for one in last["causes"])
    assert lost.startswith("One third of the voltage that the others of the lot give is missing")
    assert kind.startswith("The voltage of the others, beside which it was held, suits panels of 54 cells")


def test_amperes_of_full_sun_under_a_dull_sky_and_at_night_are_told_to_contradict_it() -> None:
    read = {"panel": "a", "open_circuit_voltage_v": 38.6, "short_circuit_current_a": 9.6}
    for time, sky in ((NOON, "overcast"), ("2026-05-10T23:30:00+02:00", "clear"), (NOON, "indoors")):
        request = {"conditions": {"site": SITE, "time": time, "sky": sky}, "readings": [read]}
        [seen] = checked(**request)["pickup"]["results"]
        assert (seen["verdict"], seen["worth_now_share"]) == ("cannot_tell", None)
        [told] = [one for one in seen["causes"] if one["text"].startswith("9.6 A take about 970 W/m2")]
        assert "contradict each other" in told["text"]
        assert told["text"] in " ".join(on_paper({"panel": PANEL, **request}).split())


def test_the_worst_of_a_sick_lot_is_worth_least_on_paper_too() -> None:
    lot = [{"panel": name, "open_circuit_voltage_v": 38.3, "short_circuit_current_a": a}
           for name, a in zip("abcd", (2.7, 2.75, 2.7, 1.6), strict=True)]  # fmt: skip
    found = checked(conditions=SUNNY, readings=lot)["pickup"]["results"]
    shares = [one["worth_now_share"] for one in found]
    assert shares[3] == min(shares) < shares[0]
    assert [one["code"] for one in found[3]["causes"]] == ["lower_than_the_lot", "current_low"]
    page = on_paper({"panel": PANEL, "conditions": SUNNY, "readings": lot})
    assert f"{worth_on_paper(found[3])} %" in " ".join(page.split())


def test_two_voltages_told_of_one_name_are_a_contradiction_whichever_comes_last() -> None:
    rounds = [{"panel": "a", "open_circuit_voltage_v": volts, "short_circuit_current_a": 6.1} for volts in (22, 58)]
    for order in (rounds, rounds[::-1]):
        [seen] = checked(conditions=SUNNY, readings=order)["pickup"]["results"]
        [told] = [one for one in seen["causes"] if one["code"] == "rounds_disagree"]
        assert "58 and 22 V were read, which contradict each other" in told["text"]
        assert told["text"] in " ".join(on_paper({"panel": PANEL, "conditions": SUNNY, "readings": order}).split())


@pytest.mark.parametrize("meter", [{"voltage_limit_v": 30}, {"voltage_limit_v": 30, "clamps_dc": True}])
def test_a_meter_for_few_volts_is_kept_away_in_every_step(meter: Any) -> None:
    how = checked(multimeter=meter, conditions={"irradiance_w_per_m2": 800})["pickup"]["how"]
    codes = [one["code"] for one in how]
    assert not {"voltage", "current", "volts_to_the_frame", "diodes_in_the_dark", "between_readings"} & set(codes)
    assert ("current_by_clamp" in codes) is ("clamps_dc" in meter)
    page = on_paper({"panel": PANEL, "multimeter": meter, "conditions": {"irradiance_w_per_m2": 800}})
    assert "d.c. volts from the plus lead" not in " ".join(page.split())
