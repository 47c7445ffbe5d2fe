"""What would others do with the same year, planes, panels and inverter? The library's chain, and its functions by hand.

Neither knows an input's window, current limit or start voltage. Both get the hours and the sun's place in them.
"""

from collections.abc import Callable, Sequence

import numpy as np
import pandas as pd
import pvlib

from service.core.energy.chain import Lit, input_hours
from service.core.energy.kernel.input_table import wired
from service.core.inverter import curve_through, output_of
from service.core.model.facts import Array, Inverter
from service.core.model.hours import Floats, SkyYear
from service.core.model.place import Site
from service.core.panel import HEAT_LOSS, Diode, five_parameters_of
from service.core.sky import ground_modifier, plane_light, sky_modifier

REFLECTANCE_SHARE = 0.2


def plain_kwh(arrays: Sequence[Array], inverter: Inverter, sky: SkyYear) -> float:
    """This service's own plain chain with the limits of each input: what the kernel is held to."""
    dc = np.zeros(sky.ghi_w_per_m2.size)
    for at, (array, limits) in enumerate(zip(arrays, inverter.inputs, strict=False)):
        light = plane_light(sky, array, REFLECTANCE_SHARE)
        dc += input_hours([Lit(at=at, array=array, light=light)], sky, limits, 0.0)[0].dc_w
    return _output_kwh(dc, inverter, sky)


def direct_kwh(arrays: Sequence[Array], diodes: Sequence[Diode], inverter: Inverter, sky: SkyYear) -> float:
    """The library's functions called by hand on plain arrays.

    The sun and the panels' models are known, and only hours with light are looked at. Leads are in the panels' series
    resistance: without them the Kranichwerft home has 0.49 % more.
    """
    rows = np.flatnonzero(sky.ghi_w_per_m2 > 0.0)
    dc = np.zeros(sky.ghi_w_per_m2.size)
    for array, diode in zip(arrays, diodes, strict=True):
        beam, even, ground = _direct_light(array, sky, rows)
        loss = HEAT_LOSS[array.mount]
        cells = pvlib.temperature.faiman(
            beam[0] + even[0] + ground[0], sky.air_c[rows], sky.wind_m_per_s[rows],
            loss.still_w_per_m2_k, loss.wind_w_s_per_m3_k,
        )  # fmt: skip
        effective = (beam[1] + even[1] + ground[1]) * (1.0 - array.dirt_share)
        panel, in_series, strings = wired(array, diode, 1.0)
        curve = pvlib.pvsystem.calcparams_desoto(effective, cells, **_parameters(panel))
        peak = pvlib.pvsystem.max_power_point(*curve, method="newton")
        dc[rows] += np.nan_to_num(peak["p_mp"]) * in_series * strings
    return _output_kwh(dc, inverter, sky)


def usual_chain(arrays: Sequence[Array], inverter: Inverter, sky: SkyYear, site: Site) -> Callable[[], float]:
    """The usual library chain, set up once; each call is a year from the weather to a.c. energy in kWh.

    At least two arrays. It leaves out dirt and leads, and takes all of the incidence loss off the beam alone.
    """
    location = pvlib.location.Location(site.latitude_deg, site.longitude_deg, tz="UTC")
    times = pd.DatetimeIndex(sky.calendar.utc, tz="UTC") + pd.Timedelta(minutes=30)
    weather = pd.DataFrame(
        {"ghi": sky.ghi_w_per_m2, "dni": sky.dni_w_per_m2, "dhi": sky.dhi_w_per_m2,
         "temp_air": sky.air_c, "wind_speed": sky.wind_m_per_s}, index=times,
    )  # fmt: skip
    system = pvlib.pvsystem.PVSystem(arrays=[_library_array(array) for array in arrays])
    rated_dc_w = inverter.ac_power_w / inverter.weighted_efficiency_share

    def convert(chain: pvlib.modelchain.ModelChain) -> None:
        powers = tuple(dc["p_mp"] for dc in chain.results.dc)
        chain.results.ac = pvlib.inverter.pvwatts_multi(powers, rated_dc_w, inverter.weighted_efficiency_share)

    chain = pvlib.modelchain.ModelChain(
        system, location, dc_model="desoto", ac_model=convert, aoi_model="physical", spectral_model="no_loss",
        temperature_model="faiman", losses_model="no_loss",
    )  # fmt: skip

    def year_kwh() -> float:
        with np.errstate(invalid="ignore"):  # its root finder divides nought by nought at night
            return float(np.nansum(chain.run_model(weather).results.ac)) / 1000.0

    return year_kwh


Both = tuple[Floats, Floats]  # what falls on the plane, and what works behind the glass


def _direct_light(array: Array, sky: SkyYear, rows: np.ndarray) -> tuple[Both, Both, Both]:
    tilt, azimuth = array.plane.tilt_deg, array.plane.azimuth_deg
    zenith, turned = sky.sun_zenith_deg[rows], sky.sun_azimuth_deg[rows]
    incidence = pvlib.irradiance.aoi(tilt, azimuth, zenith, turned)
    parts = pvlib.irradiance.haydavies(
        tilt, azimuth, sky.dhi_w_per_m2[rows], sky.dni_w_per_m2[rows], sky.extraterrestrial_w_per_m2[rows],
        zenith, turned, return_components=True,
    )  # fmt: skip
    beam = sky.dni_w_per_m2[rows] * np.maximum(np.cos(np.radians(incidence)), 0.0) + parts["poa_circumsolar"]
    even = parts["poa_isotropic"]
    ground = pvlib.irradiance.get_ground_diffuse(tilt, sky.ghi_w_per_m2[rows], REFLECTANCE_SHARE)
    tilts = np.array([tilt])
    return (
        (beam, beam * pvlib.iam.physical(incidence)),
        (even, even * sky_modifier(tilts)[0]),
        (ground, ground * ground_modifier(tilts)[0]),
    )


def _library_array(array: Array) -> pvlib.pvsystem.Array:
    loss, diode = HEAT_LOSS[array.mount], _parameters(five_parameters_of(array.panel))
    return pvlib.pvsystem.Array(
        mount=pvlib.pvsystem.FixedMount(array.plane.tilt_deg, array.plane.azimuth_deg),
        albedo=REFLECTANCE_SHARE,
        module_parameters={**diode, "cells_in_series": array.panel.cells_in_series},
        temperature_model_parameters={"u0": loss.still_w_per_m2_k, "u1": loss.wind_w_s_per_m3_k},
        modules_per_string=array.count,
    )


def _parameters(diode: Diode) -> dict[str, float]:
    return {
        "alpha_sc": diode.isc_coefficient_a_per_k,
        "a_ref": diode.voltage_scale_v,
        "I_L_ref": diode.photocurrent_a,
        "I_o_ref": diode.saturation_current_a,
        "R_sh_ref": 1.0 / max(diode.shunt_conductance_s, 1e-9),
        "R_s": diode.series_resistance_ohm,
        "EgRef": diode.band_gap_ev,
        "dEgdT": diode.band_gap_change_per_k,
    }


def _output_kwh(dc_w: Floats, inverter: Inverter, sky: SkyYear) -> float:
    curve = curve_through(inverter.weighted_efficiency_share, inverter.efficiency_weighting)
    limit = min(inverter.set_limit_w, inverter.ac_power_w)
    out = output_of(dc_w, inverter.ac_power_w, limit, curve, flicker_share=sky.flicker_share)
    return float(out.ac_w.sum()) / 1000.0
