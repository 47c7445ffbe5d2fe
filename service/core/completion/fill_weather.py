"""What was taken where the caller's own weather left something open?"""

from collections.abc import Sequence
from dataclasses import replace

from service.core.completion.node import Guess, Node
from service.core.model.climate import PlaceClimate
from service.core.model.place import Plane
from service.core.model.weather import GivenSky
from service.core.sky import level_at_most

# How well the light of a caller's series was measured is not known. 3 %: judgement, between a clean thermopile (2 % of
# a year, from memory) and a satellite's or a small silicon sensor's year (4 to 5 %).
GIVEN_LIGHT_SD = 0.03

# The level ground's light found from planes before which the sun stands is off by less than this in a year: judgement.
LEAST_LEVEL_SHARE = 0.9


def note_weather(node: Node, sky: GivenSky, climate: PlaceClimate, planes: Sequence[Plane]) -> None:
    """Write down what the weather at ``node`` did not tell: that of its series, or of its file.

    ``planes``: of the arrays, on which the light may have been measured.
    """
    wind = Guess(value=round(climate.wind_m_per_s, 1))
    if node.get("file") is not None:
        told = f"{'sum' if sky.split_by_model else 'light'}{'_and_air' if sky.air_given else ''}_of_file"
        node.assume("file", replace(wind, code=told))
        _note_gaps(node, "source", sky)
        return
    if sky.rest_of_months_h:
        node.assume("series", Guess(value=sky.rest_of_months_h, code="rest_of_months"))
    node = node.child("series")
    if not sky.air_given:
        node.assume("air_c")
    if not sky.wind_given:
        node.assume("wind_m_per_s", wind)
    if node.get("ghi_w_per_m2") is None:
        node.assume("ghi_w_per_m2", _level_from(sky, planes))
    elif sky.split_by_model:
        node.assume("dni_w_per_m2")
    _note_gaps(node, "ghi_w_per_m2", sky)


def _level_from(sky: GivenSky, planes: Sequence[Plane]) -> Guess:
    """The level ground's light as it was found, kWh/m2, and how much it may be."""
    found, most = (float(of.ghi_w_per_m2.sum()) / 1000.0 for of in (sky.sky, level_at_most(sky.sky, planes)))
    least = LEAST_LEVEL_SHARE * found
    return Guess(
        value=round(found, 1), code="level_from_plane", low=round(least, 1), high=round(most / LEAST_LEVEL_SHARE, 1)
    )


def _note_gaps(node: Node, name: str, sky: GivenSky) -> None:
    if sky.gaps:
        hours = sum(gap.daylight_hours if gap.what == "light" else gap.hours for gap in sky.gaps)
        node.assume(name, Guess(value=hours, code="weather_gaps_filled"))


def climate_of_given(climate: PlaceClimate, *, whole_year: bool) -> PlaceClimate:
    """The place's climate with how sure light is that was given; a part of a year is no sample of years to come."""
    return replace(
        climate,
        light_from="given",
        climate_sd_share=GIVEN_LIGHT_SD,
        year_to_year_sd_share=climate.year_to_year_sd_share if whole_year else 0.0,
    )
