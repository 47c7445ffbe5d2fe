"""What is taken where a caller's own weather leaves something open?"""

from service.core.completion.rows import Row

_FILLED = (
    "light: at most 3 hours of daylight in a row, its part of the cloudless light read straight between the hours "
    "beside; air and wind: at most 24 hours, read straight"
)


def _series(name: str, **row: object) -> Row:
    return Row(pointer=f"/weather/series/{name}", **row)  # type: ignore[arg-type]


def _file(code: str, more: str, source: str = "") -> Row:
    rule = f"the mean wind of the place beside what the file tells of light and air{more}"
    return Row(pointer="/weather/file", code=code, rule=rule, unit="m/s", source=f"the climate table{source}")


_AIR = "the air of the typical year at the same hour of the same day"
_SPLIT = (
    "hours by clearness, solar time, height of the sun and the hours beside; shorter steps by their clearness alone"
)
_SPLIT_SOURCE = (
    "Ridley, Boland and Lauret, Renewable Energy 35 (2010) 478-483, eq. 8; shorter steps: Boland, Huang and Ridley, "
    "Renewable and Sustainable Energy Reviews 28 (2013) 749-756"
)

WEATHER_ROWS: tuple[Row, ...] = (
    _series("air_c", code="air_of_climate", rule=_AIR, unit="C", source="the climate table"),
    _series("wind_m_per_s", code="wind_of_climate", rule="the mean wind of the place", unit="m/s",
            source="the climate table"),
    _series("dni_w_per_m2", code="split_by_model", rule=_SPLIT, unit="W/m2", source=_SPLIT_SOURCE),
    _series("ghi_w_per_m2", code="level_from_plane", rule="the light on level ground, summed, that would put the "
            "measured light on the flattest plane before which the sun stands, hour by hour; high: a cloudless sky "
            "while it stands before none", unit="kWh/m2", source="our own choice"),
    _series("ghi_w_per_m2", code="weather_gaps_filled", rule=_FILLED, unit="h", source="our own choice"),
    Row(pointer="/weather/series", code="rest_of_months", rule="snow goes by the mean air of a month; hours of it that "
        "were not given have the month's mean of the place", unit="h", source="the climate table"),
    _file("light_and_air_of_file", ""),
    _file("light_of_file", f"; {_AIR}"),
    _file("sum_and_air_of_file", f"; light: {_SPLIT}", f"; {_SPLIT_SOURCE}"),
    _file("sum_of_file", f"; {_AIR}; light: {_SPLIT}", f"; {_SPLIT_SOURCE}"),
    Row(pointer="/weather/source", code="weather_gaps_filled", rule=_FILLED, unit="h", source="our own choice"),
)  # fmt: skip
