"""What is a field or a kind called where a person reads of it? Its own name stands in the facts beside the sentence."""

from collections.abc import Mapping
from types import MappingProxyType

TEXTS: Mapping[str, str] = MappingProxyType(
    {
        # panel
        "rated_power_w": "the panel's rated power",
        "power_tolerance_pct": "the tolerance of the panel's power",
        "voc_coefficient_v_per_k": "the temperature coefficient of the panel's voltage",
        "voc_coefficient_mv_per_k": "the temperature coefficient of the panel's voltage",
        "isc_coefficient_a_per_k": "the temperature coefficient of the panel's current",
        "isc_coefficient_ma_per_k": "the temperature coefficient of the panel's current",
        "power_coefficient_pct_per_k": "the temperature coefficient of the panel's power",
        "open_circuit_voltage_v": "the panel's open-circuit voltage (Voc)",
        "short_circuit_current_a": "the panel's short-circuit current (Isc)",
        "max_power_voltage_v": "the panel's voltage at maximum power (Vmp)",
        "max_power_current_a": "the panel's current at maximum power (Imp)",
        "voc_coefficient_pct_per_k": "the temperature coefficient of the panel's voltage",
        "isc_coefficient_pct_per_k": "the temperature coefficient of the panel's current",
        "cells_in_series": "how many cells of the panel are in series",
        "coldest_air_c": "how cold it gets at your place",
        "cell_kind": "the panel's kind of cell",
        "bifaciality_share": "whether the panel works from its rear side too",
        "max_system_voltage_v": "the panel's maximum system voltage",
        "max_series_fuse_a": "the panel's maximum series fuse",
        "bypass_diodes": "which current the panel's bypass diodes carry",
        # inverter
        "set_limit_w": "the limit that the inverter is set to",
        "input_count": "how many inputs the inverter has",
        "max_input_voltage_v": "the inverter's greatest input voltage",
        "max_short_circuit_current_a": "the inverter's greatest short-circuit current an input",
        "max_panel_short_circuit_current_a": "the greatest short-circuit current of a panel that the inverter admits",
        "max_current_a": "the greatest current that an input draws",
        "max_panel_power_w": "the greatest panel power an input",
        "max_panel_power_kind": "whether the inverter's panel power is a maximum or a recommendation",
        "tracking_max_v": "the upper end of the inverter's tracking range",
        "tracking_min_v": "the lower end of the inverter's tracking range",
        "start_voltage_v": "the inverter's start voltage",
        # circuit
        "voltage_v": "the voltage of the socket",
        "breaker_a": "the breaker's rating",
        "cable_mm2": "the cross-section of the cable",
        "laying": "how the cable is laid",
        "ambient_c": "how warm the air around the cable gets",
        "dedicated": "whether anything else hangs on the circuit",
        "residual_current_device": "the type of the residual-current device",
        "ac_power_w": "the output of the other set",
        "panel_power_w": "the panel power of the other set",
        # residual-current devices
        "type_a": "type A",
        "type_b": "type B",
        "type_ac": "type AC",
        "type_f": "type F",
        "one_way": "one-way",
        # doubts about a datasheet
        "voltages_swapped": "the two voltages look swapped",
        "currents_swapped": "the two currents look swapped",
        "half_cells_counted": "half cells were counted as whole ones",
        "voltage_per_cell": "the voltage does not suit the number of cells",
        "fill_factor": "voltages and currents do not make one curve",
        "power_product": "volts times amperes are not the watts",
        "power_coefficient": "the temperature coefficients do not suit each other",
    }
)
