"""What is to be done, and when? One sentence for each step; ``when.<moment>`` names its moment."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "when.before_buying": "Before buying",
    "when.at_the_door": "At the seller's door",
    "when.before_fitting": "Before fitting",
    "when.before_plugging_in": "Before plugging in",
    "when.first_sunny_day": "On the first sunny day",
    "when.each_spring": "Each spring",
    "when.after_storm": "After a storm",
    "when.moving_out": "When moving out",
    "ask_panel_label": "Ask for a photo of the label on the panel's back. It has the voltages and currents that decide "
    "whether it fits.",
    "ask_inverter_label": "Ask for a photo of the inverter's label or sheet: greatest input voltage, greatest current, "
    "short-circuit current.",
    "compare_price": "Add up everything, fetching included. It is worth up to about {amount:at_most} {currency}.",
    "ask_for_price": "Ask for a price of the work that the set needs first, and add it up too.",
    "ask_consent": "Ask the owner or co-owners in writing before you spend money.",
    "ask_operator": "Ask the grid operator in writing what holds in {area} for a set with a plug, and wait for the "
    "answer.",
    "many_panels": "With {panels} panels compare two ways; this is advice, no verdict. Several small inverters: "
    "{small_count} such as this one, {small_ac_w:g} W together; no cap was found under which they all may be plugged "
    "in, so ask the grid operator. One wired inverter of some {wired_ac_w:g} W for all: an electrician, a circuit of "
    "its own and a notice, and in series the panels reach {series_v:.0f} V d.c. on a cold morning, which is no work "
    "for amateurs; one shaded panel then pulls its string down.",
    "many_panels.capped": "With {panels} panels compare two ways; this is advice, no verdict. Several small "
    "inverters: {small_count} such as this one, {small_ac_w:g} W together, of which {within_cap} stay inside the "
    "{cap_w:g} {cap_unit} published for a plug; more has to be wired and announced. One wired inverter of some "
    "{wired_ac_w:g} W for all: an electrician, a circuit of its own and a notice, and in series the panels reach "
    "{series_v:.0f} V d.c. on a cold morning, which is no work for amateurs; one shaded panel then pulls its string "
    "down.",
    "many_panels_heat": "{small_count} small inverters at their seat are some {warmer_k:g} K warmer in full sun than a "
    "wired one in shade or indoors. By the 10 K rule, a rule of thumb, heat wears them out in {life_low:.0%} to "
    "{life_high:.0%} of its time; but when one fails, the others go on.",
    "many_panels_outlay": "Outlay for each watt of panels, without the panels: small inverters about "
    "{small_low_per_w:.2f} to {small_high_per_w:.2f} {currency}, one wired inverter with electrician "
    "{wired_low_per_w:.2f} to {wired_high_per_w:.2f} {currency} (trade figures, from memory: ask for offers).",
    "many_panels_outlay.given": "Outlay for each watt of panels, without the panels: {small_count} small inverters at "
    "your price about {small_low_per_w:.2f} {currency}, one wired inverter with electrician {wired_low_per_w:.2f} to "
    "{wired_high_per_w:.2f} {currency} (trade figures, from memory: ask for offers).",
    "measure_voltage": "Measure the open-circuit voltage of each panel: in daylight a sound one reads {low_v:.1f} to "
    "{high_v:.1f} V.",
    "measure_voltage.several": "Measure the open-circuit voltage of each panel meant for {arrays}: in daylight a sound "
    "one reads {low_v:.1f} to {high_v:.1f} V.",
    "look_panel_over": "Look at glass, back and box for cracks, brown spots and melted plastic. Leave a panel that has "
    "any.",
    "prove_fixing": "Get the mount's proof for the wind of the place. It carries {weight_kg:.0f} kg, and gusts pull as "
    "well as push.",
    "fixing_force": "Ask the mount's maker what the fixings of one panel carry; nobody said. A storm pushes on {array} "
    "with about {push_n:newtons} N and pulls with {pull_n:newtons} N a panel, at worst {most_n:newtons} N.",
    "fixing_force.stated": "Set the {capacity_n:newtons} N that are stated for one panel's fixings beside the storm: "
    "on {array} about {push_n:newtons} N of push and {pull_n:newtons} N of pull a panel, at worst "
    "{most_n:newtons} N. Ask for the proof.",
    "plan_wiring": "Mark each lead with its input before you climb: {plan}.",
    "match_connectors": "See that both halves of each connector are of one maker and type.",
    "mend_first": "Until this is done, do not plug in.",
    "have_circuit_checked": "Have an electrician look at the circuit: cable, breaker, residual-current device, socket.",
    "set_the_limit": "Set the inverter to {set_limit_w:.0f} W, and read the setting back.",
    "flat_lead": "Lead the cable through the {route} only with a flat lead made for it.",
    "register": "Announce the set. To whom: {whom}. When: {due}. Cost: {cost}.",
    "register.cost_open": "Announce the set. To whom: {whom}. When: {due}. What it costs was not found.",
    "wait_for_grid": "After plugging in nothing comes for a minute or so, in some countries for five: the inverter "
    "first watches the grid. That is normal. While the grid is down it gives nothing.",
    "wait_for_grid.en_50549": "After plugging in nothing comes for at least a minute: the inverter first watches the "
    "grid, by EN 50549-1 as first set 196 to 253 V and 49.5 to 50.1 Hz for 60 s (from memory); after a trip its power "
    "comes back over some ten minutes. That is normal. While the grid is down it gives nothing.",
    "wait_for_grid.ieee_1547": "After plugging in nothing comes for five minutes: the inverter first watches the grid, "
    "by IEEE 1547 as first set 110 to 126 V at a 120 V socket and 59.5 to 60.1 Hz for 300 s (from memory). That is "
    "normal. While the grid is down it gives nothing.",
    "check_power": "Around the best hour of a clear day the display or app shows about {best_w} W in {best_season}, "
    "{least_w} W in {least_season}. Much less on a clear day: look for shade, dirt or an input that gives nothing.",
    "feel_the_plug": "After an hour of full sun feel plug and socket. If they are hot, switch off and call an "
    "electrician.",
    "clean": "Wash the glass with cool water in the morning or evening.",
    "retighten": "Check screws, hooks and ropes, and look at the leads.",
    "look_after_storm": "Look for cracks, loose clamps and leads. Do not touch a broken panel in daylight.",
    "take_down": "Unplug first, cover the panels, part the d.c. joints, cap them, then loosen the mount.",
    "deregister": "Tell those whom you told of the set that it is gone.",
}
