"""How bright are the faces of what makes the skyline, by an even sky and by the ground before them?

A skyline alone tells how high things stand, not how far away they are. All that makes it is taken to be equally high
over the panel: then each height tells a distance, and the skyline is a plan of what stands around, seen from above: a
wall without end comes out straight, a street as two walls, a round court round, one house with nothing behind the panel
open on that side. The plan is cut into faces by azimuth and by height, and light goes to and fro between them, the sky
and the ground until it is spent (Siegel and Howell, Thermal Radiation Heat Transfer, net-radiation method).

What a face gets from upright strips is a product: of its view of the strip's width, half the difference of the sines of
the angles off its normal, as of things without end (Hottel's crossed strings), and of the heights seen there,
(h + sin h cos h) / pi between the strip's edges. The ground is lit alike all over, as where the panel is. Faces that
hide one another from a third are not told apart: what is seen of all is taken to fill the view, no more.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from service.core.model.place import SkylinePoint
from service.core.sky.horizon import skyline_height_deg

Floats = NDArray[np.float64]

SECTOR_DEG = 10
BANDS = 3
SECTORS = 360 // SECTOR_DEG
_MIDDLES_DEG = np.arange(SECTOR_DEG / 2.0, 360.0, SECTOR_DEG)
_FINE_DEG = np.arange(0.5, 360.0)
OUTWARDS = np.stack((np.sin(np.radians(_MIDDLES_DEG)), np.cos(np.radians(_MIDDLES_DEG))), axis=1)
_CLOCKWISE = np.stack((OUTWARDS[:, 1], -OUTWARDS[:, 0]), axis=1)
for _fixed in (_MIDDLES_DEG, _FINE_DEG, OUTWARDS, _CLOCKWISE):
    _fixed.setflags(write=False)
# Tangents of heights: lower things have no face that counts, steeper ones are as good as overhead.
_LEAST, _MOST = 0.01, 1e4
# How often light is followed from face to face: in a deep court of 0.6 all but 0.00003 of it is spent by then, of 0.9
# all but 3 %. As often whatever they throw back, so that brighter ones never come out darker.
_TIMES = 16
# Of a sector's middle what its ends are at least, as tangents: a wall that runs away from the panel ends somewhere.
_LEAST_AT_ENDS = 0.1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plan:
    """Faces seen from above, the panel in the middle, all roofs 1 above it; (s, 2) east and north for s sectors.

    Attributes:
        faces: (f,) the sectors that have a face.
        middle, left, right: points of each sector's face, looked at from the panel.
        square: at right angles to it, towards the panel.
        edges, places: (s, ``BANDS`` + 1) heights between its bands, (s, ``BANDS``) of their middles.
    """

    faces: NDArray[np.intp]
    middle: Floats
    left: Floats
    right: Floats
    square: Floats
    edges: Floats
    places: Floats


def towards(lit: Floats, azimuth_deg: Floats) -> Floats:
    """Of faces, (c, ``SECTORS``, ``BANDS``), those in directions by the compass: (c, ``BANDS``, ...)."""
    sector = np.floor(azimuth_deg * (1.0 / SECTOR_DEG)).astype(np.intp) % SECTORS
    return np.take(lit.swapaxes(1, 2), sector, axis=2)


def borders(steep: Floats, *, middles: bool = False) -> Floats:
    """Of the roofs' tangents, (...), those between bands, (``BANDS`` + 1, ...), or of their middles, (``BANDS``, ...).

    Half way between equal angles, which are what the panel sees, and equal heights, by which the light enters.
    """
    parts = [(band + 0.5) / BANDS for band in range(BANDS)] if middles else [band / BANDS for band in range(BANDS + 1)]
    angle, found = np.arctan(steep), np.empty((len(parts), *steep.shape))
    for part, tangent in zip(parts, found, strict=True):
        tangent[...] = steep * part if part in (0.0, 1.0) else 0.5 * (np.tan(angle * part) + steep * part)
    return found


@lru_cache(maxsize=64)  # a place is asked about again, and many planes of it
def faces_lit(skyline: tuple[SkylinePoint, ...], facing_share: float) -> Floats:
    """How bright faces are that throw back this share of their light, 0 to 1: (3, ``SECTORS``, ``BANDS``), upwards.

    By an even sky, over its light on level ground with nothing around; by the ground, over what that throws back; and
    1, as bright as that sky.

    >>> lone = tuple(SkylinePoint(azimuth_deg=a, height_deg=h) for a, h in ((160, 0), (160, 30), (200, 30), (200, 0)))
    >>> faces_lit(lone, 0.2)[0, 18].round(2).tolist()  # before half the sky, with nearly nothing opposite
    [0.1, 0.1, 0.1]
    """
    plan = plan_of(skyline)
    lit = np.zeros((3, SECTORS, BANDS))
    lit[2] = 1.0
    if facing_share > 0.0 and plan.faces.size:
        sky, ground, others = views_of(plan)
        once = facing_share * np.stack((sky, ground))
        lasting, others = once, facing_share * others
        # No solver, no matrix product: they may spend more on a second thread than on the work.
        for _ in range(_TIMES):
            lasting = once + np.einsum("fg,wg->wf", others, lasting)
        lit[:2, plan.faces] = lasting.reshape(2, plan.faces.size, BANDS)
    lit.setflags(write=False)
    return lit


def plan_of(skyline: Sequence[SkylinePoint]) -> Plan:
    """The plan of what makes a skyline."""
    tangents = np.tan(np.radians(skyline_height_deg(skyline, _FINE_DEG)))
    steep = np.minimum(tangents, _MOST).reshape(SECTORS, SECTOR_DEG).mean(axis=1)
    near = np.maximum(steep, _LEAST)
    before, after = near - np.roll(near, 1), np.roll(near, -1) - near
    # The gentler of both slopes, and none at a corner.
    slope = np.where(before * after > 0.0, np.sign(after) * np.minimum(abs(before), abs(after)), 0.0)
    slope = slope / np.radians(SECTOR_DEG)
    half = np.radians(SECTOR_DEG / 2.0)
    ends = []
    for turn in (-half, half):
        to_end = np.cos(turn) * OUTWARDS + np.sin(turn) * _CLOCKWISE
        tangent = np.maximum(near * np.cos(turn) + slope * np.sin(turn), _LEAST_AT_ENDS * near)
        ends.append(to_end / tangent[:, None])
    square = -(near[:, None] * OUTWARDS + slope[:, None] * _CLOCKWISE)
    return Plan(
        faces=np.flatnonzero(steep > _LEAST),
        middle=OUTWARDS / near[:, None],
        left=ends[0],
        right=ends[1],
        square=square / np.hypot(*square.T)[:, None],
        edges=borders(steep).T / near[:, None],
        places=borders(steep, middles=True).T / near[:, None],
    )


def views_of(plan: Plan) -> tuple[Floats, Floats, Floats]:
    """What faces see of sky and ground, (f,), and of each other, (f, f), as shares; f by sector and then by band."""
    face = plan.faces
    middle, square = plan.middle[face], plan.square[face]
    aside = np.stack((square[:, 1], -square[:, 0]), axis=1)
    left, right = (_sine_off(end - middle[:, None], square, aside) for end in (plan.left, plan.right))
    width = np.maximum(right - left, 0.0)
    width *= 1.0 / np.maximum(width.sum(axis=1), 1e-9)[:, None]
    away = np.hypot(*np.moveaxis(plan.middle - middle[:, None], -1, 0))
    away[np.arange(face.size), face] = 1.0  # itself, of which it sees nothing
    up = (plan.edges[None, None] - plan.places[face][:, :, None, None]) / away[:, None, :, None]
    seen = (np.arctan(up) + up / (1.0 + up * up)) / np.pi
    foot, roof = seen[..., 0], seen[..., -1]
    sky = ((0.5 - np.maximum(roof, 0.0)) * width[:, None]).sum(axis=2)
    ground = ((foot + 0.5 + np.maximum(-roof, 0.0)) * width[:, None]).sum(axis=2)
    others = (np.diff(seen, axis=-1) * width[:, None, :, None])[:, :, face]
    return sky.ravel(), ground.ravel(), others.reshape(sky.size, sky.size)


def _sine_off(way: Floats, square: Floats, aside: Floats) -> Floats:
    """Sine of the angle off a face's normal, to the right, of ways from it, (f, s, 2); a right angle behind it."""
    ahead, right = (np.einsum("fsx,fx->fs", way, axis) for axis in (square, aside))
    return np.asarray(right / np.maximum(np.hypot(np.maximum(ahead, 0.0), right), 1e-12))
