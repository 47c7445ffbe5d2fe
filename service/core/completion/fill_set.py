"""What is the set, arrays in their planes and inverter, complete? Made up once of each set met lately at a place.

A plane that was left open is looked for over the year, which costs more than all the rest of a request.
"""

import marshal
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from service.core.completion.fill_arrays import arrays_of
from service.core.completion.fill_inverter import input_count_of, inverter_of
from service.core.completion.node import Node
from service.core.completion.settle import Places, settled
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumption
from service.core.model.facts import Array, Inverter
from service.core.model.hours import SkyYear
from service.core.model.memo import Memo
from service.core.model.panel_list import PanelList
from service.core.tilt import Facing, places_wished, shares_a_front


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CompletedSet:
    """Arrays and inverter, and what of them was assumed, in the order in which it was."""

    arrays: tuple[Array, ...]
    inverter: Inverter
    assumed: tuple[Assumption, ...]


KnownSets = Memo[Hashable, CompletedSet]


def set_of(
    root: Node,
    sky: SkyYear,
    ground_reflectance_share: float,
    listed: PanelList,
    as_of: date,
    facing: Facing | None,
    known: KnownSets | None,
    *,
    measured: bool = False,
) -> tuple[tuple[Array, ...], Inverter]:
    """The arrays with their planes settled, and the inverter; what was not given is written down.

    Args:
        root: the request.
        sky: the year at the place, for planes left open.
        ground_reflectance_share: 0 to 1.
        listed: the public list of panels.
        as_of: the day of the question, from which panels' ages count.
        facing: which way the railing faces by when the sun was seen; None where nobody noted that.
        known: the sets completed lately, by what was sent of them, to be looked in and added to; None: not kept.
        measured: the arrays' light was measured on their planes.

    Raises:
        ContradictionError: parts exclude each other, or there is no array.
    """

    def made() -> CompletedSet:
        return _completed(root, sky, ground_reflectance_share, listed, as_of, facing, measured=measured)

    if known is None:
        found = made()
    else:
        # A text of values and their kinds, as ``repr`` is one, in a quarter of its time: form 2 knows no references.
        sent = marshal.dumps([root.get(name) for name in ("arrays", "inverter", "tilt")], 2)
        found = known.get((sky, sent, ground_reflectance_share, as_of, facing, measured), made)
    root.log += found.assumed
    return found.arrays, found.inverter


def _completed(
    root: Node,
    sky: SkyYear,
    ground_reflectance_share: float,
    listed: PanelList,
    as_of: date,
    facing: Facing | None,
    *,
    measured: bool,
) -> CompletedSet:
    log: list[Assumption] = []
    own = Node(root.given, root.pointer, log)
    nodes, inverter_node = _array_nodes(own), own.child("inverter")
    input_count = input_count_of(inverter_node, nodes)
    filled = arrays_of(nodes, input_count, as_of, listed, measured=measured)
    places = Places(wish=places_wished(own.get("tilt")), facing=facing)
    arrays = _all_settled(filled, [node.child("plane") for node in nodes], sky, ground_reflectance_share, places)
    return CompletedSet(arrays=arrays, inverter=inverter_of(inverter_node, input_count), assumed=tuple(log))


def _all_settled(
    filled: Sequence[Array], planes: Sequence[Node], sky: SkyYear, ground_reflectance_share: float, places: Places
) -> tuple[Array, ...]:
    """Arrays of which nobody told which way their front looks have one: that of the most power, settled for it alone.

    Each for itself, unlike panels on one balcony had two fronts, and spreading them seemed to bring what these did.
    """
    sharing = [
        at
        for at, (one, plane) in enumerate(zip(filled, planes, strict=True))
        if plane.get("azimuth_deg") is None and shares_a_front(one, places.wish, places.facing)
    ]
    if len(sharing) == 1:
        sharing = []
    lead = max(sharing, key=lambda at: filled[at].panel.rated_power_w * filled[at].count, default=None)
    logs: list[list[Assumption]] = [[] for _ in filled]
    found = list(filled)
    for at in sorted(range(len(filled)), key=lambda at: at != lead):
        own = replace(places, one_front=True) if at in sharing else Places(wish=places.wish, facing=places.facing)
        plane = Node(planes[at].given, planes[at].pointer, logs[at])
        found[at] = settled(filled[at], plane, sky, ground_reflectance_share, own)
        if at == lead:
            facade_deg = found[at].facade_azimuth_deg
            looks_deg = found[at].plane.azimuth_deg if facade_deg is None else facade_deg
            places = replace(places, front_azimuth_deg=looks_deg)
    for plane, log in zip(planes, logs, strict=True):
        plane.log += log
    return tuple(found)


def _array_nodes(root: Node) -> list[Node]:
    found = root.children("arrays")
    if not found:
        raise ContradictionError("/arrays", "is empty", accepted="1 to 8 arrays, each with a panel",
                                 example=[{"panel": {"rated_power_w": 410}}])  # fmt: skip
    return found
