"""The other way to lie moves the year of each array for which nobody told the way; like ones are looked at once."""

from dataclasses import replace

import pytest

from service.core.energy import otherwise
from service.core.energy.otherwise import Otherwise, lain_otherwise
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.place import HandRail, Shade, SideWall
from service.core.sky import plane_light
from tests.builders import array
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
BEHIND = array(
    hand_rail=HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.06),
    side_walls=(SideWall(side="left", distance_m=0.2, reaches_out_m=1.0),),
)


def untold(*pointers):
    return Assumptions.of(Assumption(pointer=p, value=None, code="test", source="test") for p in pointers)


def year_kwh_per_m2(one):
    return plane_light(SKY, one, 0.2).effective_w_per_m2.sum() / 1000.0


def test_each_array_is_told_what_its_own_other_way_moves():
    arrays = (BEHIND, replace(BEHIND, name="b", input=2), replace(BEHIND, name="c"), array())
    on_cells = [year_kwh_per_m2(one) for one in arrays]
    found = lain_otherwise(
        arrays, on_cells, SKY, 0.2, untold("/arrays/0/orientation", "/arrays/1/orientation", "/arrays/3/orientation")
    )
    moved = year_kwh_per_m2(replace(BEHIND, orientation="lengthwise")) / on_cells[0] - 1.0
    assert abs(moved) > 0.01
    assert (found[0].less, found[0].more) == pytest.approx((max(-moved, 0.0), max(moved, 0.0)), abs=1e-6)
    assert found[1] == found[0]
    assert found[2] == Otherwise()  # it was told
    assert found[3] == Otherwise()  # nothing casts an edge


def test_an_edge_that_nobody_told_may_be_the_other_one_and_what_brings_far_more_is_named():
    shade = Shade(cause="mast", edge="hard", months=tuple(range(1, 13)), from_clock="09:00", to_clock="17:00",
                  blocked_share=0.4)  # fmt: skip
    hard = array(shade=(shade,))
    soft = replace(hard, shade=(replace(shade, edge="soft"),))
    on_cells = [year_kwh_per_m2(one) for one in (hard, soft)]
    [of_hard, of_soft] = lain_otherwise(
        (hard, soft), on_cells, SKY, 0.2, untold("/arrays/0/shade/0/edge", "/arrays/1/shade/0/edge")
    )
    assert of_hard.more == pytest.approx(on_cells[1] / on_cells[0] - 1.0, abs=1e-6)
    assert of_hard.more > 0.25
    assert (of_hard.less, of_hard.far) == (0.0, soft)
    assert of_soft.less == pytest.approx(1.0 - on_cells[0] / on_cells[1], abs=1e-6)
    assert (of_soft.more, of_soft.far) == (0.0, None)
    assert lain_otherwise((hard,), on_cells[:1], SKY, 0.2, untold()) == [Otherwise()]


def test_arrays_that_stand_alike_are_looked_at_once(monkeypatch):
    asked = []
    light = otherwise.effective_light

    def counted(one, planes, *rest):
        asked.append((one.orientation, one.panel.half_cells))
        return light(one, planes, *rest)

    monkeypatch.setattr(otherwise, "effective_light", counted)
    arrays = tuple(replace(BEHIND, name=f"{at}", input=at % 2 + 1) for at in range(4))
    pointers = [f"/arrays/{at}/{name}" for at in range(4) for name in ("orientation", "panel/half_cells")]
    found = lain_otherwise(arrays, [500.0] * 4, SKY, 0.2, untold(*pointers))
    assert len(asked) == len(set(asked)) == 3
    assert len(set(found)) == 1
    turned = replace(BEHIND, plane=replace(BEHIND.plane, azimuth_deg=180.0))
    lain_otherwise((BEHIND, turned), [500.0] * 2, SKY, 0.2, untold(*pointers))
    assert len(asked) == 3 + 6
