"""POST /v1/logbook/review: is it doing what it should?"""

import json
from copy import deepcopy
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from service.api.words.english.logbook import TEXTS
from tests.http.client import PLAIN, SMALLEST, ask, mistakes, post

PATH = "/v1/logbook/review"
SET: dict[str, Any] = {
    "site": {"latitude_deg": 54.2, "longitude_deg": 12.3, "time_zone": "Europe/Berlin"},
    "arrays": [
        {"panel": {"rated_power_w": 410}, "mount": "ground_frame", "plane": {"tilt_deg": 35, "azimuth_deg": 180}}
    ],
    "inverter": {"ac_power_w": 400, "input_count": 2},
    "as_of": "2026-11-25",
}
FIRST = datetime(2025, 6, 1, tzinfo=UTC)


@cache
def energy_hours() -> np.ndarray:
    """What the service itself expects of the set in the hours of June and July, W."""
    answer = post("/v1/energy", {**SET, "include": ["hours"]}).json()
    hours = np.array(answer["energy"]["hours"]["ac_w"])
    june = (31 + 28 + 31 + 30 + 31) * 24 + 1  # midnight in UTC is one o'clock in standard time
    return hours[june : june + 60 * 24]


def rows(share: float = 1.0, days: int = 60) -> list[list[Any]]:
    """A log of hours that gives a share of the typical year's June and July."""
    return [
        [(FIRST + timedelta(hours=at)).isoformat(), round(float(share * watts), 1)]
        for at, watts in enumerate(energy_hours()[: days * 24])
    ]


def review(readings: dict[str, Any], **more: Any) -> dict[str, Any]:
    """The answer's object."""
    answer = post(PATH, {**SET, "readings": readings, **more})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["logbook"]
    return found


def interval(share: float = 1.0, days: int = 60) -> dict[str, Any]:
    """The readings of such a log."""
    return {"kind": "interval", "unit": "wh", "stamp": "start", "rows": rows(share, days)}


def test_a_log_like_the_typical_year_shows_nothing_unusual() -> None:
    found = review(interval())
    assert found["conclusion"] == "nothing_unusual"
    assert found["ratio"] == pytest.approx(1.0, abs=0.06)
    assert found["expected_kwh"]["cautious"] < found["logged_kwh"] < found["expected_kwh"]["hopeful"]
    assert found["basis"] == "climate"
    assert [month["first_day"] for month in found["months"]] == ["2025-06-01", "2025-07-01"]
    assert len(found["days"]) == 61  # the wall clock's, two hours ahead


def test_half_of_it_is_something_wrong() -> None:
    found = review(interval(0.4))
    assert found["conclusion"] == "something_wrong"
    assert found["projected_year_kwh"]["middle"] < 0.7 * found["promised_year_kwh"]["middle"]


TWO_INPUTS: dict[str, Any] = {
    **SET,
    "arrays": [{**SET["arrays"][0], "input": 1}, {**SET["arrays"][0], "input": 2}],
    "inverter": {"ac_power_w": 800, "input_count": 2},
}


def by_input(dead_from: int, days: int = 60, late_h: int = 0) -> dict[str, Any]:
    """Two inputs logged apart, the second at nought from a day on; the clock so many hours late."""
    values = [float(round(watts, 1)) for watts in energy_hours()[: days * 24]]
    first = (FIRST - timedelta(hours=late_h)).isoformat()
    dead = [value if at < dead_from * 24 else 0.0 for at, value in enumerate(values)]
    each = [{"input": number, "first": first, "step_minutes": 60, "values": one}
            for number, one in ((1, values), (2, dead))]  # fmt: skip
    return {"kind": "interval", "unit": "wh", "by_input": each}


@pytest.mark.parametrize("late_h", [0, 1])
@pytest.mark.parametrize(("days", "dead_from"), [(30, 15), (60, 30), (30, 0)])
def test_an_input_that_gives_nothing_while_the_other_gives_is_named_with_its_day(
    days: int, dead_from: int, late_h: int
) -> None:
    answer = post(PATH, {**TWO_INPUTS, "readings": by_input(dead_from, days, late_h)})
    found = answer.json()["logbook"]
    since = (FIRST + timedelta(days=dead_from)).date().isoformat()
    assert (found["conclusion"], found["because"]["code"]) == ("something_wrong", "input_gives_nothing")
    assert "Input 2 has given nothing" in found["because"]["text"]
    first, *others = found["suspects"]
    assert (first["code"], first["input"], first["since"]) == ("input_dead", 2, since)
    assert first["effect_kwh_per_year"] > 50
    assert "input_dead" not in {one["code"] for one in others}


