"""Hourly files of the operator's: are they read as pvlib reads them, and is a bad one named?"""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from pvlib.iotools import read_epw

from service.data.weather_files import WeatherFileError, weather_files
from tests.weather_file import epw_lines, with_fields, written


def test_hours_are_those_that_pvlib_reads(tmp_path: Path) -> None:
    path = written(tmp_path, "pier", epw_lines())
    other, place = read_epw(path, coerce_year=2023)
    found = weather_files(str(tmp_path))["pier"]
    assert (found.latitude_deg, found.longitude_deg) == (place["latitude"], place["longitude"])
    for ours, theirs in (("ghi_w_per_m2", "ghi"), ("dni_w_per_m2", "dni"), ("dhi_w_per_m2", "dhi"),
                         ("air_c", "temp_air")):  # fmt: skip
        np.testing.assert_allclose(getattr(found, ours), other[theirs].to_numpy(), atol=1e-9)
    first = pd.Timestamp(found.series()["first"])
    assert first == other.index[0]  # both name the beginning of the hour
    assert first.utcoffset() == other.index[0].utcoffset()


def test_what_stands_for_missing_is_missing(tmp_path: Path) -> None:
    written(tmp_path, "pier", epw_lines(missing=range(4000, 4002)))
    found = weather_files(str(tmp_path))["pier"]
    for values in (found.ghi_w_per_m2, found.dni_w_per_m2, found.dhi_w_per_m2, found.air_c):
        assert np.flatnonzero(np.isnan(values)).tolist() == [4000, 4001]


def test_a_leap_day_is_left_out(tmp_path: Path) -> None:
    written(tmp_path, "leap", epw_lines(leap=True))
    written(tmp_path, "plain", epw_lines())
    found = weather_files(str(tmp_path))
    np.testing.assert_array_equal(found["leap"].ghi_w_per_m2, found["plain"].ghi_w_per_m2)


def test_without_a_folder_there_are_none_and_notes_are_passed_over(tmp_path: Path) -> None:
    assert weather_files("") == {}
    written(tmp_path, "pier", epw_lines())
    (tmp_path / "note.md").write_text("from the harbour")
    assert list(weather_files(str(tmp_path))) == ["pier"]


@pytest.mark.parametrize(
    "lines",
    [
        ["nothing of the kind"],
        [],
        epw_lines()[:-1],
        epw_lines()[:8] + epw_lines()[9:] + epw_lines()[8:9],
        [line.replace("LOCATION", "PLACE") for line in epw_lines()],
        [*epw_lines()[:-1], "2001,12,31,24,60,?,x"],
    ],
    ids=["text", "empty", "an hour short", "out of order", "no place", "a broken row"],
)
def test_a_file_that_is_none_is_named(lines: list[str], tmp_path: Path) -> None:
    written(tmp_path, "pier", lines)
    with pytest.raises(WeatherFileError, match=r"pier\.epw"):
        weather_files(str(tmp_path))


AIR, GHI, DNI, DHI = 6, 13, 14, 15


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (epw_lines(offset_hours=40), "time zone 40"),
        (epw_lines(offset_hours=float("nan")), "time zone nan"),
        (epw_lines((95, 12.3)), "latitude 95"),
        (epw_lines((float("nan"), 12.3)), "latitude nan"),
        (epw_lines((54.2, 373.0)), "longitude 373"),
        (epw_lines((54.2, float("inf"))), "longitude inf"),
        (with_fields({AIR: "-300"}, [4999]), "air_c of -300 in line 5008"),
        (with_fields({AIR: "500"}, [4999]), "air_c of 500"),
        (with_fields({AIR: "-inf"}, [4999]), "number in line 5008"),
        (with_fields({GHI: "nan"}, [4999]), "number in line 5008"),
        (with_fields({GHI: "9000"}, [4999]), "ghi_w_per_m2 of 9000 in line 5008"),
        (with_fields({DNI: "1600"}, [4999]), "dni_w_per_m2 of 1600"),
        (with_fields({DHI: "5000"}, [4999]), "dhi_w_per_m2 of 5000"),
        (with_fields({GHI: "9999"}), "no light"),
        (with_fields({GHI: "0"}), "no light"),
        (["LOCATION,Pier", *epw_lines()[1:]], "2 fields in its first line"),
    ],
)
def test_what_cannot_be_stops_the_start_and_is_named(lines: list[str], told: str, tmp_path: Path) -> None:
    written(tmp_path, "pier", lines)
    with pytest.raises(WeatherFileError, match=rf"pier\.epw.*{told}"):
        weather_files(str(tmp_path))


def test_a_mark_of_byte_order_changes_nothing(tmp_path: Path) -> None:
    written(tmp_path, "pier", epw_lines())
    plain = weather_files(str(tmp_path))["pier"]
    file = tmp_path / "pier.epw"
    file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes())
    marked = weather_files(str(tmp_path))["pier"]
    assert np.array_equal(marked.ghi_w_per_m2, plain.ghi_w_per_m2)
    assert marked.offset_hours == plain.offset_hours


def test_a_column_that_is_missing_throughout_is_left_out(tmp_path: Path) -> None:
    written(tmp_path, "pier", with_fields({AIR: "99.9"}))
    written(tmp_path, "sum", with_fields({DNI: "9999"}))
    found = weather_files(str(tmp_path))
    light = {"ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2"}
    assert {name for name in found["pier"].series() if name.endswith(("_m2", "_c"))} == light
    assert "dni_w_per_m2" not in found["sum"].series()


def test_a_folder_that_is_none_and_an_empty_one_are_named(tmp_path: Path) -> None:
    for folder in (tmp_path / "nowhere", tmp_path):
        with pytest.raises(WeatherFileError, match=str(folder)):
            weather_files(str(folder))
