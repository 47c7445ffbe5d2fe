"""An answer does not contradict itself: how far an assumption moves the year lies within the year's own band.

Of a range of numbers the ends hold 95 % of cases and the band 80 %, so that they may lie beyond it by the ratio of the
two where nothing else is in doubt. Another choice has to lie within. Left out, for the band does not speak of them: of
how many panels the answer is (one where nobody told), and the limit that the inverter is set to.
"""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.model.band import Z_90, Z_95
from tests.http.client import post

NOT_IN_THE_BAND = ("/count", "/set_limit_w")
# Of two that are open at once the band takes each as independent; rounding and limits of the set account for the rest.
SLACK = 1.03
PLACES = [(54.2, 12.3), (39.3, -8.5), (-33.9, 18.6), (69.6, 19.0), (1.3, 103.8)]
ALL_YEAR = list(range(1, 13))

shadows = st.fixed_dictionaries(
    {"months": st.sampled_from([ALL_YEAR, [5, 6, 7, 8]]), "from_clock": st.sampled_from(["00:00", "09:00", "12:30"]),
     "to_clock": st.sampled_from(["13:00", "17:00", "24:00"]), "blocked_share": st.sampled_from([0.1, 0.4, 0.6, 1.0])},
    optional={"cause": st.sampled_from(["tree", "house", "mast"]), "edge": st.sampled_from(["soft", "hard"])},
)  # fmt: skip
slabs = st.fixed_dictionaries(
    {"above_top_edge_m": st.sampled_from([0.0, 0.3, 1.6]), "reaches_out_m": st.sampled_from([0.3, 1.0, 1.5])}
)
walls = st.fixed_dictionaries(
    {"side": st.sampled_from(["left", "right"]), "distance_m": st.sampled_from([0.1, 0.5]),
     "reaches_out_m": st.sampled_from([0.5, 1.2])}
)  # fmt: skip
rows = st.fixed_dictionaries(
    {"above_bottom_edge_m": st.sampled_from([0.2, 0.6]), "distance_m": st.sampled_from([0.5, 1.5])}
)
around = st.fixed_dictionaries(
    {}, optional={"shade": st.lists(shadows, min_size=1, max_size=2), "overhang": slabs, "row_in_front": rows,
                  "side_walls": walls.map(lambda one: [one])},
)  # fmt: skip
panels = st.fixed_dictionaries(
    {"rated_power_w": st.sampled_from([60, 100, 120, 160, 200, 250, 330, 410, 440, 550])},
    optional={"half_cells": st.booleans(), "age_years": st.just(0)},
)
inputs = st.fixed_dictionaries(
    {}, optional={"tracking_min_v": st.sampled_from([14, 16, 22, 28]), "max_current_a": st.sampled_from([10.5, 13, 18]),
                  "start_voltage_v": st.sampled_from([18, 22, 30])},
)  # fmt: skip


@st.composite
def requests(draw: st.DrawFn) -> dict[str, Any]:
    """A set of one kind of panel, as much of it told as people tell."""
    place = draw(st.sampled_from(PLACES))
    toward = 180 if place[0] > 0 else 0
    azimuth_deg = (toward + draw(st.sampled_from([0, 60, 270]))) % 360
    array: dict[str, Any] = {
        "panel": draw(panels),
        "mount": draw(st.sampled_from(["hung_on_rail", "wall", "ground_frame", "flat_roof"])),
        "plane": {"tilt_deg": draw(st.sampled_from([0, 35, 70, 90])), "azimuth_deg": azimuth_deg},
        "facade_azimuth_deg": azimuth_deg,
        **draw(around),
    }
    if draw(st.booleans()):
        array["count"] = draw(st.integers(1, 3))
    inverter: dict[str, Any] = {"ac_power_w": draw(st.sampled_from([300, 600, 800])), "input_count": 1}
    if told := draw(inputs):
        inverter["inputs"] = [told]
    site = dict(zip(("latitude_deg", "longitude_deg"), place, strict=True))
    return {"site": site, "arrays": [array], "inverter": inverter, "as_of": "2026-11-25", "include": ["moves"]}


@settings(max_examples=max(settings.default.max_examples // 2, 10))
@given(requests())
def test_what_an_assumption_moves_lies_within_the_band(request: dict[str, Any]) -> None:
    response = post("/v1/energy", request)
    if response.status_code == 422:  # a slab told that hides all, start above window
        return
    answer = response.json()
    year = answer["energy"]["year_kwh"]
    if year["middle"] < 5.0:
        return
    half_width = max(year["hopeful"] / year["middle"] - 1.0, 1.0 - year["cautious"] / year["middle"])
    for one in answer["assumptions"]:
        if one.get("moves") is None or one["pointer"].endswith(NOT_IN_THE_BAND):
            continue
        of_cases = Z_95 / Z_90 if one.get("low") is not None else 1.0
        assert one["moves"]["share"] <= SLACK * of_cases * half_width, (one["pointer"], year)