def test_two_sound_inputs_show_no_silent_one() -> None:
    found = post(PATH, {**TWO_INPUTS, "readings": by_input(60)}).json()["logbook"]
    assert found["conclusion"] == "nothing_unusual"
    assert all(one["since"] is None for one in found["suspects"])


@pytest.mark.parametrize("working_days", [0, 40])
def test_a_set_that_gives_nothing_is_said_first(working_days: int) -> None:
    readings = interval(days=60)
    readings["rows"] = [[at, value if k < 24 * working_days else 0] for k, (at, value) in enumerate(readings["rows"])]
    found = review(readings)
    assert (found["conclusion"], found["because"]["code"]) == ("something_wrong", "gives_nothing")
    since = (FIRST + timedelta(days=working_days)).date().isoformat()
    assert f"since {since}" in found["because"]["text"]
    assert found["projected_year_kwh"] is None
    shown = post(PATH, {**SET, "readings": readings}, accept="text/plain").text
    assert "Something is wrong.\nThe set gives nothing" in shown
    assert "No year is told" in " ".join(shown.split())


def test_days_that_the_typical_year_itself_has_at_nought_are_not_called_off() -> None:
    rail = {"panel": {"rated_power_w": 410}, "mount": "hung_on_rail", "plane": {"tilt_deg": 90, "azimuth_deg": 150}}
    site = {"latitude_deg": 59.3, "longitude_deg": 18.0, "time_zone": "Europe/Stockholm"}
    north = {**SET, "site": site, "arrays": [rail], "inverter": {"ac_power_w": 600}}
    hours = post("/v1/energy", {**north, "include": ["hours"]}).json()["energy"]["hours"]["ac_w"]
    assert 0.0 in np.array(hours).reshape(365, 24).sum(axis=1)
    readings = {"kind": "interval", "unit": "wh", "first": "2025-01-01T00:00:00+01:00", "step_minutes": 60,
                "values": hours}  # fmt: skip
    found = post(PATH, {**north, "readings": readings}).json()["logbook"]
    assert [gap["from_time"] for gap in found["gaps"]] == []
    still = {**readings, "first": "2025-12-01T00:00:00+01:00", "values": [0] * 24 * 20}
    assert post(PATH, {**north, "readings": still}).json()["logbook"]["because"]["code"] == "gives_nothing"


def test_hours_of_a_dull_day_on_which_the_inverter_stands_still_are_not_called_off() -> None:
    """An upright panel near Madrid: on its dullest days of winter the inverter works in some hours only."""
    rail = {"panel": {"rated_power_w": 410}, "mount": "hung_on_rail", "plane": {"tilt_deg": 90, "azimuth_deg": 150}}
    site = {"latitude_deg": 40.4, "longitude_deg": -3.7, "time_zone": "Europe/Madrid"}
    south = {**SET, "site": site, "arrays": [rail], "inverter": {"ac_power_w": 600}}
    hours = post("/v1/energy", {**south, "include": ["hours"]}).json()["energy"]["hours"]["ac_w"]
    days = np.array(hours).reshape(365, 24)
    assert 0.0 in days[days.sum(axis=1) < 50.0][:, 9:15]
    readings = {"kind": "interval", "unit": "wh", "first": "2025-01-01T00:00:00+01:00", "step_minutes": 60,
                "values": hours}  # fmt: skip
    assert post(PATH, {**south, "readings": readings}).json()["logbook"]["gaps"] == []


def test_a_turned_clamp_is_said_as_such() -> None:
    found = review(interval(-1.0))
    assert (found["conclusion"], found["because"]["code"]) == ("something_wrong", "turned_clamp")
    assert found["logged_kwh"] == pytest.approx(review(interval())["logged_kwh"], rel=1e-6)
    assert "turned_clamp" in {one["code"] for one in found["findings"]}


