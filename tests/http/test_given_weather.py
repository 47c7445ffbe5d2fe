"""POST with weather of the caller's own: a year, a part of one, the panels' own plane, and what is refused."""

from functools import cache
from typing import Any

import numpy as np
import pytest

from service.api.render.report_money import energy_lines
from service.api.schemas.energy import EnergyOut
from service.core.sky import typical_year
from service.data.climate import load_climate
from tests.http.client import SMALLEST, post

FIRST = "2025-01-01T00:00:00+01:00"


@cache
def year_ghi() -> list[float]:
    climate = load_climate().at(54.2, 12.3, None)
    return [round(float(one), 2) for one in typical_year(climate, "Europe/Berlin").ghi_w_per_m2]


def given(**series: Any) -> dict[str, Any]:
    facts = {"first": FIRST, "step_minutes": 60, "stamp": "start", **series}
    return {**SMALLEST, "weather": {"source": "given", "series": facts}}


def june(**more: Any) -> dict[str, Any]:
    return given(first="2025-06-01T00:00:00+02:00", ghi_w_per_m2=year_ghi()[24 * 151 : 24 * 181], **more)


def test_the_typical_year_s_own_hours_give_the_typical_year() -> None:
    own, said = (post("/v1/energy", one).json()["energy"] for one in (SMALLEST, given(ghi_w_per_m2=year_ghi())))
    assert said["year_kwh"]["middle"] == pytest.approx(own["year_kwh"]["middle"], rel=1e-3)
    assert said["months_kwh"] == pytest.approx(own["months_kwh"], rel=2e-3, abs=0.02)
    assert said["weather"]["whole_year"] is True
    assert sum(said["weather"]["months_hours"]) == said["weather"]["hours"]
    assert said["weather"]["kwh"] == said["year_kwh"]
    assert "weather" not in own
    codes = [part["code"] for part in said["spread"]]
    assert "given_weather" in codes
    assert "climate_data" not in codes


def test_a_month_tells_its_own_energy_and_claims_no_year() -> None:
    answer = post("/v1/energy", {**june(), "include": ["hours"]}).json()
    energy = answer["energy"]
    assert "year_kwh" not in energy
    assert "year_kwh" not in energy["arrays"][0]
    told = energy["weather"]
    assert told["hours"] == 720
    assert energy["months_kwh"][5] == pytest.approx(told["kwh"]["middle"], abs=0.02)
    assert energy["months_kwh"][:5] + energy["months_kwh"][6:] == [None] * 11
    assert told["months_hours"] == [0] * 5 + [720] + [0] * 6
    assert energy["light_kwh"] - sum(energy["lost_kwh"].values()) == pytest.approx(told["kwh"]["middle"], abs=0.1)
    assert "year_to_year" not in [part["code"] for part in energy["spread"]]
    assert energy["hours"]["first"] == "2025-05-31T22:00:00Z"
    assert len(energy["hours"]["ac_w"]) == 720
    assert sum(energy["hours"]["ac_w"]) / 1000 == pytest.approx(told["kwh"]["middle"], abs=0.05)
    assert sum(day["days"] for day in energy["day_kinds"]) in {30, 31}  # standard time begins a day in May


def test_a_month_of_which_a_day_was_given_tells_that_day_and_a_dark_one_is_not_missing() -> None:
    light = year_ghi()[24 * 150 : 24 * 180]
    series = {"first": "2025-05-31T00:00:00+02:00", "ghi_w_per_m2": light}
    told, dark = (
        post("/v1/energy", one).json()["energy"]
        for one in (given(**series), given(**{**series, "ghi_w_per_m2": [0.0] * 24 + light[24:]}))
    )
    assert told["weather"]["months_hours"][4:6] == [24, 696]
    assert told["months_kwh"][4] > 0.5
    assert sum(told["months_kwh"][4:6]) == pytest.approx(told["weather"]["kwh"]["middle"], abs=0.05)
    assert dark["months_kwh"][4] == 0.0
    assert told["months_kwh"][:4] + told["months_kwh"][6:] == [None] * 10


def test_on_paper_a_month_of_which_nothing_is_known_has_no_figure() -> None:
    energy = EnergyOut.model_validate(post("/v1/energy", june()).json()["energy"])
    months = [line.split() for line in energy_lines(energy) if line.rstrip().endswith("kWh")][:2]
    assert months[0] == ["no", "data"] * 5 + [f"{energy.told().middle:.0f}", "kWh"]
    assert months[1] == ["no", "data"] * 6 + ["kWh"]


def test_a_plane_left_open_is_settled_by_the_year_and_not_by_the_month() -> None:
    month, year = (post("/v1/energy", one).json()["energy"]["arrays"][0]["plane"] for one in (june(), SMALLEST))
    assert month == year


