"""Is moving through the year judged by what was wanted, and are its planes the best?"""

from itertools import pairwise

import numpy as np
import pytest

from service.core.model.place import Plane
from service.core.tilt.moving import Moves, along, best_moves, schedules_of
from service.core.tilt.schedule import Piece, best_schedules
from service.core.tilt.search import best_together, surveyed
from service.core.tilt.stand import stand_of
from service.core.tilt.sums import Sums, Together
from service.core.tilt.thumb import rules_of_thumb
from service.core.tilt.thumb_here import Thumbs
from service.core.tilt.wish import ANYWHERE
from tests.kernel_cases import typical
from tests.properties.test_tilt_promises import the_set
from tests.reference.test_best_tilt import formula_sky

REGRET_SHARE = 5e-4
FLAT, STEEP = Plane(tilt_deg=10, azimuth_deg=180), Plane(tilt_deg=60, azimuth_deg=180)
SUMMER = (np.abs(np.arange(365) - 172) < 91).astype(float)


def two_seasons(energy, used, money):
    """Two planes, the other one better in summer by so much of each in all."""

    def by_day(more):
        return None if more is None else np.stack((np.ones(365), 1 + SUMMER * more / SUMMER.sum()))

    pieces = {2: (Piece(from_day=82, plane=1), Piece(from_day=263, plane=0))}
    sums = Sums(energy=by_day(energy), self_used=by_day(used), money=by_day(money))
    return Moves(planes=(FLAT, STEEP), sums=sums, pieces=pieces)


@pytest.mark.parametrize(("objective", "energy", "used", "money", "verdict"), [
    ("energy", 40, 20, 6.0, "worth_moving"),
    ("energy", 40, 1, 0.3, "hardly_worth_moving"),  # the surplus is worth nothing
    ("energy", 40, 20, None, "worth_moving"),  # no price known
    ("energy", 8, 8, 2.7, "hardly_worth_moving"),
    ("money", -14, 12, 4.0, "worth_moving"),  # less energy at better hours
    ("money", 40, 2, 0.6, "hardly_worth_moving"),
    ("self_used", -3, 20, 6.0, "worth_moving"),
    ("self_used", 60, 4, 6.0, "hardly_worth_moving"),
])  # fmt: skip
def test_the_verdict_goes_by_what_was_wanted_and_by_money(objective, energy, used, money, verdict):
    [schedule] = schedules_of(two_seasons(energy, used, money), objective, None if money is None else 0.34)
    assert schedule.verdict == verdict
    gains = {"energy": energy, "self_used": used, "money": money}
    assert schedule.gain_share == pytest.approx(gains[objective] / 365)


def test_an_hour_that_pays_nothing_makes_no_move_worth_while():
    [schedule] = schedules_of(two_seasons(40, 20, 0.0), "energy", 0.0)
    assert schedule.verdict == "hardly_worth_moving"


def together_of(sky, limit_w, count=1):
    asked = the_set((50.0, 10.0), limit_w, count=count)
    return Together(
        stand=stand_of(asked, sky), home=None, moving=dict.fromkeys(range(count), 0.0), still=(FLAT,) * count
    )


def at_hand_of(survey):
    best = best_together(survey, "energy")
    planes = [best, *survey.planes]
    return planes, survey.together.sums(planes)


@pytest.mark.parametrize(("sky", "limit_w", "count"), [
    (lambda: formula_sky(0.5, 32.0), 800.0, 1),
    (lambda: formula_sky(15.0, 32.0), 800.0, 1),
    (lambda: typical(-0.2, -78.5), 800.0, 1),
    (lambda: typical(50.0, 10.0), 300.0, 2),
])  # fmt: skip
def test_no_schedule_of_a_fine_grid_is_better_by_a_two_thousandth(sky, limit_w, count):
    together = together_of(sky(), limit_w, count)
    survey = surveyed(together, ANYWHERE)
    moves = best_moves(together, "energy", at_hand_of(survey), (2, 4), survey)
    fine = [Plane(tilt_deg=float(tilt), azimuth_deg=float(to)) for tilt in range(0, 91, 3) for to in range(0, 360, 8)]
    daily = together.sums(fine).energy
    for changes, pieces in best_schedules(daily, [2, 4]).items():
        assert along(moves.pieces[changes], moves.sums.energy) >= along(pieces, daily) * (1 - REGRET_SHARE)


def test_no_rule_of_thumb_by_season_beats_as_many_planes():
    together = together_of(typical(-34.0, 20.0), 800.0)
    survey = surveyed(together, ANYWHERE)
    planes, sums = at_hand_of(survey)
    thumbs = Thumbs.of(rules_of_thumb(-34.0), together)
    known = thumbs.allowed(lambda _: True, len(planes))
    moves = best_moves(
        together, "energy", ([*planes, *thumbs.planes], sums.with_more(thumbs.sums)), (2, 4), None, known
    )
    for at in thumbs.of_season():
        rule = thumbs.pieces(at)
        assert along(moves.pieces[len(rule)], moves.sums.energy) >= along(rule, thumbs.sums.energy)


def test_nobody_is_sent_to_the_panel_for_a_trifle():
    together = together_of(typical(38.7, -9.1), 800.0)
    survey = surveyed(together, ANYWHERE)
    moves = best_moves(together, "energy", at_hand_of(survey), (2, 4, 12), survey)
    daily = moves.sums.energy
    for pieces in moves.pieces.values():
        whole = along(pieces, daily)
        for at in range(len(pieces)):
            fewer = (*pieces[:at], *pieces[at + 1 :])
            assert along(fewer, daily) < whole - 0.5e-4 * whole
    assert [along(one, daily) <= along(more, daily) for one, more in pairwise(moves.pieces.values())] == [True] * 2
