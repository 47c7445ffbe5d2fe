"""Which parts of a weather of the caller's own cannot both hold? What the hours themselves tell is seen in the core."""

from collections.abc import Mapping, Sequence
from typing import Any

from service.api.schemas.array import ArrayIn
from service.api.schemas.guide import guide_of
from service.api.schemas.mistakes import NOTHING, Found, Mistake
from service.api.schemas.requests import AppraisalIn, EnergyIn
from service.api.schemas.weather import SeriesIn, WeatherIn
from service.api.words import say

_SERIES = "/weather/series"
_READ_FROM = {"climate": None, "given": "series", "file": "file"}
_COLUMNS = ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2", "air_c", "wind_m_per_s")


def of_the_weather(request: AppraisalIn, found: Found) -> None:
    """All contradictions of the request's weather."""
    weather = request.weather
    if weather is None or not _source(weather, found) or weather.series is None:
        return
    series = weather.series
    _times(series, found)
    _light(series, found)
    _lengths(series, found)
    if series.plane_w_per_m2 is not None:
        _planes(series.plane_w_per_m2, request, found)


def _source(weather: WeatherIn, found: Found) -> bool:
    """Does what is there go with the source?"""
    wanted, before = _READ_FROM[weather.source], len(found.mistakes)
    for name in ("series", "file"):
        value = getattr(weather, name)
        if name == wanted and value is None:
            found.mistakes.append(_missing(name, name))
        elif name != wanted and value is not None:
            accepted = say("problems", "accepted.alone", {"beside": f'"source": "{weather.source}"'})
            given = value if name == "file" else {}
            found.contradiction(f"/weather/{name}", given, f"weather_{name}", accepted, NOTHING)
    return len(found.mistakes) == before


def _missing(name: str, why: str) -> Mistake:
    place = ("weather", name) if name in {"series", "file"} else ("weather", "series", name)
    guide = guide_of(AppraisalIn)
    return Mistake(
        code="missing",
        pointer="/" + "/".join(place),
        problem=say("problems", f"mistake.missing.{why}"),
        accepted=guide.accepted(place),
        example=guide.example(place),
    )


def _times(series: SeriesIn, found: Found) -> None:
    for name in ("first", "step_minutes"):
        value = getattr(series, name)
        if series.times is not None and value is not None:
            accepted = say("problems", "accepted.alone", {"beside": "times"})
            found.contradiction(f"{_SERIES}/{name}", value, "times_twice", accepted, NOTHING)
        elif series.times is None and value is None:
            found.mistakes.append(_missing(name, "times"))


def _light(series: SeriesIn, found: Found) -> None:
    if series.ghi_w_per_m2 is None and series.plane_w_per_m2 is None:
        found.mistakes.append(_missing("ghi_w_per_m2", "light"))
    for name in ("dni_w_per_m2", "dhi_w_per_m2"):
        if series.ghi_w_per_m2 is None and (value := getattr(series, name)) is not None:
            accepted = say("problems", "accepted.beside_ghi")
            found.contradiction(f"{_SERIES}/{name}", value, "without_ghi", accepted, NOTHING)


def _lengths(series: SeriesIn, found: Found) -> None:
    """All columns are as long as the times, else as the first of them."""
    columns: dict[str, Sequence[Any] | None] = {name: getattr(series, name) for name in ("times", *_COLUMNS)}
    columns |= {f"plane_w_per_m2/{at}": plane for at, plane in enumerate(series.plane_w_per_m2 or ())}
    known: Mapping[str, Sequence[Any]] = {name: one for name, one in columns.items() if one is not None}
    if not known:
        return
    first = next(iter(known.values()))
    for name, column in known.items():
        if len(column) != len(first):
            found.mistakes.append(
                Mistake(
                    code="wrong_count",
                    pointer=f"{_SERIES}/{name}",
                    given=str(len(column)),
                    problem=say("problems", "mistake.wrong_count"),
                    accepted=say("problems", "accepted.lengths", {"lengths": (len(first),)}),
                    example=NOTHING,
                )
            )


def _planes(planes: Sequence[Any], request: AppraisalIn, found: Found) -> None:
    pointer = f"{_SERIES}/plane_w_per_m2"
    if not isinstance(request, EnergyIn):
        accepted = say("problems", "accepted.energy_alone")
        found.contradiction(pointer, len(planes), "plane_elsewhere", accepted, NOTHING)
        return
    if len(planes) != len(request.arrays):
        facts = {"input_count": len(request.arrays)}
        accepted = say("problems", "accepted.entries.arrays", facts)
        found.contradiction(pointer, len(planes), "planes", accepted, list(planes[:1]) * len(request.arrays), **facts)
    for at, array in enumerate(request.arrays):
        _plane_of(array, f"/arrays/{at}/plane", found)


def _plane_of(array: ArrayIn, pointer: str, found: Found) -> None:
    """A plane on which light was measured is a known one."""
    given = array.plane.given() if array.plane else {}
    if "tilt_deg" not in given or "azimuth_deg" not in given:
        accepted = say("problems", "accepted.whole_plane")
        example = {"tilt_deg": 30, "azimuth_deg": 180} | given
        found.contradiction(pointer, given, "plane_open", accepted, example)
