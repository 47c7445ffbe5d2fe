"""A set that was completed before is completed to the same, and to no other set's."""

from copy import deepcopy
from datetime import date
from typing import Any

import pytest

from service.core.completion import Completed, DefaultTables, Known, KnownSets, KnownTerms, complete
from service.core.model.place_facts import PlaceFacts
from tests.climates import climate
from tests.requests import FULL, LISTED, PRICES, SMALLEST, with_array, with_inverter, with_panel
from tests.skies import mixed_year

SKY, ELSEWHERE = mixed_year(54.2, 12.3), mixed_year(-33.9, 18.4)
DAY, EARLIER = date(2026, 11, 25), date(2012, 11, 25)
YEAR_OLD = with_panel(rated_power_w=270, age_years=1)
ON_A_FRAME = with_array(mount="ground_frame")
ON_SNOW, ON_PITCH = (
    {**ON_A_FRAME, "site": {**ON_A_FRAME["site"], "ground_reflectance_share": share}} for share in (0.9, 0.0)
)
NO_STEEPER = {**SMALLEST, "tilt": {"bounds": {"high_tilt_deg": 20}}}
# Each with the sky and day on which it is asked, none of them like another in what the set hangs on.
ASKED = [
    (SMALLEST, SKY, DAY), (SMALLEST, ELSEWHERE, DAY), (NO_STEEPER, SKY, DAY), (ON_SNOW, SKY, DAY), (ON_PITCH, SKY, DAY),
    (with_panel(rated_power_w=410), SKY, DAY), (with_panel(rated_power_w=410, age_years=10), SKY, DAY),
    (with_array(mount="wall"), SKY, DAY), (with_array(plane={"tilt_deg": 50}), SKY, DAY),
    (with_inverter(ac_power_w=800), SKY, DAY), (YEAR_OLD, SKY, DAY), (YEAR_OLD, SKY, EARLIER), (FULL, SKY, DAY),
]  # fmt: skip


def completed(asked: tuple[dict[str, Any], Any, date], known: Known | None) -> Completed:
    request, sky, day = asked
    place = PlaceFacts(climate=climate(), time_zone="Europe/Berlin", country="DE")
    tables = DefaultTables(prices=PRICES, panels=LISTED)
    return complete(deepcopy(request), place, sky, tables, day, known=known)


@pytest.mark.parametrize("size", [1, len(ASKED)])
def test_what_was_completed_before_changes_nothing(size: int) -> None:
    alone = [completed(asked, None) for asked in ASKED]
    known = Known(KnownSets(size), KnownTerms(size))
    assert [completed(asked, known) for asked in [*ASKED, *ASKED]] == [*alone, *alone]


def test_a_set_asked_about_again_is_not_completed_again() -> None:
    known = Known(KnownSets(3), KnownTerms(3))
    completed(ASKED[0], known)
    first = completed(ASKED[0], known)
    assert completed(ASKED[0], known).setup.arrays is first.setup.arrays
    assert len(known.sets) == 1
