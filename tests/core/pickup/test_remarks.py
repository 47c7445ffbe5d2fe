"""Is it said where something that was told contradicts itself or comes to nothing?"""

from typing import Any

import pytest

from service.core.pickup import Between, Light, less_light_than_told, light_indoors, light_told_twice, remarks_on
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
