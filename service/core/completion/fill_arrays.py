"""How are the panels set up, and what stands around them, as far as was said?"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import cast

from service.core.completion.defaults import row_for
from service.core.completion.fill_panel import panel_of
from service.core.completion.fill_skyline import skyline_of
from service.core.completion.mismatch import mismatch_of
from service.core.completion.node import Guess, Node, listed
from service.core.errors import ContradictionError
from service.core.model.facts import Array
from service.core.model.fixing import Fixing
from service.core.model.panel_list import PanelList
from service.core.model.place import Cover, HandRail, Overhang, Plane, RowInFront, Shade, SideWall

AT_RAILING = frozenset({"hung_on_rail", "behind_rail", "balcony_floor"})
_THROUGH_RAIL_SHARE = 0.8  # as of any cover of which nobody told the share
# On a balcony's floor the lowest cells, on which a string hangs, see part of their light over the rail: what it hides
# of it grows with its height. Bars and glass let the least, the usual and the most through, the least from close by.
_HALF_HIDDEN_M, _USUAL_RAIL_M = 0.45, 1.0
_TAKEN_BY_RAIL = {"low": 0.55, "value": 0.2, "high": 0.05}
_HEIGHTS = {
    "hung_on_rail": (6.0, 2.5, 25.0), "behind_rail": (6.0, 2.5, 25.0), "balcony_floor": (6.0, 2.5, 25.0),
    "wall": (4.0, 1.0, 12.0), "fence": (0.5, 0.0, 1.5), "ground_frame": (0.3, 0.0, 1.0), "flat_roof": (6.0, 2.5, 15.0),
    "sloped_roof": (5.0, 2.5, 12.0), "free_standing": (1.0, 0.0, 10.0),
}  # fmt: skip
# How much higher than the panels the building is: what is taken, at least (eaves above a top storey) and at most.
_BUILDING_ABOVE_M = {
    "hung_on_rail": (3.0, 1.5, 15.0), "behind_rail": (3.0, 1.5, 15.0), "balcony_floor": (3.0, 1.5, 15.0),
    "wall": (3.0, 1.5, 15.0), "flat_roof": (0.0, 0.0, 1.0), "sloped_roof": (0.0, 0.0, 3.0),
}  # fmt: skip
_HUNG_ON_A_HOUSE = frozenset({"hung_on_rail", "behind_rail", "balcony_floor", "wall"})
# What throws a soft shadow, as a word of its cause.
_LEAVES = frozenset({"tree", "trees", "hedge", "bush", "bushes", "leaves"})
# Stands in while a plane is open; settle replaces it before anything is computed.
OPEN_PLANE = Plane(tilt_deg=0.0, azimuth_deg=0.0)


def arrays_of(
    nodes: list[Node], input_count: int, as_of: date, listed_panels: PanelList, *, measured: bool = False
) -> tuple[Array, ...]:
    """The complete arrays, planes still open where they were; each on an input that exists.

    ``measured``: their light was measured on their planes, behind all that nobody told.

    Raises:
        ContradictionError: an array is on an input that the inverter lacks, or no input is left for it; or some
            arrays of an input are in one string and others are not.
    """
    inputs = _inputs_for(nodes, input_count)
    one_string = _as_one_string(nodes, inputs)
    panels: Counter[int] = Counter()
    for number, node in zip(inputs, nodes, strict=True):
        panels[number] += node.get("count") or cast("int", row_for(node.at("count"), None).value)
    arrays = (
        _array(node, i, inputs[i], panels, as_of, listed_panels, measured=measured) for i, node in enumerate(nodes)
    )
    return tuple(replace(one, joined="one_string") if i in one_string else one for i, one in enumerate(arrays))


def _inputs_for(nodes: list[Node], input_count: int) -> list[int]:
    named = [node.get("input") for node in nodes]
    for node, number in zip(nodes, named, strict=True):
        if number is not None and number > input_count:
            raise ContradictionError(
                node.at("input"), f"the inverter has no input {number}", given=number, accepted=f"1 to {input_count}",
                example=1,
            )  # fmt: skip
    free = [number for number in range(1, input_count + 1) if number not in named]
    chosen = []
    for node, number in zip(nodes, named, strict=True):
        if number is None and not free:
            raise ContradictionError(
                node.at("input"), "no input is left for this array", accepted=f"an input from 1 to {input_count}, "
                "which it then shares, or an inverter with more inputs", example=1,
            )  # fmt: skip
        chosen.append(number if number is not None else free.pop(0))
    return chosen


def _as_one_string(nodes: list[Node], inputs: list[int]) -> frozenset[int]:
    """Which arrays are in series with the others of their input: those that say so, or single panels "in series".

    Raises:
        ContradictionError: some arrays of an input are in one string and others are not.
    """
    found: set[int] = set()
    for number in set(inputs):
        here = [at for at, other in enumerate(inputs) if other == number]
        if len(here) == 1:
            continue
        said = [nodes[at].get("joined") for at in here]
        lone = [word == "series" and nodes[at].get("count") in {None, 1} for word, at in zip(said, here, strict=True)]
        in_one = [word == "one_string" or single for word, single in zip(said, lone, strict=True)]
        if all(in_one):
            found.update(here)
        elif any(in_one):
            node = nodes[here[in_one.index(True)]]
            raise ContradictionError(
                node.at("joined"), "one panel in series with another array: the others of its input have to say so "
                "too", given=node.get("joined"), accepted="one_string for every array of the input, if one current "
                "flows through all; equal panels in series as one array with their count; or parallel, if that is how "
                "they are wired", example="parallel",
            )  # fmt: skip
    return frozenset(found)


def _array(
    node: Node,
    index: int,
    number: int,
    panels: Mapping[int, int],
    as_of: date,
    listed_panels: PanelList,
    *,
    measured: bool,
) -> Array:
    count = node.take("count")
    mount = node.take("mount")
    height = _height(node.child("fixing").get("building_height_m"), mount)
    joined = Guess(value="parallel", code="nothing_to_join") if count == 1 else Guess(
        value="series", code="series_unless_said"
    )  # fmt: skip
    plane, hand_rail, row_in_front = node.child("plane"), node.child_if_given("hand_rail"), _row_in_front(node)
    panel = panel_of(node.child("panel"), as_of, listed_panels)
    beside = node.child_if_given("overhang") or node.children("side_walls")
    if hand_rail is not None or row_in_front is not None or beside:
        panel = replace(panel, half_cells=node.child("panel").take("half_cells"))
    return Array(
        name=node.take("name", Guess(value=f"array {index + 1}")),
        input=node.take("input", Guess(value=number)),
        count=count,
        joined=node.take("joined", joined),
        mount=mount,
        plane=Plane(
            tilt_deg=plane.get("tilt_deg") if plane.get("tilt_deg") is not None else OPEN_PLANE.tilt_deg,
            azimuth_deg=plane.get("azimuth_deg") if plane.get("azimuth_deg") is not None else OPEN_PLANE.azimuth_deg,
        ),
        orientation=node.take("orientation", Guess(value="lengthwise" if mount in AT_RAILING else "upright")),
        height_above_ground_m=node.take("height_above_ground_m", height),
        skyline=skyline_of(node),
        overhang=_overhang(node.child_if_given("overhang")),
        side_walls=listed(node, "side_walls", [_side_wall(n) for n in node.children("side_walls")]),
        cover=_cover(node, mount, measured=measured),
        shade=listed(node, "shade", [_shade(n) for n in node.children("shade")]),
        dirt_share=node.take("dirt_share"),
        mismatch_share=mismatch_of(node, panels[number]),
        lead_length_m=node.take("lead_length_m"),
        lead_mm2=node.take("lead_mm2"),
        panel=panel,
        hottest_cell_c=node.get("hottest_cell_c"),
        rear_light_share=node.get("rear_light_share"),
        facade_azimuth_deg=node.get("facade_azimuth_deg"),
        hand_rail=_hand_rail(hand_rail),
        row_in_front=row_in_front,
        facing_reflectance_share=node.get("facing_reflectance_share"),
        count_rear_light=node.take("count_rear_light"),
        string_fuse_a=node.get("string_fuse_a"),
        fixing=_fixing(node.child("fixing"), mount, node.get("height_above_ground_m") or height.value),
    )  # fmt: skip


def _height(building_m: float | None, mount: str) -> Guess:
    """How high panels hang: as usual, at most a storey below the edge of a house that was told, or half-way up it."""
    usual, low, high = _HEIGHTS.get(mount, _HEIGHTS["free_standing"])
    if mount not in _HUNG_ON_A_HOUSE or not building_m:
        return Guess(value=usual, low=low, high=high)
    above, least, _ = _BUILDING_ABOVE_M[mount]
    found = min(usual, round(max(building_m - above, building_m / 2.0), 3))
    low, high = min(low, building_m / 3.0), min(high, max(building_m - least, building_m * 0.75))
    low, high = round(low, 3), round(high, 3)
    return Guess(value=found, code="below_the_roof", low=low, high=high)


def _fixing(node: Node, mount: str, height_m: float) -> Fixing:
    """What holds the panels; what it carries is never guessed, nor the weights on a frame."""
    building, railing = node.get("building_height_m"), node.get("railing_height_m")
    if mount in _BUILDING_ABOVE_M:
        above, least, most = _BUILDING_ABOVE_M[mount]
        guess = Guess(value=height_m + above, low=height_m + least, high=height_m + most)
        building = node.take("building_height_m", guess)
    if mount in {"hung_on_rail", "behind_rail"}:
        railing = node.take("railing_height_m")
    return Fixing(
        building_height_m=building,
        capacity_per_panel_n=node.get("capacity_per_panel_n"),
        ballast_per_panel_kg=node.get("ballast_per_panel_kg"),
        railing_height_m=railing,
        railing_length_m=node.get("railing_length_m"),
        low_lean_out_deg=node.get("low_lean_out_deg"),
        high_lean_out_deg=node.get("high_lean_out_deg"),
    )


def _overhang(node: Node | None) -> Overhang | None:
    if node is None:
        return None
    return Overhang(above_top_edge_m=node.take("above_top_edge_m"), reaches_out_m=node.take("reaches_out_m"))


def _hand_rail(node: Node | None) -> HandRail | None:
    if node is None:
        return None
    return HandRail(
        above_top_edge_m=node.take("above_top_edge_m"),
        distance_m=node.take("distance_m"),
        thickness_m=node.take("thickness_m"),
    )


def _row_in_front(array: Node) -> RowInFront | None:
    """The row as told; one that stands no higher than the panel's lower edge is none."""
    node = array.child_if_given("row_in_front")
    if node is None:
        return None
    row = RowInFront(above_bottom_edge_m=node.take("above_bottom_edge_m"), distance_m=node.take("distance_m"))
    return row if row.above_bottom_edge_m > 0.0 else None


