"""Weather files that the operator keeps: named in a request, listed, and refused where they tell of something else."""

import json
from pathlib import Path
from typing import Any

import httpx
import pytest
from fastapi import FastAPI

from service.app import create_app
from service.settings import Settings
from tests.http.client import SMALLEST, ask
from tests.weather_file import PLACE, epw_lines, sky, with_fields, written

AIR, GHI, DNI, DHI = 6, 13, 14, 15
ROWS = [["2026-05-01T10:00:00+02:00", 0.2], ["2026-05-01T11:00:00+02:00", 0.3]]


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> FastAPI:
    folder = tmp_path_factory.mktemp("weather")
    written(folder, "pier", epw_lines())
    written(folder, "holes", epw_lines(missing=range(4000, 4002)))
    written(folder, "far", epw_lines((48.1, 11.6)))
    return create_app(Settings(weather_folder=str(folder)))


def asked(app: FastAPI, path: str, **facts: Any) -> httpx.Response:
    headers = {"content-type": "application/json"}
    return ask("POST", path, app=app, headers=headers, content=json.dumps({**SMALLEST, **facts}).encode())


def from_file(name: str) -> dict[str, Any]:
    return {"source": "file", "file": name}


def test_a_file_gives_what_its_hours_give_as_a_series(app: FastAPI) -> None:
    year = sky()
    series = {
        "first": "2023-01-01T01:00:00+01:00", "step_minutes": 60, "stamp": "end",
        **{name: [float(f"{one:.0f}") for one in getattr(year, name)]
           for name in ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2")},
        "air_c": [float(f"{one:.1f}") for one in year.air_c],
    }  # fmt: skip
    given = asked(app, "/v1/energy", weather={"source": "given", "series": series}).json()
    named = asked(app, "/v1/energy", weather=from_file("pier"), include=["used"]).json()
    assert named["energy"] == given["energy"]
    assert named["used"]["weather"] == from_file("pier")
    told = [one for one in named["assumptions"] if one["pointer"].startswith("/weather")]
    assert [(one["pointer"], one["code"]) for one in told] == [("/weather/file", "light_and_air_of_file")]


@pytest.mark.parametrize("path", ["/v1/appraisal", "/v1/tilt", "/v1/compatibility"])
def test_other_questions_take_it(path: str, app: FastAPI) -> None:
    assert asked(app, path, weather=from_file("pier")).status_code == 200


def test_what_was_filled_is_told(app: FastAPI) -> None:
    answer = asked(app, "/v1/energy", weather=from_file("holes")).json()
    assert [gap["hours"] for gap in answer["energy"]["weather"]["gaps"] if gap["what"] == "light"] == [2]
    assert "weather_gaps_filled" in [one["code"] for one in answer["assumptions"]]


def test_the_vocabulary_lists_them_and_the_edition_is_another(app: FastAPI) -> None:
    listed = ask("GET", "/v1/vocabulary", app=app).json()
    assert [one["name"] for one in listed["weather_files"]] == ["far", "holes", "pier"]
    plain = ask("GET", "/v1/vocabulary").json()
    assert plain["weather_files"] == []
    assert plain["data_version"] != listed["data_version"]


@pytest.mark.parametrize(
    ("name", "problem"),
    [("nowhere", "not among"), ("far", "away"), ("../pier", "not among"), ("pier.epw", "not among")],
)
def test_another_name_or_place_is_refused_with_one_that_does(name: str, problem: str, app: FastAPI) -> None:
    answer = asked(app, "/v1/energy", weather=from_file(name))
    assert answer.status_code == 422
    [told] = answer.json()["errors"]
    assert told["pointer"] == "/weather/file"
    assert problem in told["problem"]
    assert asked(app, "/v1/energy", weather=from_file(told["example"])).status_code == 200


def test_where_no_file_is_near_the_climate_is_offered(app: FastAPI) -> None:
    site = {"latitude_deg": 39.3, "longitude_deg": -8.5}
    [told] = asked(app, "/v1/energy", site=site, weather=from_file("pier")).json()["errors"]
    assert told["pointer"] == "/weather"
    assert asked(app, "/v1/energy", site=site, weather=json.loads(told["example"])).status_code == 200


@pytest.mark.parametrize(
    ("lines", "problem"),
    [
        (epw_lines(offset_hours=-8.0), "the sun is down"),
        (epw_lines(missing=range(4000, 4020)), "hours of daylight in a row"),
        (with_fields({AIR: "99.9"}, range(4000, 4100)), "100 hours in a row"),
        (with_fields({GHI: "20"}), "the sun is down"),
        (with_fields({DNI: "0"}), "does not close"),
    ],
)
def test_hours_that_do_not_do_are_refused_at_the_file_s_name(lines: list[str], problem: str, tmp_path: Path) -> None:
    written(tmp_path, "odd", lines)
    alone = create_app(Settings(weather_folder=str(tmp_path)))
    answer = asked(alone, "/v1/energy", weather=from_file("odd"))
    assert answer.status_code == 422
    [told] = answer.json()["errors"]
    assert (told["pointer"], told["given"]) == ("/weather", "odd")
    assert problem in told["problem"]
    assert asked(alone, "/v1/energy", weather=json.loads(told["example"])).status_code == 200
    written(tmp_path, "pier", epw_lines())
    both = create_app(Settings(weather_folder=str(tmp_path)))
    [told] = asked(both, "/v1/energy", weather=from_file("odd")).json()["errors"]
    assert (told["pointer"], told["given"]) == ("/weather/file", "odd")
    assert "list" not in told["accepted"]
    assert asked(both, "/v1/energy", weather=from_file(told["example"])).status_code == 200


@pytest.mark.parametrize(
    ("missing", "code"),
    [({DNI: "9999", DHI: "9999"}, "sum_and_air_of_file"), ({AIR: "99.9"}, "light_of_file"),
     ({DNI: "9999", DHI: "9999", AIR: "99.9"}, "sum_of_file"), ({DHI: "9999"}, "light_and_air_of_file")],
)  # fmt: skip
def test_what_a_file_leaves_out_throughout_is_taken_and_told(
    missing: dict[int, str], code: str, tmp_path: Path
) -> None:
    """The typical year's hours with a part of them left out, which the typical year then fills in again."""
    written(tmp_path, "part", with_fields(missing))
    app = create_app(Settings(weather_folder=str(tmp_path)))
    answer = asked(app, "/v1/energy", weather=from_file("part")).json()
    told = [one for one in answer["assumptions"] if one["pointer"].startswith("/weather")]
    assert [(one["pointer"], one["code"]) for one in told] == [("/weather/file", code)]
    climate = asked(app, "/v1/energy").json()["energy"]["year_kwh"]["middle"]
    assert answer["energy"]["year_kwh"]["middle"] == pytest.approx(climate, rel=2e-3)


def test_a_log_is_not_held_against_a_year_made_up_of_several(app: FastAPI) -> None:
    readings = {"kind": "interval", "unit": "kwh", "stamp": "start", "rows": ROWS}
    [told] = asked(app, "/v1/logbook/review", weather=from_file("pier"), readings=readings).json()["errors"]
    assert told["pointer"] == "/weather"
    assert "days logged" in told["problem"]


def test_a_bad_folder_stops_the_start(tmp_path: Path) -> None:
    written(tmp_path, "pier", epw_lines(PLACE)[:100])
    with pytest.raises(ValueError, match="pier"):
        create_app(Settings(weather_folder=str(tmp_path)))
