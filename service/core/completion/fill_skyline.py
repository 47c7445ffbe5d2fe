"""What stands where the skyline names no points?"""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil

from service.core.completion.node import Guess, Node
from service.core.errors import ContradictionError
from service.core.model.place import MOST_SKYLINE_POINTS, SkylinePoint
from service.core.sky import clockwise

# Skylines are noted every 10 to 45 degrees; what lies farther apart was hardly meant to be joined by a straight line.
_WIDE_DEG = 90.0
_AS_WRITTEN_DEG = 1e-6  # what decimals do to a quarter of a turn


def skyline_of(node: Node) -> tuple[SkylinePoint, ...]:
    """The points of an array's skyline; an absent one is written down as the assumption of nothing around.

    Between points, and through north, it runs straight; one point alone stands all around. Where that bridges more
    than 90 degrees with anything above the level, points on the line make it visible, and are an assumption.

    Raises:
        ContradictionError: an upright edge among points that go around in no order.
    """
    if node.get("skyline") is None:
        node.assume("skyline")
    named = [
        SkylinePoint(azimuth_deg=one.take("azimuth_deg"), height_deg=one.take("height_deg"))
        for one in node.children("skyline")
    ]
    around = clockwise(named)
    if around is None:
        raise _in_no_order(node, named)
    ring = clockwise(_bridged(around)) or around
    if len(named) < len(ring) <= MOST_SKYLINE_POINTS:
        told = [{"azimuth_deg": one.azimuth_deg, "height_deg": one.height_deg} for one in ring]
        node.assume("skyline", Guess(value=told, code="straight_across_gaps"))
        return ring
    return around


def _in_no_order(node: Node, named: Sequence[SkylinePoint]) -> ContradictionError:
    ordered = sorted(named, key=lambda one: one.azimuth_deg)
    return ContradictionError(
        node.at("skyline"), "names two heights at one azimuth among points in no order, so that nobody knows on which "
        "side of that edge it is high",
        given=[[one.azimuth_deg, one.height_deg] for one in named], accepted="the points as one walks around once, "
        "clockwise; at an upright edge first the height before it, then the one behind it",
        example=[{"azimuth_deg": one.azimuth_deg, "height_deg": one.height_deg} for one in ordered],
    )  # fmt: skip


def _bridged(named: Sequence[SkylinePoint]) -> tuple[SkylinePoint, ...]:
    """Points clockwise, with more of them on the line across each wide gap that has a height at either end."""
    ring = named
    found: list[SkylinePoint] = []
    for one, following in pairwise([*ring, *ring[:1]]):
        found.append(one)
        gap = (following.azimuth_deg - one.azimuth_deg) % 360.0 or (360.0 if len(ring) == 1 else 0.0)
        if gap <= _WIDE_DEG + _AS_WRITTEN_DEG or not (one.height_deg or following.height_deg):
            continue
        parts = ceil(gap / _WIDE_DEG)
        found += [
            SkylinePoint(
                azimuth_deg=(one.azimuth_deg + gap * part / parts) % 360.0,
                height_deg=one.height_deg + (following.height_deg - one.height_deg) * part / parts,
            )
            for part in range(1, parts)
        ]
    return tuple(found)