def _side_wall(node: Node) -> SideWall:
    return SideWall(
        side=node.take("side"), distance_m=node.take("distance_m"), reaches_out_m=node.take("reaches_out_m")
    )


def _cover(array: Node, mount: str, *, measured: bool) -> Cover | None:
    """What is told, and behind a rail its glass or bars, which a sensor on the panel's plane has before it, too."""
    node = array.child("cover")
    if array.get("cover") is not None:
        return Cover(material=node.take("material"), light_through_share=node.take("light_through_share"))
    if mount not in {"behind_rail", "balcony_floor"} or measured:
        return None
    rail = Guess(value=_THROUGH_RAIL_SHARE, code="rail_in_front") if mount == "behind_rail" else _before_floor(array)
    through = node.take("light_through_share", rail)
    return Cover(material=node.take("material"), light_through_share=through)


def _before_floor(array: Node) -> Guess:
    """What comes through and over the rail to panels on a balcony's floor; of which nobody told, there may be none."""
    fixing = array.child("fixing")
    told = (fixing.get("railing_height_m"), fixing.get("railing_length_m"), array.get("hand_rail"))
    high_m = fixing.get("railing_height_m") or _USUAL_RAIL_M
    hidden = high_m / (high_m + _HALF_HIDDEN_M)
    through = {end: round(1.0 - taken * hidden, 3) for end, taken in _TAKEN_BY_RAIL.items()}
    if all(one is None for one in told):
        return Guess(value=through["value"], code="rail_not_told", low=through["low"], high=1.0)
    return Guess(value=through["value"], code="rail_before_floor", low=through["low"], high=through["high"])


def _shade(node: Node) -> Shade:
    cause = node.take("cause")
    leaves = not _LEAVES.isdisjoint(cause.lower().split())
    return Shade(
        cause=cause,
        edge=node.take("edge", Guess(value="soft", code="soft_of_leaves") if leaves else None),
        months=tuple(node.take("months")),
        from_clock=node.take("from_clock"),
        to_clock=node.take("to_clock"),
        blocked_share=node.take("blocked_share"),
    )
