"""How much sun falls on the faces of what makes the skyline?

A facade to the north of a balcony that looks north lies in the sun while the panel does not. The sun is on a face while
it stands before it and above all else of the skyline, as seen from the middle of each band of the face on the plan of
``sky.faces``. The house behind the panel shades it where the skyline tells that house, else not at all.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from service.core.model.place import SkylinePoint
from service.core.sky.daylight import Daylight
from service.core.sky.faces import BANDS, OUTWARDS, SECTOR_DEG, SECTORS, Plan, plan_of

Floats = NDArray[np.float64]

_STEP_DEG = 5.0
_STEPS = round(90.0 / _STEP_DEG)


def sun_on_faces(skyline: tuple[SkylinePoint, ...], daylight: Daylight) -> Floats:
    """Sun on faces over all hours, by sectors from north and bands upwards, (``SECTORS``, ``BANDS``), Wh/m2.

    The sun is taken by sectors of azimuth and steps of 5 degrees of height.
    """
    plan, first = _first_steps(skyline)
    shines = daylight.from_sun_w_per_m2 > 0.0
    east, north, up = daylight.sun[:, shines]
    level = np.hypot(east, north)
    sector = (np.degrees(np.arctan2(east, north)) // SECTOR_DEG).astype(np.intp) % SECTORS
    step = np.clip(np.degrees(np.arctan2(up, level)) // _STEP_DEG, 0, _STEPS - 1).astype(np.intp)
    beam = np.bincount(sector * _STEPS + step, daylight.from_sun_w_per_m2[shines] * level, SECTORS * _STEPS)
    above = np.zeros((SECTORS, _STEPS + 1))  # what comes from each step and all higher ones
    above[:, :-1] = np.cumsum(beam.reshape(SECTORS, _STEPS)[:, ::-1], axis=1)[:, ::-1]
    head_on = np.maximum(plan.square[plan.faces] @ OUTWARDS.T, 0.0)
    sun = np.zeros((SECTORS, BANDS))
    sun[plan.faces] = (above[np.arange(SECTORS), first] * head_on[:, None]).sum(axis=2)
    return sun


@lru_cache(maxsize=64)
def _first_steps(skyline: tuple[SkylinePoint, ...]) -> tuple[Plan, NDArray[np.intp]]:
    """The plan, and from which step of height on the sun in each sector reaches each face, (f, ``BANDS``, ``SECTORS``).

    A step counts where its middle does.
    """
    plan = plan_of(skyline)
    here = plan.middle[plan.faces][:, None]
    left, right = (_turned(end - here) for end in (plan.left, plan.right))  # (f, s, b)
    ahead = (plan.middle - here) @ OUTWARDS.T > 0.0
    hides = (left <= 0.0) & (right >= 0.0) & ahead
    away = np.maximum(np.hypot(*np.moveaxis(plan.middle - here, -1, 0)), 1e-9)
    roof = (plan.edges[:, -1] - plan.places[plan.faces][:, :, None]) / away[:, None]  # (f, bands, s)
    which = hides.argmax(axis=1)[:, None]  # (f, 1, b)
    highest = np.take_along_axis(roof, np.broadcast_to(which, (*roof.shape[:2], SECTORS)), axis=2)
    highest = np.where(hides.any(axis=1)[:, None], np.maximum(highest, 0.0), 0.0)
    first = np.ceil(np.degrees(np.arctan(highest)) / _STEP_DEG - 0.5).astype(np.intp)
    first.setflags(write=False)
    return plan, first


def _turned(way: Floats) -> Floats:
    """(f, s, b): above nought where a way, (f, s, 2), lies to the right of the middle of a sector."""
    east, north = OUTWARDS.T
    return np.asarray(way[..., :1] * north - way[..., 1:] * east)
