"""Skies and sets for the kernel, and their year by the plain chain."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

import numpy as np

from service.core.energy.chain import Lit, input_hours
from service.core.energy.kernel import (
    InputTable,
    PlaceRecord,
    around_of,
    dc_w,
    input_table,
    light_among,
    nearest_array,
    nearest_output,
    open_planes,
    output_table,
    place_record,
)
from service.core.energy.kernel.place import Singles
from service.core.inverter import curve_through, output_of
from service.core.model.facts import Array, Inverter
from service.core.model.hours import Floats, SkyYear
from service.core.sky import counts_rear, flicker_share, house_steepness, plane_light, rear_light, typical_year
from service.data.climate import load_climate
from tests.skies import mixed_year

REFLECTANCE_SHARE = 0.2
PLACES = ((54.2, 12.3), (38.7, -9.1), (1.3, 36.8), (-33.9, 18.4), (65.0, 25.5))


@cache
def typical(latitude_deg: float, longitude_deg: float) -> SkyYear:
    """The service's own year at a place, with its low sun, its frost and its flicker."""
    return typical_year(load_climate().at(latitude_deg, longitude_deg, None), "UTC")


@cache
def flickering(latitude_deg: float, longitude_deg: float) -> SkyYear:
    """The library's made-up year, coming and going within its hours."""
    sky = mixed_year(latitude_deg, longitude_deg)
    return replace(sky, flicker_share=flicker_share(sky.ghi_w_per_m2, sky.clear_ghi_w_per_m2))


def plain_ac_w(arrays: Sequence[Array], inverter: Inverter, sky: SkyYear) -> Floats:
    """(8760,) by the plain chain, each array alone on its input."""
    dc = np.zeros(sky.ghi_w_per_m2.size)
    for array, limits in zip(arrays, inverter.inputs, strict=False):
        light, rear = plane_light(sky, array, REFLECTANCE_SHARE), None
        if counts_rear(array):
            rear = rear_light(sky, array, REFLECTANCE_SHARE, light.effective_w_per_m2)
        lit = Lit(at=0, array=array, light=light, rear_w_per_m2=rear)
        dc += input_hours([lit], sky, limits, 0.0)[0].dc_w
    curve = curve_through(inverter.weighted_efficiency_share, inverter.efficiency_weighting)
    limit_w = min(inverter.set_limit_w, inverter.ac_power_w)
    return output_of(dc, inverter.ac_power_w, limit_w, curve, flicker_share=sky.flicker_share).ac_w


def kernel_ac_w(arrays: Sequence[Array], inverter: Inverter, sky: SkyYear) -> Floats:
    """The same by the kernel, in the hours with light."""
    record = place_record(sky)
    tables = [input_table(array, limits, 1.0) for array, limits in zip(arrays, inverter.inputs, strict=False)]
    dc = np.zeros(record.air_c.size, dtype=np.float32)
    for array, table in zip(arrays, tables, strict=True):
        dc += _finely(array, sky, record, table)
    ac_w = output_table(inverter, sum(table.most_w for table in tables)).of(dc, record.flicker_share)
    return _whole_year(record, ac_w, sky)


def nearest_ac_w(arrays: Sequence[Array], inverter: Inverter, sky: SkyYear) -> Floats:
    """The same at nearest cells, where a cell is enough."""
    record = place_record(sky)
    tables = [input_table(array, limits, 1.0) for array, limits in zip(arrays, inverter.inputs, strict=False)]
    dc = np.zeros((1, record.air_c.size), dtype=np.float32)
    for array, table in zip(arrays, tables, strict=True):
        around = around_of(array, sky, record) if surrounded(array) else None
        opened = open_planes(array, record, [array.plane], REFLECTANCE_SHARE, around)
        cells = nearest_array(array, record, opened, table, REFLECTANCE_SHARE)
        if cells is None or (surrounded(array) and around is None):
            dc += _finely(array, sky, record, table)
        else:
            dc += cells.dc_of(opened)
    output = output_table(inverter, sum(table.most_w for table in tables))
    return _whole_year(record, nearest_output(output, record, 1.0).of(dc)[0], sky)


def surrounded(array: Array) -> bool:
    """Does anything stand around it?"""
    return array.surrounded or house_steepness(array) is not None


def _finely(array: Array, sky: SkyYear, record: PlaceRecord, table: InputTable) -> Singles:
    around = around_of(array, sky, record) if surrounded(array) else None
    if surrounded(array) and around is None:
        return dc_w(light_among(array, sky, record, [array.plane], REFLECTANCE_SHARE), table)[0]
    return dc_w(open_planes(array, record, [array.plane], REFLECTANCE_SHARE, around).light(), table)[0]


def _whole_year(record: PlaceRecord, ac_w: Singles, sky: SkyYear) -> Floats:
    year = np.zeros(sky.ghi_w_per_m2.size)
    year[record.daylight.rows] = ac_w
    return year