def test_a_steady_power_day_and_night_is_no_solar_log() -> None:
    readings = {"kind": "power", "first": FIRST.isoformat(), "step_minutes": 60, "values": [100] * 720}
    found = review(readings)
    assert (found["conclusion"], found["because"]["code"]) == ("cannot_tell", "not_a_solar_log")
    assert found["projected_year_kwh"] is None
    assert (found["suspects"], found["gaps"], found["missed_kwh"]["middle"]) == ([], [], 0)
    assert "not_a_solar_log" in {one["code"] for one in found["findings"]}


def as_table(lines: list[str], request: dict[str, Any] = SET) -> bytes:
    return ("# " + json.dumps(request) + "\n" + "\n".join(lines) + "\n").encode()


def post_table(body: bytes) -> Any:
    return ask("POST", PATH, headers={"content-type": "text/csv"}, content=body)


@pytest.mark.parametrize("delimiter", [";", "\t", ","])
def test_a_table_says_the_same_as_json(delimiter: str) -> None:
    lines = [delimiter.join(("start", "energy_wh", "note"))]
    lines += [delimiter.join((time, str(value), "x")) for time, value in rows()]
    answer = post_table(as_table(lines))
    assert answer.status_code == 200, answer.text
    assert answer.json()["logbook"] == review(interval())


def test_a_decimal_comma_is_read() -> None:
    lines = ["start;energy_wh", *(f"{time};{str(value).replace('.', ',')}" for time, value in rows(days=20))]
    assert post_table(as_table(lines)).json()["logbook"] == review(interval(days=20))


def test_a_table_of_two_inputs_adds_them_up() -> None:
    lines = [
        "start;input_1_energy_wh;input_2_energy_wh",
        *(f"{time};{value / 2};{value / 2}" for time, value in rows()),
    ]
    assert post_table(as_table(lines)).json()["logbook"]["logged_kwh"] == review(interval())["logged_kwh"]


@pytest.mark.parametrize(
    ("body", "told"),
    [
        (b"", "no rows"), (b"start;energy_wh\n2025-06-01T00:00Z;1\n", "begin with the set"),
        (as_table(["when;energy_wh", "2025-06-01T00:00Z;1"]), "line 2"), (as_table(["start;energy_wh"]), "no rows"),
        (as_table(["start;energy_wh", "2025-06-01T00:00Z"]), "line 3"),
        (as_table(["start;energy_wh", "2025-06-01T00:00Z;1", "2025-06-01T01:00Z;one"]), "line 4"),
        (as_table(["start;energy_wh;power_w", "2025-06-01T00:00Z;1;2"]), "line 2"),
        (b'# {"site": \nstart;energy_wh\n2025-06-01T00:00Z;1\n', "no valid JSON"),
        (b'# {"site": {},\n# "site": 1 2}\nstart;energy_wh\n2025-06-01T00:00Z;1\n', "line 2"),
        (b"# {}\nstart;energy_wh\n\xff;1\n", "UTF-8"), (b"# 3\nstart;energy_wh\n2025-06-01;1\n", "begin with the set"),
    ],
)  # fmt: skip
def test_a_table_that_is_none_is_told_by_its_line(body: bytes, told: str) -> None:
    answer = post_table(body)
    assert answer.status_code == 422, answer.text
    assert told in json.dumps(answer.json()["errors"])


def test_the_example_of_a_table_that_is_none_is_answered_when_sent() -> None:
    error = post_table(b"").json()["errors"][0]
    assert post_table(error["example"].encode()).status_code == 200