def test_what_was_not_given_is_assumed_and_said() -> None:
    answer = post("/v1/energy", june()).json()
    codes = {one["code"]: one for one in answer["assumptions"] if one["pointer"].startswith("/weather")}
    assert set(codes) == {"air_of_climate", "wind_of_climate", "split_by_model"}
    hours = 720
    full = june(air_c=[15.0] * hours, wind_m_per_s=[2.0] * hours, dhi_w_per_m2=[0.0] * hours)
    assert not [one for one in post("/v1/energy", full).json()["assumptions"] if one["pointer"].startswith("/weather")]


def test_columns_of_nothing_but_null_are_told_as_not_given() -> None:
    nothing = [None] * 720
    names = ("dni_w_per_m2", "dhi_w_per_m2", "air_c", "wind_m_per_s")
    told, plain = (post("/v1/energy", request).json() for request in (june(**dict.fromkeys(names, nothing)), june()))
    assert told["energy"] == plain["energy"]
    assert told["assumptions"] == plain["assumptions"]


def test_snow_of_a_part_is_counted_and_what_of_its_months_is_not_known_is_told() -> None:
    flat = [{**SMALLEST["arrays"][0], "plane": {"tilt_deg": 10, "azimuth_deg": 180}}]
    ghi, air = year_ghi(), [-6.0] * 744
    year, january, week = (
        post("/v1/energy", {**given(ghi_w_per_m2=ghi[:hours], air_c=(air * 12)[:hours]), "arrays": flat}).json()
        for hours in (8760, 744, 168)
    )
    assert january["energy"]["months_kwh"][0] == pytest.approx(year["energy"]["months_kwh"][0], rel=1e-3)
    assert january["energy"]["lost_kwh"]["snow"] / january["energy"]["light_kwh"] == pytest.approx(0.11, abs=0.01)
    assert "snow" in [part["code"] for part in january["energy"]["spread"]]
    told = [
        [one["value"] for one in answer["assumptions"] if one["code"] == "rest_of_months"]
        for answer in (year, january, week)
    ]
    assert told == [[], [], [744 - 168]]


def test_a_gap_is_told_and_counted() -> None:
    request = june()
    request["weather"]["series"]["ghi_w_per_m2"][12:14] = [None, None]
    answer = post("/v1/energy", request).json()
    [gap] = answer["energy"]["weather"]["gaps"]
    assert gap == {"what": "light", "from_time": "2025-06-01T10:00:00Z", "to_time": "2025-06-01T12:00:00Z",
                   "hours": 2, "daylight_hours": 2}  # fmt: skip
    assert [one["value"] for one in answer["assumptions"] if one["code"] == "weather_gaps_filled"] == [2]


@pytest.mark.parametrize("least_w_per_m2", [1, 5])
def test_a_logger_that_writes_nothing_in_the_dusk_has_no_gaps_there(least_w_per_m2: float) -> None:
    light = year_ghi()
    cut = [one if one >= least_w_per_m2 else None for one in light]
    whole, told = (post("/v1/energy", given(ghi_w_per_m2=one)).json()["energy"] for one in (light, cut))
    lost_share = 1 - sum(one or 0.0 for one in cut) / sum(light)
    assert told["year_kwh"]["middle"] == pytest.approx(whole["year_kwh"]["middle"], rel=lost_share + 1e-3)
    assert sum(one["daylight_hours"] for one in told["weather"]["gaps"]) < 100


def test_light_on_the_panels_plane_is_taken_as_it_is() -> None:
    flat = [{**SMALLEST["arrays"][0], "plane": {"tilt_deg": 30, "azimuth_deg": 180}}]
    light = year_ghi()
    answer = post("/v1/energy", {**given(plane_w_per_m2=[light]), "arrays": flat}).json()
    rated_kw = SMALLEST["arrays"][0]["panel"]["rated_power_w"] / 1000
    assert answer["energy"]["light_kwh"] == pytest.approx(rated_kw * sum(light) / 1000, rel=1e-3)
    assert [one["code"] for one in answer["assumptions"] if one["pointer"].endswith("/ghi_w_per_m2")] == [
        "level_from_plane"
    ]


def test_the_light_on_level_ground_does_not_hang_on_which_array_comes_first() -> None:
    light = year_ghi()[24 * 151 : 24 * 181]
    arrays = [
        {"panel": {"rated_power_w": 410}, "mount": "ground_frame", "plane": {"tilt_deg": tilt, "azimuth_deg": azimuth}}
        for tilt, azimuth in ((10, 180), (80, 60))
    ]
    ground = []
    for turn in (1, -1):
        series = {"first": "2025-06-01T00:00:00+02:00", "plane_w_per_m2": [light, [0.6 * one for one in light]][::turn]}
        told = post("/v1/energy", {**given(**series), "arrays": arrays[::turn]}).json()["energy"]["weather"]
        ground.append(told["level_ground_kwh_per_m2"])
    assert ground[0] == ground[1] == pytest.approx(sum(light) / 1000, rel=0.05)


