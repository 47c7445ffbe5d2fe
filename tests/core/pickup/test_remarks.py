"""Is it said where something that was told contradicts itself or comes to nothing?"""

from datetime import date
from typing import Any

import pytest

from service.core.pickup import (
    Between,
    Light,
    another_day,
    cells_of,
    cells_unlike_air,
    less_light_than_told,
    light_indoors,
    light_told_twice,
    names_alike,
    remarks_on,
    size_unlike_power,
)
from tests.core.pickup.door import measured, reading

TEN = Between.exactly(10.0)


def said(*told: dict[str, Any]) -> list[str]:
    return [one.code for one in remarks_on([reading(**one) for one in told])]


@pytest.mark.parametrize(
    ("told", "code"),
    [
        ([{"voc": 38.9, "wetted": True}], "wetted_without_frame"),
        ([{"voc": 38.9, "wetted": True}, {"plus_to_frame_v": 0.1, "frame_to_minus_v": 0.1}], "wetted_without_frame"),
        ([{"voc": 38.9, "meter_input_mohm": TEN}], "meter_input_without_frame"),
        ([{"glass_state": "sound", "shaded": True}], "shade_without_reading"),
        ([{"back_state": "sound"}, {"back_state": "burnt"}], "back_told_twice"),
        ([{"glass_state": "cracked"}, {"glass_state": "sound"}], "glass_told_twice"),
        ([{"bypass_forward_v": 0.9}, {"bypass_over_range": True}], "diodes_told_twice"),
        ([{"bypass_forward_v": 0.9}, {"bypass_forward_v": 0.1}], "diodes_told_twice"),
        ([{"bypass_swapped_v": 0.9}, {"bypass_swapped_over_range": True}], "diodes_told_twice"),
        ([{"plus_to_frame_v": 12.0, "frame_to_minus_v": 9.0}, {"plus_to_frame_v": 0.0, "frame_to_minus_v": 0.1}],
         "frame_told_twice"),
    ],
)  # fmt: skip
def test_what_contradicts_itself_or_comes_to_nothing_is_said(told: list[dict[str, Any]], code: str) -> None:
    assert said(*told) == [code]
    assert said(*told[::-1]) == [code]


@pytest.mark.parametrize(
    "told",
    [
        [{"voc": 38.9, "isc": 7.0}],
        [{"voc": 38.9, "isc": 3.0, "shaded": True}],
        [{"plus_to_frame_v": 0.1, "frame_to_minus_v": 0.1, "wetted": True, "meter_input_mohm": TEN}],
        [{"plus_to_frame_v": 0.1, "wetted": True}],
        [{"back_state": "chalky"}, {"back_state": "cracked"}],
        [{"bypass_forward_v": 0.9, "bypass_swapped_over_range": True}, {"bypass_forward_v": 0.85}],
        [{"plus_to_frame_v": 0.2, "frame_to_minus_v": 0.1}, {"plus_to_frame_v": 2.0, "frame_to_minus_v": 3.0,
                                                             "wetted": True}],
        [{"panel": "a", "back_state": "sound"}, {"panel": "b", "back_state": "burnt"}],
    ],
)  # fmt: skip
def test_what_goes_together_is_passed_over_in_silence(told: list[dict[str, Any]]) -> None:
    assert said(*told) == []


def test_one_remark_names_all_its_panels_but_not_a_hundred() -> None:
    [told] = remarks_on([reading(str(number), voc=38.9, wetted=True) for number in range(3)])
    assert told.facts == {"panels": "0, 1, 2"}
    [told] = remarks_on([reading(str(number), voc=38.9, wetted=True) for number in range(100)])
    assert len(str(told.facts["panels"])) < 40


@pytest.mark.parametrize(
    ("w_per_m2", "otherwise", "how"),
    [
        (700.0, light_indoors(), "indoors"),
        (40.0, light_indoors(), None),
        (700.0, Light(w_per_m2=Between(low=54.0, likely=158.0, high=390.0), origin="sky"), "sky"),
        (450.0, Light(w_per_m2=Between(low=54.0, likely=158.0, high=390.0), origin="sky"), None),  # beside a cloud
        (700.0, Light(w_per_m2=Between.exactly(0.0), origin="sky"), "sun_is_down"),
        (10.0, Light(w_per_m2=Between.exactly(0.0), origin="sky"), None),  # twilight
    ],
)
def test_light_that_was_measured_and_told_otherwise_too(w_per_m2: float, otherwise: Light, how: str | None) -> None:
    told = light_told_twice(measured(w_per_m2), otherwise)
    assert (None if told is None else told.facts["otherwise"]) == how


CLEAR = Between(low=700.0, likely=850.0, high=950.0)


@pytest.mark.parametrize(
    ("w_per_m2", "sky", "least"),
    [
        (300.0, Light(w_per_m2=CLEAR, origin="sky"), 700),
        (690.0, Light(w_per_m2=CLEAR, origin="sky"), None),  # within the meter's error
        (300.0, Light(w_per_m2=CLEAR, origin="sky", askew_w_per_m2=400.0), 400),
        (400.0, Light(w_per_m2=CLEAR, origin="sky", askew_w_per_m2=400.0), None),  # held level
        (10.0, Light(w_per_m2=Between.exactly(0.0), origin="sky"), None),
        (0.1, light_indoors(), None),
    ],
)
def test_less_light_than_a_sky_that_was_told_gives_is_said(w_per_m2: float, sky: Light, least: int | None) -> None:
    told = less_light_than_told(measured(w_per_m2), sky)
    assert (None if told is None else told.facts["least"]) == least


@pytest.mark.parametrize(("cell_c", "odd"), [(-20, True), (20, False), (38, False), (75, False), (105, True)])
def test_cells_that_no_such_air_and_light_can_make(cell_c: float, odd: bool) -> None:
    """In 700 W/m2 cells are some 20 to 30 K warmer than the air; from a cellar of 12 C or a hot wall they differ."""
    cells = cells_of(Between.exactly(35.0), Between.exactly(700.0))
    assert (cells_unlike_air(cell_c, cells, 35.0) is not None) == odd


@pytest.mark.parametrize(
    ("day", "otherwise"),
    [
        (date(2026, 11, 25), None), (date(2026, 11, 26), None), (date(2026, 11, 27), "ahead"),
        (date(2025, 12, 1), None), (date(2025, 11, 1), "long_ago"), (date(1990, 6, 21), "long_ago"),
    ],
)  # fmt: skip
def test_panels_read_on_a_day_that_is_to_come_or_long_past(day: date, otherwise: str | None) -> None:
    found = another_day(day, date(2026, 11, 25))
    assert (None if found is None else found.facts["otherwise"]) == otherwise


@pytest.mark.parametrize(
    ("watts", "length_mm", "width_mm", "odd"),
    [
        (440, 1722, 1134, False), (330, 1690, 1002, False), (50, 1200, 600, False), (400, 172.2, 113.4, True),
        (4, 1722, 1134, True), (440, None, 1134, False), (440, 1722, None, False),
    ],
)  # fmt: skip
def test_a_size_that_cannot_have_that_power(
    watts: float, length_mm: float | None, width_mm: float | None, odd: bool
) -> None:
    """Common sheets, and the same in centimetres."""
    assert (size_unlike_power(watts, length_mm, width_mm) is not None) == odd


def test_names_that_differ_in_capitals_and_blanks_alone() -> None:
    found = names_alike(["a", "b", "A ", "a", "c"])
    assert found is not None
    assert found.facts["panels"] == "“A ”, “a”"
    assert names_alike(["a", "a", "b"]) is None
    assert names_alike([]) is None
