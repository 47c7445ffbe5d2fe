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
    "many_panels": "With {panels} panels ask an electrician for one wired inverter too; it often serves better.",
    "measure_voltage": "Measure the open-circuit voltage of each panel: in daylight a sound one reads {low_v:.1f} to "
    "{high_v:.1f} V.",
    "measure_voltage.several": "Measure the open-circuit voltage of each panel meant for {arrays}: in daylight a sound "
    "one reads {low_v:.1f} to {high_v:.1f} V.",
    "look_panel_over": "Look at glass, back and box for cracks, brown spots and melted plastic. Leave a panel that has "
    "any.",
    "prove_fixing": "Get the mount's proof for the wind of the place. It carries {weight_kg:.0f} kg, and gusts pull as "
    "well as push.",
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
