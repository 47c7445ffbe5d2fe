"""From the inputs' d.c. power to the socket."""

import numpy as np
import pytest

from service.core.inverter import ac_from_dc, clipped, curve_through, night_draw_kwh, output_of

CURVE = curve_through(0.955, "european")
DC = np.array([0.0, 5.0, 150.0, 640.0, 880.0, 1500.0])


def test_direct_current_goes_to_the_socket_to_heat_or_is_cut_off():
    out = output_of(DC, 800, 800, CURVE)
    assert out.ac_w + out.conversion_loss_w + out.clipped_w + out.not_drawn_w == pytest.approx(DC)
    assert np.all(out.ac_w <= 800)


def test_a_limit_below_the_rating_does_not_move_the_efficiency():
    full, limited = output_of(DC, 800, 800, CURVE), output_of(DC, 800, 600, CURVE)
    assert limited.conversion_loss_w == pytest.approx(full.conversion_loss_w)
    assert limited.ac_w.max() == 600


def test_the_limit_acts_on_alternating_current():
    """800 W a.c. of 836 W converted: a limit on d.c. would give 800 x efficiency."""
    ac = ac_from_dc(np.array([874.0]), 800, CURVE)
    under, cut = clipped(ac, 800)
    assert under[0] == 800
    assert cut[0] == pytest.approx(ac[0] - 800)


def test_a_limit_of_nought_sends_nothing():
    assert np.all(output_of(DC, 800, 0, CURVE).ac_w == 0)


def test_without_a_grid_nothing_is_sent_and_nothing_is_drawn():
    out = output_of(DC, 800, 800, CURVE, grid=False)
    assert np.all(out.ac_w == 0)
    assert out.not_drawn_w == pytest.approx(DC)
    assert np.all(out.conversion_loss_w == 0)


def test_night_draw_counts_the_hours_without_direct_current():
    assert night_draw_kwh(np.array([0.0, 0.0, 10.0]), 0.6) == pytest.approx(2 * 0.0006)


def test_what_flickers_above_the_limit_is_cut_although_the_mean_lies_below():
    under, cut = clipped(np.array([500.0, 100.0, 700.0]), 600.0, np.array([0.4, 0.4, 0.1]))
    assert under == pytest.approx([450.0, 100.0, 600.0])
    assert cut == pytest.approx([50.0, 0.0, 100.0])


def test_a_steady_hour_is_cut_as_its_mean_and_a_flickering_one_never_less():
    ac = np.linspace(0.0, 1200.0, 97)
    steady = clipped(ac, 600.0)[1]
    assert np.array_equal(clipped(ac, 600.0, np.zeros(97))[1], steady)
    flickering, cut = clipped(ac, 600.0, np.full(97, 0.3))
    assert np.all(cut >= steady - 1e-12)
    assert np.all(flickering <= 600.0)
    assert np.all(np.diff(flickering) >= 0.0)
    assert np.all(cut[ac * 1.3 <= 600.0] == 0.0)