def test_the_request_that_comes_back_can_be_sent_again() -> None:
    request = {**given(ghi_w_per_m2=year_ghi()), "include": ["used"]}
    first = post("/v1/energy", request).json()
    again = post("/v1/energy", {**first["used"], "include": ["used"]}).json()
    assert again["energy"]["year_kwh"]["middle"] == pytest.approx(first["energy"]["year_kwh"]["middle"], abs=0.02)


def test_beyond_the_table_given_weather_is_told_not_to_do() -> None:
    request = {**june(), "site": {"latitude_deg": 78.2, "longitude_deg": 15.6}}
    refused = post("/v1/energy", request).json()
    assert refused["code"] == "no_climate"
    assert "Weather of your own cannot stand in for the table" in refused["detail"]
    assert refused["detail"] == post("/v1/energy", {**request, "weather": {"source": "climate"}}).json()["detail"]
    assert {one["pointer"] for one in refused["errors"]} == {"/site/latitude_deg", "/site/longitude_deg"}


@pytest.mark.parametrize("path", ["/v1/appraisal", "/v1/compatibility", "/v1/payback"])
def test_a_whole_year_serves_every_question(path: str) -> None:
    assert post(path, given(ghi_w_per_m2=year_ghi())).status_code == 200


def test_columns_of_other_lengths_are_told() -> None:
    answer = post("/v1/energy", june(air_c=[15.0] * 700))
    [told] = answer.json()["errors"]
    assert told["pointer"] == "/weather/series/air_c"
    assert told["given"] == "700"
    assert "720" in told["accepted"]


@pytest.mark.parametrize(
    ("series", "pointer"),
    [({"first": None}, "/weather/series/first"), ({"step_minutes": None}, "/weather/series/step_minutes"),
     ({"ghi_w_per_m2": None}, "/weather/series/ghi_w_per_m2"), ({"stamp": "begin"}, "/weather/series/stamp"),
     ({"first": "2025-02-30T00:00Z"}, "/weather/series/first"), ({"ghi": [3]}, "/weather/series/ghi")],
)  # fmt: skip
def test_what_is_missing_or_misspelt_is_told_where_it_stands(series: dict[str, Any], pointer: str) -> None:
    request = june()
    request["weather"]["series"] |= series
    answer = post("/v1/energy", request)
    assert answer.status_code == 422
    assert pointer in [one["pointer"] for one in answer.json()["errors"]]


def test_a_day_too_many_for_the_limit_is_refused_in_one_line() -> None:
    answer = post("/v1/energy", given(ghi_w_per_m2=[0.0] * 35_137))
    [told] = answer.json()["errors"]
    assert (told["code"], told["pointer"]) == ("wrong_count", "/weather/series/ghi_w_per_m2")


@pytest.mark.parametrize(
    ("series", "pointer"),
    [({"ghi_w_per_m2": ["x"] * 35_136}, "/weather/series/ghi_w_per_m2/0"),
     ({"plane_w_per_m2": [["x"] * 27_000] * 8}, "/weather/series/plane_w_per_m2/0/0")],
)  # fmt: skip
def test_a_long_column_of_mistakes_stops_at_its_first(series: dict[str, Any], pointer: str) -> None:
    answer = post("/v1/energy", given(**series))
    assert [one["pointer"] for one in answer.json()["errors"]] == [pointer]


def test_five_columns_of_a_year_of_quarter_hours_fit_in_one_question() -> None:
    """The typical year's hours, four times each: the same year but for the sun's quarter-hours and the split."""
    names = ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2")
    typical = typical_year(load_climate().at(54.2, 12.3, None), "Europe/Berlin")
    columns = {name: np.repeat(np.round(getattr(typical, name), 1), 4).tolist() for name in names}
    columns |= {"air_c": np.repeat(np.round(typical.air_c, 1), 4).tolist(), "wind_m_per_s": [1.5] * 35_040}
    answer = post("/v1/energy", given(step_minutes=15, **columns)).json()
    own = post("/v1/energy", SMALLEST).json()
    assert answer["energy"]["year_kwh"]["middle"] == pytest.approx(own["energy"]["year_kwh"]["middle"], rel=3e-3)
    assert not [one for one in answer["assumptions"] if one["pointer"].startswith("/weather")]
