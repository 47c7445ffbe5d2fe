"""How is a decision said: the verdict, its reasons, and what it hangs on?

Keys: ``verdict.<verdict>``; a reason's own code; ``condition.<code>`` for what has to be met or found out.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "verdict.worth_it": "Worth it.",
    "verdict.worth_it_if": "Worth it, if:",
    "verdict.not_worth_it": "Not worth it.",
    "verdict.cannot_tell": "Cannot tell yet. Find out first:",
    # what it is worth
    "worth_up_to": "Worth up to about {amount:at_most} {currency} for everything together, with bad luck "
    "{cautious:at_most}.",
    # the account
    "paid_back": "It has paid itself back after about {payback_years:.1f} years, with bad luck after "
    "{cautious_years:.1f}; the account runs over {kept_years:g}.",
    "nothing_to_pay_back": "It costs nothing, so there is nothing to pay back in the {kept_years:g} years counted.",
    "paid_back_in_the_middle": "It has paid itself back after about {payback_years:.1f} of {kept_years:g} years, but "
    "with bad luck not within them.",
    "paid_back_but_for_a_later_cost": "It has paid itself back after about {payback_years:.1f} years, but with bad "
    "luck a later cost undoes it within the {kept_years:g} years counted.",
    "paid_back_by_selling": "What it saves in the {kept_years:g} years counted does not pay it back alone; sold at "
    "their end for what you reckon with, it does, with bad luck too.",
    "paid_back_by_selling_in_the_middle": "What it saves in the {kept_years:g} years counted does not pay it back "
    "alone; sold at their end for what you reckon with, it does, but with bad luck not.",
    "not_paid_back": "It costs {outlay:.0f} {currency} and brings back about {worth_up_to:at_most} in the "
    "{kept_years:g} years counted.",
    "no_outlay_given": "No cost was given. In {kept_years:g} years it brings back about {worth_up_to:at_most} "
    "{currency}: pay no more than that for everything together.",
    "no_price_known": "What a kWh costs in {area} is not in the table, and a neighbour's price is not borrowed.",
    "one_fact_turns_it": "One thing that was not said turns the answer round: with it the saving is {low_share:.0%} to "
    "{high_share:.0%} of what was reckoned.",
    "other_year_once_met": "With the conditions met it gives about {once_met_kwh:.0f} kWh in a year; as asked it would "
    "be {as_asked_kwh:.0f}. All said here of worth and payback is with the conditions met.",
    "left_for_conditions": "What the conditions cost is not all known here. No more than {amount:at_most} {currency} "
    "are left for them before it no longer pays.",
    "once_met": "The decision is about the set with these changes made. Energy, use and payback of the answer are "
    "those of the set as it was asked.",
    "reckoned_with": "Reckoned for the set with what is demanded of it done:",
    "as_asked": "The set as it was asked; the decision above is about it with what is demanded done.",
    # the cost of a condition
    "cost_because.costs_nothing": "Costs nothing.",
    "cost_because.less_energy": "Costs nothing but the energy that it takes or brings.",
    "cost_because.price_not_known": "What it costs is not known here: ask for a price before you buy.",
    # the fit
    "refused": "One check refuses, and nothing was found that mends it. It stands first among the findings.",
    "refused_but_mendable": "What a check refuses as things stand, the conditions mend.",
    "refused_as_asked": "As things stand a check refuses; what would mend it stands with that finding.",
    "panel_side.fits": "Panels and inverter fit together.",
    "panel_side.fits_with_loss": "Panels and inverter fit together, at the cost of some energy.",
    "panel_side.not_known": "Whether panels and inverter fit together is not known: ratings are missing.",
    "socket_side.fits": "The socket's circuit fits as described.",
    "socket_side.fits_with_loss": "The socket's circuit fits as described, at the cost of some energy.",
    "socket_side.not_known": "Whether the socket's circuit fits is not known: part of it was not described.",
    "local_rule.fits": "It stays inside what was published for the place.",
    "local_rule.fits_with_loss": "It stays inside what was published for the place, at the cost of some energy.",
    "local_rule.not_known": "What was published for the place leaves questions open.",
    # conditions
    "condition.pay_at_most": "Pay no more than {amount:at_most} {currency} for everything together.",
    "condition.stay_longer": "Keep it longer than {kept_years:g} years, here or in the next home.",
    "condition.accept_the_risk": "Accept that with bad luck it does not pay itself back.",
    "condition.get_consent": "Ask the owner or co-owners, in writing.",
    "condition.ask_seller": "Ask the seller for the ratings that are missing: a photo of both labels will do.",
    "condition.ask_operator": "Ask the grid operator, in writing, what holds for a set like this.",
    "condition.ask_electrician": "Have an electrician look at what is open about the circuit.",
    "condition.tell_price": "Look up on the bill what one kWh costs you, and ask again.",
    "condition.tell_direction": "Look with a compass which way the panels will look, and ask again.",
    "condition.tell_coldest_air": "Look up the coldest air on record near you, and ask again with it.",
    "condition.tell_facade": "Look with a compass which way the facade behind looks, and ask again.",
    "condition.tell_mount": "Say how the panels will hang or stand, and ask again.",
    "condition.smaller_breaker": "Have an electrician change the circuit's breaker to {new_value} {unit}.",
    "condition.own_circuit": "Have an electrician give the set a circuit of its own.",
    "condition.own_neutral": "Have an electrician give the set a circuit and a neutral of its own.",
    "condition.own_circuit_and_lower_limit": "Have an electrician give the set a circuit of its own and set the "
    "inverter to {new_value} {unit}.",
    "condition.thicker_cable": "Have an electrician lay a thicker cable for the circuit: {new_value} {unit}.",
    "condition.own_circuit_and_thicker_cable": "Have an electrician give the set a circuit of its own, with a cable of "
    "{new_value} {unit}.",
    "condition.other_sets_elsewhere": "Have an electrician connect the other sets to other circuits.",
    "condition.other_sets_out": "Take other sets out of use, {out_w} W in all; what they gave is not counted here.",
    "condition.other_sets_out_and_lower_limit": "Take other sets out of use, {out_w} W in all, and set the inverter to "
    "{new_value} {unit}; what the others gave is not counted here.",
    "condition.other_meter": "Have the grid operator put in a meter that counts both ways, before plugging in.",
    "condition.thicker_or_shorter_lead": "Take a thicker or shorter lead: {new_value} {unit}.",
    "condition.thicker_or_shorter_lead.thicker": "Take a lead of {new_value} {unit}.",
    "condition.thicker_or_shorter_lead.shorter": "Take a lead of at most {new_value} {unit}.",
    "condition.lower_set_limit": "Set the inverter to {new_value} {unit}, and keep the proof.",
    "condition.one_panel_per_input": "Put each panel of {array} on an input of its own (input {to_inputs} too).",
    "condition.parallel_not_series": "Join the panels in parallel, with leads made for it.",
    "condition.matched_connectors": "Have both halves of each connection made of one maker and type.",
    "condition.string_fuses": "Have a fuse of {new_value} {unit} fitted for each row of panels.",
    "condition.export_limiter": "Fit a meter reader that holds the set back, so that nothing is sent out.",
    "condition.special_connector": "Have an electrician fit the special connector that the card names.",
    "condition.fixed_connection": "Have an electrician connect it for good, without a plug.",
    "condition.other_inverter": "Take an inverter with at least {new_value} {unit} here.",
    "condition.other_inverter.max_input_voltage_v": "Take an inverter whose inputs stand at least {new_value} {unit}.",
    "condition.other_inverter.max_short_circuit_current_a": "Take an inverter whose inputs stand a short-circuit "
    "current of at least {new_value} {unit}.",
    "condition.other_inverter.max_panel_short_circuit_current_a": "Take an inverter that admits panels with a "
    "short-circuit current of {new_value} {unit} on the label.",
    "condition.other_inverter.grid_voltage_v": "Take an inverter that is made for {new_value} {unit}.",
    "condition.other_inverter.max_panel_power_w": "Take an inverter whose maker admits {new_value} {unit} of panels an "
    "input.",
    "condition.other_panels": "Take panels whose label admits a system voltage of at least {new_value} {unit}.",
    "condition.like_panels": "Take panels of one kind for all strings of one input, as those of {array}.",
    "condition.weaker_panels": "Take panels of at most {new_value} {unit} each.",
    "condition.fewer_panels": "Connect fewer panels, as the remedy says.",
    "condition.other_residual_current_device": "Have an electrician fit a residual-current device that suits.",
}
