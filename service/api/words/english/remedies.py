"""What would mend it, and who does it? One sentence for each remedy; keys are ``code.variant``."""

from collections.abc import Mapping
from types import MappingProxyType

_SENTENCES = {
    "one_panel_per_input": "Put the panels of {array} on inputs of their own (also {to_inputs}).",
    "parallel_not_series": "Join the panels in parallel, not in series: the voltage of one panel, the current of all.",
    "lower_set_limit": "Have the inverter set to {new_value:.0f} W, and keep the proof.",
    "smaller_breaker": "An electrician puts in a breaker of {new_value:g} A.",
    "own_circuit": "An electrician gives the set a circuit of its own, with nothing else on it.",
    "own_neutral": "An electrician gives the set a circuit of its own, with a neutral that no other circuit uses.",
    "own_circuit_and_lower_limit": "An electrician gives the set a circuit of its own, and the inverter is set to "
    "{new_value:.0f} W.",
    "thicker_cable": "An electrician lays a thicker cable for this circuit, of {new_value:g} mm2.",
    "own_circuit_and_thicker_cable": "An electrician gives the set a circuit of its own, with a cable of "
    "{new_value:g} mm2.",
    "other_sets_elsewhere": "An electrician connects the other sets to other circuits, so that this one pushes alone "
    "beside the breaker. What those circuits bear has to be asked anew.",
    "other_sets_out": "Take other sets out of use, {out_w:.0f} W in all. What they gave is lost with them and is not "
    "counted here.",
    "other_sets_out_and_lower_limit": "Take other sets out of use, {out_w:.0f} W in all, and have the inverter set to "
    "{new_value:.0f} W. What the others gave is lost with them and is not counted here.",
    "another_set": "Plan another set: {left} of these {panels} panels stay within what was published.",
    "another_set.alone": "Plan another set, without the others behind this meter: {left} of these {panels} panels stay "
    "within what was published.",
    "other_meter": "Have the grid operator put in a meter that counts both ways, before plugging in.",
    "thicker_or_shorter_lead": "Use a thicker or a shorter lead.",
    "thicker_or_shorter_lead.thicker": "Use a lead of {new_value:g} mm2.",
    "thicker_or_shorter_lead.shorter": "Use a lead of at most {new_value:g} m.",
    "matched_connectors": "Have locking connectors fitted, both halves of one type and make, crimped with the proper "
    "tool.",
    "string_fuses": "A fuse of {new_value:g} A in each string of {array}, made for direct current; an "
    "electrician fits them.",
    "export_limiter": "An inverter that is kept from sending anything out ({new_value:g} W).",
    "other_panels": "Choose panels whose label admits a system voltage of at least {new_value:g} V.",
    "like_panels": "Have all strings of this input made of panels like those of {array}.",
    "like_panels.fewer": "Have all strings of this input made of panels like those of {array}, {in_series} in each "
    "string; that makes {panels} panels in all.",
    "weaker_panels": "Choose panels of at most {new_value:.0f} W each.",
    "fewer_panels": "Connect {left} panels instead of {panels}.",
    "special_connector": "Have the special connector fitted instead of a household plug.",
    "fixed_connection": "Have an electrician wire the set in.",
    "other_inverter": "Choose an inverter with a higher rating, at least {new_value:g} {unit}: {rating}.",
    "other_inverter.max_input_voltage_v": "Choose an inverter whose input stands at least {new_value:g} V.",
    "other_inverter.max_short_circuit_current_a": "Choose an inverter whose input stands a short-circuit current of "
    "at least {new_value:g} A.",
    "other_inverter.max_panel_short_circuit_current_a": "Choose an inverter that admits panels with a short-circuit "
    "current of {new_value:g} A on the label.",
    "other_inverter.max_panel_power_w": "Choose an inverter whose maker admits {new_value:.0f} W of panels an input.",
    "other_inverter.grid_voltage_v": "Choose an inverter that is made for {new_value:g} V.",
    "other_residual_current_device": "An electrician fits a residual-current device of type A, with the maker's "
    "proof that it suffices, else type B.",
    "other_residual_current_device.type_a": "An electrician fits a residual-current device of type A, as the "
    "inverter's maker asks.",
    "other_residual_current_device.type_b": "An electrician fits a residual-current device of type B, as the "
    "inverter's maker asks.",
    "ask_seller": "Ask the seller, or read the label or datasheet.",
    "ask_seller.max_input_voltage_v": "Ask for the inverter's absolute maximum input voltage; the top of the "
    "tracking range is something else.",
    "ask_seller.max_short_circuit_current_a": "Ask for the inverter's maximum short-circuit current an input, and "
    "whether the figure is what it survives or the largest panel's label value.",
    "ask_seller.input_count": "Count the inverter's pairs of d.c. leads, or ask how many inputs it has.",
    "ask_seller.max_panel_power_kind": "Ask whether the printed panel power is a maximum or a recommendation.",
    "ask_seller.max_current_a": "Ask for the largest current that an input draws.",
    "ask_seller.tracking_max_v": "Ask for the upper end of the inverter's tracking range.",
    "ask_seller.tracking_min_v": "Ask for the lower end of the inverter's tracking range.",
    "ask_seller.start_voltage_v": "Ask for the inverter's start voltage.",
    "ask_seller.open_circuit_voltage_v": "Ask for the open-circuit voltage (Voc) on the panel's label.",
    "ask_seller.short_circuit_current_a": "Ask for the short-circuit current (Isc) on the panel's label.",
    "ask_seller.max_power_voltage_v": "Ask for the voltage at maximum power (Vmp) on the panel's label.",
    "ask_seller.max_power_current_a": "Ask for the current at maximum power (Imp) on the panel's label.",
    "ask_seller.voc_coefficient_pct_per_k": "Ask for the temperature coefficient of the open-circuit voltage on the "
    "panel's datasheet, and note its unit.",
    "ask_seller.isc_coefficient_pct_per_k": "Ask for the temperature coefficient of the short-circuit current on the "
    "panel's datasheet, and note its unit.",
    "ask_seller.cells_in_series": "Count the panel's cells, half-cut ones by half, or ask for their number.",
    "ask_seller.cell_kind": "Ask of which kind the panel's cells are.",
    "ask_seller.bifaciality_share": "Ask whether the panel works from its rear side too, and how much of its front "
    "side's power the rear gives.",
    "ask_seller.max_system_voltage_v": "Ask for the maximum system voltage on the panel's label.",
    "ask_seller.max_series_fuse_a": "Ask for the maximum series fuse rating on the panel's label.",
    "ask_seller.datasheet_sanity": "Ask for a photo of the label and read it again.",
    "ask_seller.bypass_diodes": "Ask the panel's maker which current its bypass diodes carry for hours.",
    "ask_seller.connectors": "Ask for make and type of the connectors.",
    "ask_seller.certificate": "Ask for the certificates that the card names.",
    "ask_electrician": "Ask an electrician to look at the circuit.",
    "ask_electrician.new_circuit": "Ask an electrician to plan a circuit for this set; no cable of the usual sizes "
    "bears it here.",
    "ask_electrician.voltage_v": "Read the voltage of the socket on the meter or in the panel board, or ask an "
    "electrician.",
    "ask_electrician.strings": "Ask an electrician, or the panels' maker, how strings in parallel are protected here.",
    "ask_electrician.breaker_a": "Read the breaker's rating, or ask an electrician.",
    "ask_electrician.cable_mm2": "Ask an electrician for the cross-section of the circuit's cable.",
    "ask_electrician.laying": "Ask an electrician how the circuit's cable is laid.",
    "ask_electrician.ambient_c": "Say how warm the air around the cable gets on hot days; under a roof or on a sunny "
    "wall it is warmer than in a room. Else ask an electrician.",
    "ask_electrician.ac_power_w": "Read the output of the other set on the label of its inverter.",
    "ask_electrician.panel_power_w": "Read the power of the other set's panels on their labels.",
    "ask_electrician.dedicated": "Find out whether anything else hangs on this circuit.",
    "ask_electrician.residual_current_device": "Read the type of the residual-current device, or ask an electrician.",
    "at_worst_refused": "At the worst that may be the answer it does not fit; a better one can.",
    "tell_coldest_air": "Look up the coldest air that was ever measured near you (the national weather service lists "
    "it by station), and ask again with it: our own figure is an estimate.",
    "ask_operator": "Ask the grid operator, in writing, and keep the answer.",
}

TEXTS: Mapping[str, str] = MappingProxyType(_SENTENCES)
