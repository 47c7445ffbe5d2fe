"""What a battery finds where the home uses more, or less, of the same production in the moment."""

import numpy as np
import pytest

from service.core.household import Beside, feeding, following, used_otherwise

# a bright hour that leaves 300 W and a dark one that wants 200 W
PRODUCED, NEED = np.array([500.0, 0.0]), np.array([200.0, 200.0])


def beside(charge_w=800.0):
    return Beside(
        produced_w=PRODUCED, beyond_w=np.zeros(2), charge_limit_w=np.full(2, charge_w),
        discharge_limit_w=np.full(2, 400.0), used=lambda power: np.minimum(power, NEED), left=lambda power: power,
    )  # fmt: skip


def of_reader(share, charge_w=800.0):
    stands = beside(charge_w)
    return used_otherwise(following(stands), stands, NEED, share, follows=True)


def test_what_is_used_more_is_not_stored_and_not_wanted_later():
    plan = of_reader(1.25)
    assert plan.used_w.tolist() == [250.0, 0.0]
    assert plan.chargeable_w.tolist() == [250.0, 0.0]
    assert plan.used_given_w.tolist() == [0.0, 150.0]


def test_what_is_used_less_can_be_stored_and_is_wanted_later():
    plan = of_reader(0.5)
    assert plan.used_w.tolist() == [100.0, 0.0]
    assert plan.chargeable_w.tolist() == [400.0, 0.0]
    assert plan.used_given_w.tolist() == [0.0, 300.0]


def test_what_the_box_had_to_let_pass_goes_first():
    assert of_reader(1.25, charge_w=250.0).chargeable_w.tolist() == [250.0, 0.0]
    assert of_reader(0.5, charge_w=250.0).chargeable_w.tolist() == [250.0, 0.0]


def test_no_more_is_used_than_is_produced_and_hours_that_have_more_take_what_others_cannot():
    stands = Beside(
        produced_w=np.array([100.0, 1000.0]), beyond_w=np.zeros(2), charge_limit_w=np.full(2, 800.0),
        discharge_limit_w=np.full(2, 400.0), used=lambda power: np.minimum(power, 100.0), left=lambda power: power,
    )  # fmt: skip
    plan = used_otherwise(following(stands), stands, np.full(2, 900.0), 1.5, follows=True)
    assert plan.used_w == pytest.approx([100.0, 200.0])


@pytest.mark.parametrize("share", [0.0, 0.6, 1.0, 1.4, 9.0])
def test_a_box_that_reads_nothing_takes_and_feeds_as_before_and_all_power_is_accounted_for(share):
    stands = beside()
    plain = feeding(stands, feed_w=150.0, charge_above_w=300.0)
    plan = used_otherwise(plain, stands, NEED, share, follows=False)
    assert plan.chargeable_w.tolist() == plain.chargeable_w.tolist()
    assert plan.wanted_w.tolist() == plain.wanted_w.tolist()
    for used, sent in (("used_w", "sent_w"), ("used_charging_w", "sent_charging_w"), ("used_given_w", "sent_given_w")):
        total, before = (getattr(one, used) + getattr(one, sent) for one in (plan, plain))
        np.testing.assert_allclose(total, before)
        assert (getattr(plan, used) >= 0).all()
        assert (getattr(plan, sent) >= 0).all()