def test_what_is_wrong_with_the_set_of_a_table_is_told_as_in_json() -> None:
    wrong = {**SET, "inverter": {"ac_power_w": "much"}}
    assert mistakes(post_table(as_table(["start;energy_wh", "2025-06-01;1"], wrong))) == {
        "/inverter/ac_power_w": "not_a_number"
    }


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ({"kind": "interval", "unit": "w", "rows": rows(days=1)}, {"/readings/unit": "contradiction"}),
        ({"kind": "power", "unit": "wh", "rows": rows(days=1)}, {"/readings/unit": "contradiction"}),
        ({"kind": "interval", "unit": "wh"}, {"/readings/rows": "missing"}),
        ({"kind": "interval", "unit": "wh", "values": [1]},
         {"/readings/first": "missing", "/readings/step_minutes": "missing"}),
        ({"kind": "interval", "unit": "wh", "rows": [["2025-06-01", "1"]]}, {"/readings/rows/0/1": "not_a_number"}),
        ({"kind": "interval", "unit": "wh", "rows": [["2025-06-01T00:00Z", 1], 3]}, {"/readings/rows/1": "not_a_list"}),
        ({"kind": "interval", "unit": "wh", "rows": [["2025-06-01T00:00Z"]]}, {"/readings/rows/0": "wrong_count"}),
        ({"kind": "interval", "unit": "wh", "rows": [[7, 1]]}, {"/readings/rows/0/0": "not_text"}),
        ({"kind": "interval", "unit": "wh", "rows": [["2025-06-01", 1e99]]}, {"/readings/rows/0/1": "out_of_range"}),
        ({"kind": "interval", "unit": "wh", "rows": [["2025-06-31T00:00Z", 1]]}, {"/readings/rows/0/0": "wrong_form"}),
        ({"kind": "interval", "unit": "wh", "rows": []}, {"/readings/rows": "wrong_count"}),
        ({"kind": "month", "unit": "kwh", "first": "2025-06-01T00:00Z", "step_minutes": 60, "values": [1]},
         {"/readings/rows": "missing"}),
        ({"kind": "interval", "unit": "wh", "by_input": [{"input": 3, "rows": rows(days=1)}]},
         {"/readings/by_input/0/input": "contradiction"}),
        ({"kind": "interval", "unit": "wh", "by_input": [{"input": 1, "rows": rows(days=1)}] * 2},
         {"/readings/by_input/1/input": "contradiction"}),
    ],
)  # fmt: skip
def test_each_mistake_is_told_where_it_stands(readings: dict[str, Any], told: dict[str, str]) -> None:
    answer = post(PATH, {**SET, "readings": readings})
    assert answer.status_code == 422, answer.text
    assert mistakes(answer) == told
    assert all(one["accepted"] and one["example"] for one in answer.json()["errors"])


def test_at_most_a_few_bad_rows_are_told() -> None:
    bad = {"kind": "interval", "unit": "wh", "rows": [["2025-06-01T00:00Z", "x"]] * 5000}
    assert len(post(PATH, {**SET, "readings": bad}).json()["errors"]) == 5


def test_first_and_step_say_the_same_as_rows() -> None:
    values = [value for _, value in rows()]
    even = {"kind": "interval", "unit": "wh", "stamp": "start", "first": FIRST.isoformat(), "step_minutes": 60}
    assert review({**even, "values": values}) == review(interval())


def test_a_counter_with_a_gap_loses_no_energy_and_says_so() -> None:
    sums = np.cumsum([value for _, value in rows()])
    counter = [[time, round(float(value), 1)] for (time, _), value in zip(rows(), [0.0, *sums[:-1]], strict=True)]
    readings = {"kind": "counter", "unit": "wh", "rows": counter[:300] + counter[330:]}
    found = review(readings)
    assert found["logged_kwh"] == pytest.approx(sums[-2] / 1000, abs=0.02)
    [gap] = found["gaps"]
    assert (gap["kind"], gap["missed_kwh"]) == ("connection_lost", 0.0)
    assert gap["regained_kwh"] > 0.5


def test_months_noted_by_hand_are_compared_month_by_month() -> None:
    months = {"kind": "month", "unit": "kwh", "rows": [["2025-06", 50.0], ["2025-07", 25.0], ["2025-08", 48]]}
    found = review(months)
    assert [round(month["logged_kwh"]) for month in found["months"]] == [50, 25, 48]
    assert found["months"][1]["ratio"] < 0.6 * found["months"][0]["ratio"]


def test_a_neighbour_under_the_same_dull_sky_clears_the_set_of_suspicion() -> None:
    dull = {**interval(0.5)}
    alone, beside = review(dull), review(dull, peers=[{"name": "2nd floor", "readings": interval(0.5)}])
    assert alone["conclusion"] == "something_wrong"
    assert (beside["conclusion"], beside["basis"]) == ("nothing_unusual", "peers")
    assert beside["ratio"] == pytest.approx(1.0, abs=0.01)


def test_given_weather_is_what_the_days_are_compared_with() -> None:
    dark = [0.0 if hour < 4 or hour > 18 else 60.0 for _ in range(10) for hour in range(24)]
    series = {"first": FIRST.isoformat(), "step_minutes": 60, "stamp": "start", "ghi_w_per_m2": dark}
    found = review(interval(0.15, 10), weather={"source": "given", "series": series})
    assert found["basis"] == "weather"
    assert found["expected_kwh"]["middle"] < 0.4 * review(interval(days=10))["expected_kwh"]["middle"]


