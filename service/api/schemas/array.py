"""How is an array written in a request: panels, plane, input, and what stands around them?"""

from typing import Annotated

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In
from service.api.schemas.fixing import FixingIn
from service.api.schemas.panel import PanelIn
from service.core.model.place import MOST_SKYLINE_POINTS


class PlaneIn(In):
    """Which way the panels look. Whatever is absent is chosen within what the mount allows, and reported."""

    tilt_deg: f.TiltDeg | None = None
    azimuth_deg: f.AzimuthDeg | None = None


_HOUSE = [
    {"azimuth_deg": 95, "height_deg": 0}, {"azimuth_deg": 95, "height_deg": 12},
    {"azimuth_deg": 130, "height_deg": 14}, {"azimuth_deg": 130, "height_deg": 0},
]  # fmt: skip


class SkylinePointIn(In):
    """One point of the skyline as seen from the panel.

    Between points, and through north, it runs straight, and one point alone stands all around: what stands alone needs
    a point of height 0 on each of its sides. Two points at one azimuth are an upright edge, going clockwise.
    """

    azimuth_deg: f.AzimuthDeg
    height_deg: f.HeightDeg


class OverhangIn(In):
    """A slab above the panel, such as the next floor's balcony.

    Its shadow falls from the upper edge down and counts as a hand rail's does: as much of a row of cells as lies in it
    its string loses of the sun. Upright that is the whole panel, of half cells the halves that it reaches; lengthwise
    the panel, or thirds are given up where that costs less. The sky is what the upmost cells of a string see past it.
    A slab ends in a facade without end behind the panel (`facade_azimuth_deg`, else square to the plane), which hides
    the sky and the sun there from a panel that leans, however little the slab reaches out. One that reaches out 0 is as
    if it were not told: then the house behind hides what its height tells (`fixing.building_height_m`). Of a panel
    that is turned out of its facade all cells count as far in as the corner that is turned in; the reach is that from
    the middle of the upper edge.
    """

    above_top_edge_m: f.AboveTopEdgeM
    reaches_out_m: f.ReachesOutM


class SideWallIn(In):
    """A wall to the left or right as one looks out from the panel.

    Its shadow falls from the side edge inwards: upright one third of the panel after the other, which is given up where
    that costs less; lengthwise the panel, of half cells the halves that it reaches. The sky is what the cells next to
    the wall see past it. Of several panels of an array each counts as the one next to the wall. A wall, too, ends in a
    facade without end, which hides what is behind the panel on its side; one that reaches out 0 is as if not told. Its
    front edge is plumb and stands still, as far out as it is from the middle of the panel's upper edge: slab and walls
    that reach out alike end in one front plane, and the lower end of a leaning panel comes out past both. The distance
    is that from the side edge of a panel that looks as the facade does. Each string of cells, of half cells each half,
    counts by its end, upper or lower, that lies darker, and as lying on a wall through which the panel would go.
    """

    side: f.Side = Field(description="Left or right as one looks out from the panel.")
    distance_m: f.DistanceM
    reaches_out_m: f.ReachesOutM


class HandRailIn(In):
    """A hand rail before the panel, as long as the railing: its shadow falls across the panel's upper rows of cells.

    As much of a row as lies in the shadow its string loses of the sun: upright the whole panel, of half cells the half
    that is touched; lengthwise the panel, or a third is given up where that costs less. So it is with the part of the
    sky that it hides from the row from which it hides most. Glass below the rail is told as `cover`;
    before panels on a balcony's floor some is taken unless that is told.
    """

    above_top_edge_m: f.AboveTopEdgeM | None = Field(
        default=None, description="Underside of the rail above the panel's upper edge; 0 where absent."
    )
    distance_m: f.DistanceM
    thickness_m: f.ThicknessM | None = None


class RowInFrontIn(In):
    """Another row of panels in front, or a parapet, as long as this one: its shadow falls across the lower rows.

    It counts as a hand rail's does. The sky is what the lowest cells of a string see past it, of parallel halves each
    its own; lengthwise dark thirds are given up where that costs less.
    """

    above_bottom_edge_m: f.AboveBottomEdgeM
    distance_m: f.DistanceM


class CoverIn(In):
    """Something in front of the panel, such as the glass of a railing."""

    material: f.Material | None = None
    light_through_share: f.LightThroughShare


class ShadeIn(In):
    """A shadow at wall-clock hours of some months: past midnight, or of the whole day where both clocks are equal."""

    cause: f.Cause | None = None
    edge: f.Edge | None = Field(default=None, description="Soft as a tree's shadow, or hard as a wall's or a mast's.")
    months: Annotated[
        list[f.Month], Field(min_length=1, max_length=12, description="Months in which it falls.", examples=[[5, 6, 7]])
    ]
    from_clock: f.Clock
    to_clock: f.Clock
    blocked_share: f.BlockedShare


class StandingIn(In):
    """Where and how panels stand, and what stands around them."""

    name: f.Name | None = None
    input: f.InputNumber | None = None
    count: f.Count | None = None
    joined: f.Joined | None = Field(
        default=None,
        description="How its panels are wired; one panel needs neither. Arrays on one input lie in parallel, or, where "
        "each says `one_string`, in series.",
    )
    mount: f.Mount | None = Field(default=None, description="What the panels hang on or stand on.")
    plane: PlaneIn | None = None
    orientation: f.Orientation | None = Field(default=None, description="Upright, or lengthwise along the railing.")
    height_above_ground_m: f.HeightAboveGroundM | None = None
    skyline: (
        Annotated[
            list[SkylinePointIn], f.several("The skyline around, clockwise from north.", 0, MOST_SKYLINE_POINTS, _HOUSE)
        ]
        | None
    ) = None
    overhang: OverhangIn | None = None
    side_walls: Annotated[list[SideWallIn], f.several("Walls at the sides.", 0, 2)] | None = None
    hand_rail: HandRailIn | None = None
    row_in_front: RowInFrontIn | None = None
    facing_reflectance_share: f.FacingReflectanceShare | None = None
    cover: CoverIn | None = None
    shade: Annotated[list[ShadeIn], f.several("Shadows at certain hours.", 0, 24)] | None = None
    dirt_share: f.DirtShare | None = None
    mismatch_share: f.MismatchShare | None = None
    hottest_cell_c: f.HottestCellC | None = None
    rear_light_share: f.RearLightShare | None = None
    facade_azimuth_deg: f.FacadeAzimuthDeg | None = None
    count_rear_light: f.Yes | None = Field(
        default=None,
        description="Count what the rear of two-sided panels gives? Off unless asked for. Skyline, slab, side walls "
        "and shade dim it as they dim the front.",
    )
    fixing: FixingIn | None = None
    string_fuse_a: f.StringFuseA | None = None
    lead_length_m: f.LeadLengthM | None = None
    lead_mm2: f.LeadMm2 | None = None


class ArrayIn(StandingIn):
    """Equal panels, wired one way, in one plane, on one input."""

    panel: PanelIn
