"""What does a battery find where the home uses more, or less, of the same production in the moment?"""

from dataclasses import replace

import numpy as np

from service.core.household.storage import Beside, Plan
from service.core.model.hours import Floats

# Hours that are full pass on what they could not take: so many rounds at most, and enough when so much is left.
_ROUNDS, _LEAST_SHARE = 30, 1e-9


def used_otherwise(plan: Plan, beside: Beside, need_w: Floats, used_share: float, *, follows: bool) -> Plan:
    """The plan of a home that uses so much of the same production in the moment, as a share of what was expected.

    Every hour moves alike, as far as there is production, and the home needs as much in the year as before: what is
    used more in the moment is no surplus to be stored, and is wanted less at all other times alike. Of the surplus goes
    first what the box had to let pass.

    Args:
        plan: as expected.
        beside: what it was made for.
        need_w: what the home draws in each hour, (n,).
        used_share: >= 0.
        follows: does the box read the meter?
    """
    used = _raised(plan.used_w, np.maximum(beside.produced_w, plan.used_w), used_share)
    more = used - plan.used_w
    sent = np.maximum(plan.sent_w - more, 0.0)
    open_w = float(np.maximum(need_w - plan.used_w, 0.0).sum())
    left_share = max(1.0 - float(more.sum()) / open_w, 0.0) if open_w > 0.0 else 1.0
    if not follows:
        passing = plan.used_charging_w + plan.sent_charging_w
        charging = np.minimum(plan.used_charging_w * used_share, passing)
        given = np.minimum(plan.used_given_w * left_share, plan.used_given_w + plan.sent_given_w)
        return replace(
            plan, used_w=used, sent_w=sent, used_charging_w=charging, sent_charging_w=passing - charging,
            used_given_w=given, sent_given_w=plan.sent_given_w + plan.used_given_w - given,
        )  # fmt: skip
    granted = plan.chargeable_w - plan.beyond_w
    taken = np.clip(granted - _beyond(more, plan.over_limit_w), 0.0, beside.charge_limit_w - plan.beyond_w)
    wanted = np.minimum(plan.wanted_w * left_share, beside.discharge_limit_w)
    return replace(
        plan,
        chargeable_w=plan.beyond_w + taken,
        wanted_w=wanted,
        used_w=used,
        sent_w=sent,
        used_charging_w=used,
        sent_charging_w=np.clip(plan.sent_charging_w - more + granted - taken, 0.0, sent),
        used_given_w=wanted,
    )


def _beyond(more_w: Floats, slack_w: Floats) -> Floats:
    """What of more is left when some slack took it; of less, all."""
    return np.where(more_w > 0.0, np.maximum(more_w - slack_w, 0.0), more_w)


def _raised(used_w: Floats, most_w: Floats, share: float) -> Floats:
    """All hours times one factor, within ``most_w``, so that the sum is multiplied by ``share`` as far as it can be."""
    if share <= 1.0:
        return used_w * share
    wanted, factor = share * float(used_w.sum()), share
    raised = np.minimum(used_w * factor, most_w)
    for _ in range(_ROUNDS):
        lacks, free = wanted - float(raised.sum()), float(used_w[raised < most_w].sum())
        if free <= 0.0 or lacks <= _LEAST_SHARE * wanted:
            break
        factor += lacks / free
        raised = np.minimum(used_w * factor, most_w)
    return raised