def test_what_a_log_holds_goes_into_the_account() -> None:
    found = review(interval())
    plain = post("/v1/payback", {**PLAIN, "logbook": found})
    assert plain.status_code == 200, plain.text
    told = plain.json()["so_far"]
    assert told["promised_kwh"] == pytest.approx(640 * 60 / 365.25, rel=0.03)
    assert told["unpaid"] == pytest.approx(245 - told["saved"], abs=0.01)
    of_a_set = post("/v1/payback", {**SET, "logbook": found, "outlay": PLAIN["outlay"], "tariff": PLAIN["tariff"]})
    assert of_a_set.json()["so_far"]["logged_share"] == pytest.approx(1.0, abs=0.1)
    assert post("/v1/payback", PLAIN).json()["so_far"] is None


def test_an_account_refuses_a_log_that_ends_before_it_begins() -> None:
    log = {"logged_kwh": 3, "from_time": "2026-05-01T00:00:00Z", "to_time": "2026-04-01T00:00:00Z"}
    assert mistakes(post("/v1/payback", {**PLAIN, "logbook": log})) == {"/logbook/to_time": "contradiction"}


@pytest.mark.parametrize("name", ["from_time", "to_time"])
@pytest.mark.parametrize("value", [None, "2026-05-01T00:00:00"])
def test_a_time_of_the_log_that_an_account_lacks_is_told_with_its_form(name: str, value: str | None) -> None:
    log = {"logged_kwh": 3, "from_time": "2026-05-01T00:00:00Z", "to_time": "2026-06-01T00:00:00Z", name: value}
    given = {key: one for key, one in log.items() if one is not None}
    (error,) = post("/v1/payback", {**PLAIN, "logbook": given}).json()["errors"]
    assert error["pointer"] == f"/logbook/{name}"
    assert "with Z or the offset" in error["accepted"]


def test_as_text_it_is_for_people() -> None:
    answer = post(PATH, {**SET, "readings": interval(0.4)}, accept="text/plain")
    assert answer.status_code == 200
    assert answer.text.startswith("Something is wrong.")
    assert max(map(len, answer.text.splitlines())) <= 72


def test_a_log_may_be_larger_than_other_bodies_but_not_than_eight_mebibytes() -> None:
    padded = json.dumps({**SET, "readings": interval(days=20)}).encode() + b" " * (3 << 20)
    assert post(PATH, padded).status_code == 200
    assert post("/v1/energy", padded).status_code == 413
    assert post(PATH, padded + b" " * (6 << 20)).status_code == 413


def test_other_types_are_refused_with_both_that_are_read() -> None:
    answer = ask("POST", PATH, headers={"content-type": "text/tab-separated-values"}, content=b"x")
    assert answer.status_code == 415
    assert answer.json()["errors"][0]["accepted"] == "application/json or text/csv"


def test_rows_that_hold_nothing_tell_nothing() -> None:
    empty = {"kind": "counter", "unit": "kwh", "rows": [["2025-06-01T00:00Z", None]]}
    found = review(empty)
    assert (found["conclusion"], found["because"]["code"]) == ("cannot_tell", "too_little_logged")
    assert found["from_time"] is None


def test_the_smallest_set_will_do() -> None:
    request = deepcopy(SMALLEST) | {"readings": interval(days=5)}
    assert post(PATH, request).status_code == 200


def test_every_note_has_a_sentence_that_is_filled() -> None:
    odd = rows(days=10)
    odd += [
        odd[30],
        [odd[40][0], odd[40][1] + 50],
        [odd[50][0], None],
        ["2025-06-20T11:00", 1e6],
        ["2025-06-21T00:00Z", -3],
    ]
    found = review({"kind": "interval", "unit": "wh", "rows": odd[::-1]})
    assert {one["code"] for one in found["findings"]} >= {
        "unordered", "duplicates", "disputed", "empty_rows", "impossible", "below_zero", "wall_clock"
    }  # fmt: skip
    assert all(" " in one["text"] and "{" not in one["text"] for one in found["findings"])
    assert all(f"note.{one['code']}" in TEXTS for one in found["findings"])


