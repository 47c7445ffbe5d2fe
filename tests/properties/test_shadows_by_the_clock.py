"""Shadows by the clock, against the same told minute by minute: what meets, overlaps or spans midnight is no other."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.model.place import Shade
from service.core.sky import plane_light, sections_lost, shading_of
from tests.builders import panel
from tests.properties.around import skies, surrounded_arrays
from tests.properties.test_bands_across_cells import cuts, orientations, rails, rows

MINUTES = 24 * 60
months = st.sets(st.integers(1, 12), min_size=1).map(lambda chosen: tuple(sorted(chosen)))
minutes = st.integers(0, MINUTES - 1)
shadows = st.builds(
    lambda begin, end, edge, blocked, named: Shade(
        cause="tree", edge=edge, months=named, from_clock=clock(begin), to_clock=clock(end), blocked_share=blocked
    ),
    minutes, minutes, st.sampled_from(["soft", "hard"]), st.floats(0, 1), months,
)  # fmt: skip


def clock(minute: int) -> str:
    return f"{minute // 60:02d}:{minute % 60:02d}"


def covers(shade: Shade, minute: np.ndarray) -> np.ndarray:
    begin, end = (60 * int(told[:2]) + int(told[3:]) for told in (shade.from_clock, shade.to_clock))
    return (minute - begin) % MINUTES < ((end - begin) % MINUTES or MINUTES)


@given(drawn=st.lists(shadows, min_size=1, max_size=4), offset=st.integers(0, 59), month=st.integers(1, 12))
def test_an_hour_is_the_mean_of_its_minutes(drawn, offset, month):
    begins = np.arange(24) * 60 + offset
    minute = (begins[:, None] + np.arange(60)) % MINUTES
    through, sections = np.ones(minute.shape), np.zeros(minute.shape)
    for shade in drawn:
        here = covers(shade, minute) & (month in shade.months)
        if shade.edge == "soft":
            through = np.where(here, through * (1 - shade.blocked_share), through)
        else:
            sections = np.where(here, sections + sections_lost(shade.blocked_share) / 3, sections)
    found = shading_of(drawn, np.full(24, month), begins % MINUTES / 60.0)
    np.testing.assert_allclose(found.beam_through_share, through.mean(axis=1), atol=1e-9)
    np.testing.assert_allclose(found.sections_lost_share, np.minimum(sections, 1).mean(axis=1), atol=1e-9)
    np.testing.assert_allclose(found.hard_time_share, (sections > 0).mean(axis=1), atol=1e-9)


@pytest.mark.parametrize("edge", ["soft", "hard"])
@given(cuts=st.sets(st.integers(541, 899), max_size=6), offset=st.sampled_from([0.0, 0.25, 0.5]))
def test_a_shadow_told_in_pieces_is_the_whole_one(edge, cuts, offset):
    whole = Shade(cause="tree", edge=edge, months=(7,), from_clock="09:00", to_clock="15:00", blocked_share=0.7)
    ends = [540, *sorted(cuts), 900]
    pieces = [replace(whole, from_clock=clock(a), to_clock=clock(b)) for a, b in pairwise(ends)]
    told = [shading_of(shades, np.full(24, 7), np.arange(24) + offset) for shades in ([whole], pieces)]
    for name in ("beam_through_share", "sections_lost_share", "hard_time_share"):
        np.testing.assert_allclose(*(getattr(one, name) for one in told), atol=1e-9)


@given(
    sky=skies, one=surrounded_arrays(), rail=rails, row=rows, cut=cuts, orientation=orientations,
    stands=st.sampled_from(["rail", "row", "both"]),
)  # fmt: skip
def test_of_a_panel_all_in_shadow_a_hard_edge_takes_what_a_soft_one_does(sky, one, rail, row, cut, orientation, stands):
    """The sun is lost once, whatever else stands around: bands have nothing left to take from it."""
    one = replace(
        one, orientation=orientation, panel=panel(half_cells=cut), hand_rail=None if stands == "row" else rail,
        row_in_front=None if stands == "rail" else row,
    )  # fmt: skip
    day = Shade(cause="thing", edge="soft", months=tuple(range(1, 13)), from_clock="00:00", to_clock="24:00",
                blocked_share=1.0)  # fmt: skip
    soft, hard = (plane_light(sky, replace(one, shade=(replace(day, edge=edge),)), 0.2) for edge in ("soft", "hard"))
    np.testing.assert_allclose(hard.effective_w_per_m2, soft.effective_w_per_m2, atol=1e-6)
