"""What do the lids and the shade that were found on some days cost over the whole log?"""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.frame import Frame
from service.core.logbook.diagnosis.heat_derating import heat_lid_w
from service.core.logbook.diagnosis.lost_to_lid import AT_HOT_LID, AT_LIMIT, LoggedSteps, lost_to_lid
from service.core.logbook.diagnosis.set_model import SetModel, Weather
from service.core.logbook.diagnosis.shade_cost import lost_to_shade
from service.core.logbook.diagnosis.undeclared_shade import side_and_height
from service.core.model.hours import Floats, Ints


def costs_over_log(
    frame: Frame, sky: Weather, free_w: Floats, clear_days: Ints, model: SetModel, named: Mapping[str, float]
) -> dict[str, float]:
    """By cause, the share of all the log's energy that it takes.

    Args:
        frame: the whole log.
        sky: over its parts, that of its days or one without clouds.
        free_w: (n,) power of the stated set in it before its limit.
        clear_days: the days whose light is known best.
        model: the set.
        named: what ``limit_evidence``, ``heat_evidence`` and ``shade_evidence`` found; without them nothing is told.
    """
    if "limit_w" not in named:
        return {}
    steps = LoggedSteps(
        power_w=frame.power_w, free_w=free_w, day=frame.day, clear_days=clear_days, limit_w=model.limit_w
    )
    count = np.maximum(np.bincount(frame.parts.at, minlength=frame.start_s.size), 1)
    air_c, ghi = (
        np.bincount(frame.parts.at, np.nan_to_num(one), minlength=frame.start_s.size) / count
        for one in (sky.air_c, sky.ghi_w_per_m2)
    )
    lid = heat_lid_w(model, steps, air_c, ghi, (named["heat_from_c"], named["heat_per_k_share"]))
    side, height = side_and_height(frame.parts, frame.start_s.size)
    edge, blocked = named["shade_edge_deg"], named["shade_blocked_share"]
    return {
        "limit_lower_than_stated": lost_to_lid(steps, np.full(free_w.size, named["limit_w"]), AT_LIMIT),
        "heat_derating": lost_to_lid(steps, lid, AT_HOT_LID),
        "undeclared_shade": lost_to_shade(steps, side, height, edge, blocked) if blocked > 0.0 else 0.0,
    }