def test_the_vocabulary_lists_what_a_review_may_say_and_what_happens_after_plugging_in() -> None:
    words = ask("GET", "/v1/vocabulary").json()
    assert words["log_conclusions"] == ["nothing_unusual", "something_wrong", "cannot_tell"]
    assert [one["code"] for one in words["log_gaps"]] == ["connection_lost", "set_off", "unknown"]
    assert {"input_dead", "undeclared_shade", "clock_shift", "wet_trips"} <= {
        one["code"] for one in words["log_suspects"]
    }
    assert {"counter_reset", "duplicates", "impossible"} <= {one["code"] for one in words["log_findings"]}
    told = {one["code"]: one["text"] for one in words["commissioning"]}
    assert "from memory" in told["en_50549"]
    assert "60 s" in told["en_50549"]
    assert {"outage", "dull_start"} <= set(told)
    kinds = next(one["words"] for one in words["words"] if one["name"] == "kind")
    assert {"counter", "interval", "power", "month"} <= set(kinds)


def test_every_suspect_has_a_sentence_and_something_to_look_at() -> None:
    codes = {key.removeprefix("suspect.") for key in TEXTS if key.startswith("suspect.")}
    assert codes == {key.removeprefix("look.") for key in TEXTS if key.startswith("look.")}
    assert codes == {key.removeprefix("cause.") for key in TEXTS if key.startswith("cause.")}
    assert len(codes) == 14


