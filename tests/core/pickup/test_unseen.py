"""Does the check say what volts and amperes cannot show, and leave as much open as a panel may lack unseen?

A panel of groups with bypass diodes, each group a single diode with its own photocurrent, tells what a meter reads and
what power is left; nothing of it is taken from the service.
"""

from itertools import product

import numpy as np
import pytest

from service.core.pickup import Between, Light, Seen, expected_at
from service.core.pickup.unseen import least_left_share
from tests.core.pickup.door import codes, door, measured, one, ratings, reading, sky

_VOLTS_A_KELVIN, _CELL_K, _BYPASS_V, _SERIES_OHM = 8.617333e-5, 306.15, 0.5, 0.3
VOC_V, ISC_A, CELLS, IDEALITY = 40.6, 9.85, 60, 1.1


def measured_on(photo_a: tuple[float, ...], voc_v: float = VOC_V, cells: int = CELLS) -> tuple[float, float, float]:
    """Open-circuit volts, short-circuit amperes and most watts of groups in a row, each giving so many amperes."""
    groups = len(photo_a)
    thermal_v = IDEALITY * cells / groups * _VOLTS_A_KELVIN * _CELL_K
    group_voc_v = voc_v * (1.0 - 0.003 * (_CELL_K - 298.15)) / groups
    dark_a = ISC_A / np.expm1(group_voc_v / thermal_v)
    amperes = np.linspace(0.0, max(photo_a), 4001)
    volts = np.zeros_like(amperes)
    for light_a in photo_a:
        inside = np.maximum((light_a - amperes + dark_a) / dark_a, 1e-300)
        volts += np.maximum(thermal_v * np.log(inside) - amperes * _SERIES_OHM / groups, -_BYPASS_V)
    return float(volts[0]), float(amperes[volts >= 0.0][-1]), float((volts * amperes).max())


def photo_a(w_per_m2: float, *shares: float) -> tuple[float, ...]:
    return tuple(share * ISC_A * w_per_m2 / 1000.0 * 1.004 for share in shares)


@pytest.mark.parametrize("shares", [(1.0, 1.0, 0.5), (1.0, 0.5, 0.5), (1.0, 0.6, 0.4)])
def test_cells_that_are_weak_in_one_group_or_two_pass_both_readings_and_the_answer_says_so(
    shares: tuple[float, ...],
) -> None:
    sound_v, sound_a, sound_w = measured_on(photo_a(720.0, 1.0, 1.0, 1.0))
    volts, amperes, watts = measured_on(photo_a(720.0, *shares))
    assert volts > 0.97 * sound_v
    assert amperes == pytest.approx(sound_a, rel=0.001)
    assert watts < 0.7 * sound_w
    seen = one(door(), reading(voc=volts, isc=amperes))
    assert (seen.verdict, codes(seen), seen.worth.because) == (Seen.AS_EXPECTED, [], "nothing_seen_against_it")
    assert seen.worth.least is not None
    assert seen.worth.share is not None
    assert seen.worth.least <= watts / sound_w <= seen.worth.share
    assert [told.code for told in seen.not_seen] == ["weak_group"]
    assert seen.not_seen[0].facts["knee_v"] == pytest.approx(0.8 * sound_v, abs=1.0)


@pytest.mark.parametrize("light", [measured(720.0), measured(720.0, 0.15), measured(300.0), sky(720.0)])
@pytest.mark.parametrize("current_read", [True, False])
def test_the_least_holds_whatever_weak_groups_pass_as_expected(light: Light, *, current_read: bool) -> None:
    at, w_per_m2 = door(light), light.w_per_m2.likely
    _, _, sound_w = measured_on(photo_a(w_per_m2, 1.0, 1.0, 1.0))
    passed = 0
    for shares in product(np.geomspace(0.05, 1.0, 9), repeat=2):
        volts, amperes, watts = measured_on(photo_a(w_per_m2, 1.0, *shares))
        seen = one(at, reading(voc=volts, isc=amperes if current_read else None))
        if seen.verdict is Seen.AS_EXPECTED:
            passed += 1
            assert seen.worth.least is not None
            assert seen.worth.share is not None
            assert seen.worth.least <= watts / sound_w <= seen.worth.share + 0.101 * (not current_read)
    assert passed > 9


def test_volts_that_are_a_little_low_promise_no_more_power_than_they_show() -> None:
    volts, amperes, watts = measured_on(photo_a(720.0, 1.0, 1.0, 0.04))
    seen = one(door(), reading(voc=volts, isc=amperes))
    assert codes(seen) == ["voltage_low"]
    assert seen.worth.share is not None
    assert seen.worth.least is not None
    sound_w = measured_on(photo_a(720.0, 1.0, 1.0, 1.0))[2]
    assert seen.worth.least < watts / sound_w < 0.7 < seen.worth.share
    assert [told.code for told in seen.not_seen] == ["weak_group"]


@pytest.mark.parametrize(("volts", "lost"), [(26.0, 1), (13.0, 2)])
def test_a_group_that_is_lost_already_is_not_taken_off_twice(volts: float, lost: int) -> None:
    seen = one(door(), reading(voc=volts, isc=7.0))
    assert seen.worth.share == pytest.approx((3 - lost) / 3, abs=0.01)
    assert seen.worth.least == pytest.approx(least_left_share(ratings()), abs=0.03)


def test_cells_of_one_group_hide_no_weak_one_behind_a_sound_current() -> None:
    single = door(cells_in_series=Between.exactly(20.0), sections=Between.exactly(1.0))
    sound = expected_at(single)
    assert sound.voltage is not None
    assert sound.current is not None
    seen = one(single, reading(voc=sound.voltage.likely, isc=sound.current.likely))
    assert (seen.worth.because, seen.worth.share, seen.not_seen) == ("nothing_against_it", 1.0, ())
    assert seen.worth.least is not None
    assert seen.worth.least > 0.9


def test_volts_alone_leave_open_how_weak_the_cells_of_one_group_are() -> None:
    few = {name: Between.exactly(value) for name, value in
           (("open_circuit_voltage_v", 13.5), ("cells_in_series", 20.0), ("sections", 1.0))}  # fmt: skip
    volts, _, watts = measured_on(photo_a(720.0, 0.5), 13.5, 20)
    seen = one(door(**few), reading(voc=volts))
    assert seen.verdict is Seen.AS_EXPECTED
    assert seen.worth.least is not None
    assert seen.worth.least <= watts / measured_on(photo_a(720.0, 1.0), 13.5, 20)[2] < 0.55


def test_without_a_current_more_is_unseen() -> None:
    seen = one(door(), reading(voc=38.9))
    assert [told.code for told in seen.not_seen] == ["weak_group", "current_not_read"]


def test_of_what_is_worth_nothing_or_not_known_nothing_more_is_said() -> None:
    for read in (reading(voc=38.9, isc=7.0, back_state="burnt"), reading(voc=38.9, isc=7.0, shaded=True), reading()):
        assert one(door(), read).not_seen == ()


def test_what_is_open_leaves_no_least() -> None:
    dry = reading(voc=26.0, isc=7.0, plus_to_frame_v=3.0)
    assert (one(door(), dry).worth.share, one(door(), dry).worth.least) == (pytest.approx(0.67, abs=0.01), None)
