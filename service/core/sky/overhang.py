"""How far does the shadow of a slab above the panel reach over its face, and where does the sky end?

The shadow ends in a level line and falls from the panel's upper edge down; what it costs, and of which cells the sky is
looked up, is told by ``edge_shadow`` and ``cell_layout``.

A slab is level and long and ends in the facade behind the panel, so that nothing of the sky behind is seen either. It
is taken as black: the light that it throws back is not counted. It reaches out from the panel's upper edge, so that the
lower part of a leaning panel comes out from under it. A panel that is turned out of its facade turns about the middle
of its upper edge, and counts as if all of it lay as far in as its darkest corner (``turned_m``).
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.place import Overhang

Floats = NDArray[np.float64]

_LEAST = 1e-9


def profile_angle_deg(overhang: Overhang) -> float:
    """Height of the slab's front edge above the level, as seen from the panel's upper edge, straight outwards, deg.

    An upright plane under a long slab sees sin(profile angle) / 2 of an even sky, of 1/2 without the slab.

    >>> round(profile_angle_deg(Overhang(above_top_edge_m=1.0, reaches_out_m=3.0**0.5)), 6)
    30.0
    """
    if overhang.reaches_out_m == 0.0:
        return 90.0
    return float(np.degrees(np.arctan2(overhang.above_top_edge_m, overhang.reaches_out_m)))


def down_the_panel(tilt_deg: ArrayLike) -> tuple[Floats, Floats]:
    """How far one comes down, and how far out of the facade, on each metre down panels of these tilts, (m,) each."""
    tilt = np.radians(tilt_deg)
    return np.sin(tilt), np.cos(tilt)


def turned_m(tilt_deg: ArrayLike, turned_deg: ArrayLike, aside_m: float) -> tuple[Floats, Floats, Floats]:
    """``down_the_panel`` of one turned out of its facade by so much, and how much further in its darkest cells lie, m.

    Those of the corner that is turned towards the facade, ``aside_m`` from the middle of the upper edge, from which a
    slab's reach is told. Further down it comes out of the facade by the cosine of the turn. Turned by more than a right
    angle, when its lower edge swings in under the slab, it is taken as turned by one.
    """
    ahead = np.maximum(np.cos(np.radians(turned_deg)), 0.0)
    down, outwards = down_the_panel(tilt_deg)
    return down, outwards * ahead, aside_m * np.sqrt(1.0 - ahead * ahead)


def past_slabs_edge(overhang: Overhang, out: Floats, up: Floats) -> Floats:
    """By how much the sun stands over the slab's edge, seen from the panel's upper edge; not above 0 where it is free.

    ``out``, ``up``: towards the sun, out of the facade and up, of a unit vector, of shapes that go together.
    """
    return up * overhang.reaches_out_m - out * overhang.above_top_edge_m


def slab_shadow_m(
    overhang: Overhang, down: Floats, outwards: Floats, out: Floats, up: Floats, further_in_m: Floats | float = 0.0
) -> Floats:
    """How far down from the panel's upper edge, along the panel, the slab's shadow reaches, m.

    Args:
        overhang: the slab.
        down: of ``down_the_panel``, (m, 1).
        outwards: likewise.
        out: out of the facade towards the sun, of a unit vector, (m, n) or (n,).
        up: likewise upwards, (n,).
        further_in_m: of ``turned_m``, (m, 1).

    Returns:
        (m, n), not above 0 where there is none; without end where the facade hides the sun. At the depth t the slab's
        edge is ``above + t down`` higher and ``reaches - t outwards`` further out: there the tangent of the sun's
        profile angle, up / out, is theirs.
    """
    past = past_slabs_edge(overhang, out, up) + up * further_in_m
    return np.where(out > 0.0, past / np.maximum(out * down + up * outwards, _LEAST), np.inf)