def over_a_change(month: int, day: int, days: int, *, standard: bool) -> dict[str, Any]:
    """The typical year's hours by day around a change of clocks, without offsets, in wall-clock or standard time."""
    answer = post("/v1/energy", {**SET, "include": ["hours"]}).json()
    hours = answer["energy"]["hours"]["ac_w"]
    begin, berlin = datetime(2025, month, day, tzinfo=UTC), ZoneInfo("Europe/Berlin")
    first = int((begin - datetime(2025, 1, 1, tzinfo=UTC)).total_seconds() // 3600) + 1
    told = []
    for at in range(24 * days):
        moment = begin + timedelta(hours=at)
        shown = moment + timedelta(hours=1) if standard else moment.astimezone(berlin)
        if hours[first + at] > 0.0:  # as loggers do that sleep by night
            told.append([shown.replace(tzinfo=None).isoformat(), round(hours[first + at], 1)])
    return {"kind": "interval", "unit": "wh", "stamp": "start", "rows": told}


@pytest.mark.parametrize(("month", "day"), [(3, 15), (10, 11)])
@pytest.mark.parametrize("standard", [True, False])
def test_a_log_that_keeps_standard_time_is_known_by_the_noon_of_the_days_around_the_change(
    month: int, day: int, standard: bool
) -> None:
    found = review(over_a_change(month, day, 35, standard=standard))
    assert found["conclusion"] == "nothing_unusual"
    codes = {one["code"] for one in found["findings"]}
    assert ("standard_time" in codes, "wall_clock" in codes) == (standard, not standard)


def test_a_gap_of_one_input_is_told_as_its_own_and_the_other_counts() -> None:
    readings = by_input(60)
    second = readings["by_input"][1]["values"]
    whole = sum(readings["by_input"][0]["values"]) / 1000
    lost = sum(second[10 * 24 : 18 * 24]) / 1000
    second[10 * 24 : 18 * 24] = [None] * (8 * 24)
    found = post(PATH, {**TWO_INPUTS, "readings": readings}).json()["logbook"]
    assert found["conclusion"] == "nothing_unusual"
    assert found["logged_kwh"] == pytest.approx(2 * whole - lost, abs=0.02)
    assert found["ratio"] == pytest.approx(1.0, abs=0.03)
    (gap,) = found["gaps"]
    assert (gap["input"], gap["kind"]) == (2, "connection_lost")
    assert gap["missed_kwh"] == pytest.approx(lost, rel=0.05)
    assert "input 2" in gap["text"]
    assert [one["facts"]["input"] for one in found["findings"] if one["code"] == "input_gaps"] == [2]
    paper = post(PATH, {**TWO_INPUTS, "readings": readings}, "text/plain").text
    assert "of input 2 are not in the sum" in " ".join(paper.split())


@pytest.mark.parametrize(("left", "dead_from"), [(0.5, 25), (0.05, 25), (0.5, 0), (0.3, 0)])
def test_an_input_that_gives_half_or_little_beside_the_other_is_named_first(left: float, dead_from: int) -> None:
    readings = by_input(60)
    second = readings["by_input"][1]["values"]
    second[dead_from * 24 :] = [round(left * value, 2) for value in second[dead_from * 24 :]]
    answer = post(PATH, {**TWO_INPUTS, "readings": readings})
    found = answer.json()["logbook"]
    assert (found["conclusion"], found["because"]["code"]) == ("something_wrong", "input_gives_little")
    first, *others = found["suspects"]
    since = (FIRST + timedelta(days=dead_from)).date().isoformat()
    assert (first["code"], first["input"], first["since"]) == ("input_dead", 2, since)
    assert first["evidence"]["level_beside_other_input_share"] == pytest.approx(left, abs=0.02)
    assert first["effect_share"] == pytest.approx((1 - left) * (60 - dead_from) / 120, abs=0.03)
    assert f"{100 * left:.0f} %" in found["because"]["text"]
    assert not {"input_dead", "bypass_section_lost"} & {one["code"] for one in others}


def test_what_no_known_cause_leaves_of_an_input_is_a_finding() -> None:
    readings = by_input(60)
    second = readings["by_input"][1]["values"]
    second[25 * 24 :] = [round(0.78 * value, 2) for value in second[25 * 24 :]]
    found = post(PATH, {**TWO_INPUTS, "readings": readings}).json()["logbook"]
    (note,) = (one for one in found["findings"] if one["code"] == "inputs_apart")
    since = (FIRST + timedelta(days=25)).date().isoformat()
    assert (note["facts"]["input"], note["facts"]["since"]) == (2, since)
    assert "78 %" in note["text"]


def off_for(first: int, last: int) -> dict[str, Any]:
    """Rows of nought from one day to before another."""
    told = interval()
    told["rows"] = [[at, 0.0 if 24 * first <= k < 24 * last else value] for k, (at, value) in enumerate(told["rows"])]
    return told


def test_a_set_that_was_off_for_weeks_is_told_so_first_with_what_it_cost() -> None:
    found = review(off_for(20, 46))
    lost = sum(value for _, value in rows()[20 * 24 : 46 * 24]) / 1000
    assert (found["conclusion"], found["because"]["code"]) == ("something_wrong", "was_off")
    assert "off or not connected on 26 days" in found["because"]["text"]
    assert "gave 101 %" in found["because"]["text"] or "gave 100 %" in found["because"]["text"]
    one = found["suspects"][0]
    assert (one["code"], one["since"]) == ("set_off", "2025-06-21")
    assert one["evidence"]["days"] == 26
    assert one["evidence"]["not_made_kwh"] == pytest.approx(lost, rel=0.15)
    assert one["evidence"]["not_made_worth"] > 0
    assert "That was worth some" in one["text"]
    # It ran well while it ran: the year to come is that of a sound set.
    assert found["projected_year_kwh"]["middle"] == pytest.approx(found["promised_year_kwh"]["middle"], rel=0.05)


def test_a_day_or_two_off_are_told_and_are_nothing_unusual() -> None:
    for days, said in ((1, "On one day it was off"), (2, "On 2 days it was off")):
        found = review(off_for(20, 20 + days))
        assert found["conclusion"] == "nothing_unusual"
        assert said in found["because"]["text"]
        assert found["suspects"] == []


def test_days_that_were_not_logged_are_told_with_their_energy_and_are_no_fault() -> None:
    told = interval()
    told["rows"] = told["rows"][: 20 * 24] + told["rows"][46 * 24 :]
    found = review(told)
    assert found["conclusion"] == "nothing_unusual"
    [gap] = found["gaps"]
    whole_kwh = sum(row[1] for row in interval()["rows"][20 * 24 : 46 * 24]) / 1000.0
    assert gap["missed_band_kwh"]["cautious"] < whole_kwh < gap["missed_band_kwh"]["hopeful"]
    assert f"Of 26 days nothing was logged: about {gap['missed_kwh']:.0f} kWh" in found["because"]["text"]


def test_a_set_off_in_months_of_snow_is_not_called_wrong_for_it() -> None:
    north = {**SET, "site": {"latitude_deg": 64.2, "longitude_deg": 27.7, "time_zone": "Europe/Helsinki"}}
    hours = np.array(post("/v1/energy", {**north, "include": ["hours"]}).json()["energy"]["hours"]["ac_w"])
    first = datetime(2025, 1, 31, 22, tzinfo=UTC)
    values = [float(round(one, 1)) for one in hours[31 * 24 : 91 * 24]]
    values[5 * 24 : 20 * 24] = [0.0] * (15 * 24)
    told = {"kind": "interval", "unit": "wh", "first": first.isoformat(), "step_minutes": 60, "values": values}
    found = post(PATH, {**north, "readings": told}).json()["logbook"]
    assert found["because"]["code"] != "was_off"


@pytest.mark.parametrize("share", [0.97, 0.94, 0.92, 0.9, 0.87, 0.83])
def test_a_sound_log_at_a_lower_level_has_no_cause_named_that_nothing_speaks_for(share: float) -> None:
    found = review(interval(share))
    assert found["conclusion"] == "nothing_unusual"
    for one in found["suspects"]:
        assert any(value for value in one["evidence"].values())
    low = found["compared_kwh"] < found["expected_kwh"]["cautious"]
    assert ("lower than expected" in found["because"]["text"]) == low
    assert low == (share < 0.85)


def both(second: float, dead_from: int = 25) -> dict[str, Any]:
    """A total log of two equal arrays under days of changing sky, of which one gives a share from a day on."""
    sky = np.random.default_rng(5).uniform(0.7, 1.1, 60)
    told = [
        [at, round(value * float(sky[k // 24]) * (1.0 + (second if k >= 24 * dead_from else 1.0)), 2)]
        for k, (at, value) in enumerate(rows())
    ]
    return {"kind": "interval", "unit": "wh", "stamp": "start", "rows": told}


def test_in_a_log_of_the_whole_one_of_two_arrays_that_dies_is_named_with_its_day() -> None:
    found = post(PATH, {**TWO_INPUTS, "readings": both(0.0)}).json()["logbook"]
    assert found["conclusion"] == "something_wrong"
    first = found["suspects"][0]
    assert first["code"] == "input_dead"
    day = datetime.fromisoformat(first["since"]).date() - (FIRST + timedelta(days=25)).date()
    assert abs(day.days) <= 2
    assert first["effect_share"] == pytest.approx(0.5 * 35 / 60, abs=0.05)
    assert first["evidence"]["level_of_best_hours_after_share"] == pytest.approx(0.5, abs=0.05)


def test_in_a_log_of_the_whole_one_of_two_arrays_that_gives_a_fifth_is_among_the_suspects() -> None:
    found = post(PATH, {**TWO_INPUTS, "readings": both(0.2)}).json()["logbook"]
    assert "input_dead" in {one["code"] for one in found["suspects"]}


def test_days_of_changing_sky_alone_are_no_fall() -> None:
    found = post(PATH, {**TWO_INPUTS, "readings": both(1.0)}).json()["logbook"]
    assert found["conclusion"] == "nothing_unusual"
    assert "input_dead" not in {one["code"] for one in found["suspects"]}


@pytest.mark.parametrize("hours", [-8, -4, 3, 6, 12])
@pytest.mark.parametrize("form", ["interval", "counter"])
def test_a_clock_that_is_off_by_hours_is_named_first_and_set_right(hours: int, form: str) -> None:
    told = [[(datetime.fromisoformat(at) + timedelta(hours=hours)).isoformat(), value] for at, value in rows()]
    if form == "counter":
        told = [[at, round(total, 3)] for (at, _), total in zip(told, np.cumsum([v for _, v in told]), strict=True)]
    readings = {"kind": form, "unit": "wh", "rows": told, **({"stamp": "start"} if form == "interval" else {})}
    found = review(readings)
    first = found["suspects"][0]
    assert (found["conclusion"], found["because"]["code"], first["code"]) == (
        "something_wrong", "cause_found", "clock_shift"
    )  # fmt: skip
    assert (first["evidence"]["fast_by_h"] - hours) % 24 in {0, 23, 1}
    assert found["ratio"] == pytest.approx(1.0, abs=0.05)
    if abs(hours) > 3:  # three hours in June hardly reach the dark, and show in the course of clear days
        assert [one["facts"]["fast_by_h"] for one in found["findings"] if one["code"] == "clock_set_right"]
    assert "by_night" not in {one["code"] for one in found["findings"]}
