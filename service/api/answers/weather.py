"""Which hours does an answer rest on: those of the climate, or those that the caller gave?"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from service.api.schemas.mistakes import Found, Mistake, RefusedRequest, as_example, shown
from service.api.words import say
from service.core.completion import climate_of_given, default_rows
from service.core.errors import ContradictionError
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.model.place_facts import PlaceFacts
from service.core.model.weather import GivenSky
from service.core.sky import given_sky
from service.data.weather_files import WeatherFile

_CLIMATE = {"source": "climate"}
_MOST_SHOWN = 12  # names of files in a message; GET /v1/vocabulary lists all
_MOST_KM = 50  # from the place of a file: judgement, about a cell of the climate table


def weather_of(
    given: Mapping[str, Any], place: PlaceFacts, typical: SkyYear, files: Mapping[str, WeatherFile], *, parts: bool
) -> tuple[PlaceFacts, GivenSky | None]:
    """The hours that the request gives or names, and the place as sure as they are; None where the climate is asked.

    Args:
        given: the request as sent.
        place: what the tables know of it.
        typical: its typical year.
        files: the operator's weather files by name.
        parts: does the question take a part of a year?

    Raises:
        ContradictionError: the series makes no hours.
        RefusedRequest: a part of a year where that does not do; a file that makes none.
    """
    weather = given.get("weather", {})
    series = _series_of_file(weather["file"], given["site"], files) if "file" in weather else weather.get("series")
    if series is None:
        return place, None
    site = given["site"]
    try:
        sky = given_sky(
            series,
            _planes(given) if series.get("plane_w_per_m2") else (),
            site.get("ground_reflectance_share", _usual_ground()),
            place.climate,
            site.get("time_zone") or place.time_zone,
            typical,
        )
    except ContradictionError as error:
        if "file" in weather:  # its hours stand nowhere in the request
            raise _refused_file(error, weather["file"], site, files) from error
        raise
    if not sky.whole_year:
        _refuse_part(given, sky, parts=parts)
    return replace(place, climate=climate_of_given(place.climate, whole_year=sky.whole_year)), sky


def _series_of_file(name: str, site: Mapping[str, Any], files: Mapping[str, WeatherFile]) -> Mapping[str, Any]:
    """The hours of a file.

    Raises:
        RefusedRequest: there is no such file, or it tells of another place.
    """
    near = _near(site, files)
    if name in near:
        return files[name].series()
    why = "file_elsewhere" if name in files else "no_such_file" if files else "no_files"
    away_km = _away_km(files[name], site) if name in files else 0.0
    raise _refused(name, say("problems", f"mistake.contradiction.{why}", {"distance_km": away_km}), near)


def _refused_file(
    error: ContradictionError, name: str, site: Mapping[str, Any], files: Mapping[str, WeatherFile]
) -> RefusedRequest:
    """What is wrong with the hours of a file, which the caller can only leave for others."""
    problem = say("problems", "mistake.file_hours", {"problem": error.problem, "found": shown(error.given)})
    return _refused(name, problem, [other for other in _near(site, files) if other != name])


def _refused(name: str, problem: str, near: Sequence[str]) -> RefusedRequest:
    """A file that does not do, with those near the place that may."""
    pointer, example = "/weather", as_example(_CLIMATE)
    accepted = say("problems", "accepted.climate", {"most_km": _MOST_KM})
    if near:
        pointer, example = "/weather/file", near[0]
        accepted = say("problems", "accepted.weather_files", {"names": ", ".join(near[:_MOST_SHOWN])})
    mistake = Mistake(
        code="contradiction", pointer=pointer, given=shown(name), problem=problem, accepted=accepted, example=example
    )
    return RefusedRequest("contradiction", (mistake,))


def _near(site: Mapping[str, Any], files: Mapping[str, WeatherFile]) -> list[str]:
    """The names of files near the site, the nearest first."""
    away_km = {name: _away_km(file, site) for name, file in files.items()}
    return [name for name in sorted(files, key=away_km.__getitem__) if away_km[name] <= _MOST_KM]


def _away_km(file: WeatherFile, site: Mapping[str, Any]) -> float:
    return file.km_from(site["latitude_deg"], site["longitude_deg"])


def _planes(given: Mapping[str, Any]) -> list[Plane]:
    return [
        Plane(tilt_deg=array["plane"]["tilt_deg"], azimuth_deg=array["plane"]["azimuth_deg"])
        for array in given["arrays"]
    ]


def _usual_ground() -> float:
    row = next(row for row in default_rows() if row.pointer == "/site/ground_reflectance_share")
    return float(row.value) if isinstance(row.value, int | float) else 0.2


def _refuse_part(given: Mapping[str, Any], sky: GivenSky, *, parts: bool) -> None:
    """A part of a year has no yearly account, and no home's year to limit the export by."""
    found = Found()
    hours = sky.sky.ghi_w_per_m2.size
    limit = given["inverter"].get("export_limit_w")
    if not parts:
        accepted = say("problems", "accepted.whole_year")
        found.contradiction("/weather", f"{hours} hours", "part_of_a_year", accepted, _CLIMATE)
    elif limit is not None:
        accepted = say("problems", "accepted.not_here")
        found.contradiction("/inverter/export_limit_w", limit, "limit_of_a_part", accepted, "null")
    if found.mistakes:
        raise RefusedRequest("contradiction", tuple(found.mistakes))
