"""How is a small battery said: whether it pays, how it works, what it cannot know, what is not reckoned?"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "pays": "At {amount:.0f} {currency} the battery pays within {years:g} years, with bad luck too; it would up to "
    "{outlay} {currency}.",
    "pays.middle": "At {amount:.0f} {currency} the battery pays within {years:g} years in the middle case, not with "
    "bad luck; it would up to {outlay} {currency}.",
    "does_not_pay": "At {amount:.0f} {currency} the battery does not pay within {years:g} years. It would up to "
    "{outlay} {currency}.",
    "does_not_pay.luck": "At {amount:.0f} {currency} the battery does not pay within {years:g} years but with luck. In "
    "the middle case it would up to {outlay} {currency}.",
    "pays_up_to": "The battery's price was not given. Up to {outlay} {currency} it pays within {years:g} years.",
    "pays_up_to.luck": "The battery's price was not given. In the middle case it pays at no price within {years:g} "
    "years; with luck up to {lucky} {currency}.",
    "pays_at_no_price.not_kept": "The home is kept no time at all, so at no price does the battery pay.",
    "pays_at_no_price": "At no price does the battery pay within {years:g} years: it brings less than it takes.",
    "pays_at_no_price.left_off": "Left off, the battery brings nothing, so at no price does it pay.",
    "no_price_known": "No price per kWh is known, so nothing is said of what the battery brings.",
    "follows_the_meter": "It follows the meter: it takes what would be sent out and gives what would be bought. It "
    "gives about {given:.0f} kWh a year.",
    "feeds_all_night": "It reads no meter: production above {above:.0f} W charges it, and it feeds {feed:.0f} W all "
    "night until it is empty. It gives about {given:.0f} kWh a year, and {more:.0f} kWh more are used at home: the "
    "rest is fed when nobody wants it, or was taken when somebody did.",
    "feeds_all_night.less": "It reads no meter: production above {above:.0f} W charges it, and it feeds {feed:.0f} W "
    "all night until it is empty. It gives about {given:.0f} kWh a year, and still {less:.0f} kWh less are used at "
    "home: what it takes by day is wanted then.",
    "setting_chosen": "What was not said of its two powers was tried: {count} settings were run through this home's "
    "year, leaving it off among them. {feed:.0f} W by night with charging above {above:.0f} W brings the most use at "
    "home, {best:.0f} kWh a year; the next best brings {next:.0f}.",
    "left_off": "It reads no meter, and no setting that was tried adds to what is used at home: what it takes by day "
    "is wanted then. So it is reckoned as left off, and changes nothing.",
    "left_off.as_said": "With a night power of 0 W, or charging above 5000 W, the box does nothing. It is reckoned as "
    "left off, and changes nothing.",
    "lowers_self_use": "With these powers less is used at home than without the box. Set it to {feed:.0f} W by night "
    "and charging above {above:.0f} W: that adds {best:.0f} kWh a year.",
    "lowers_self_use.always": "With these powers less is used at home than without the box, and no other setting that "
    "was tried adds to it. A meter reader can mend that; else leave it off.",
    "lowers_self_use.narrow": "With it less is used at home than without. Wider inputs can mend that.",
    "narrow_inputs": "Through its inputs the panels give about {narrow:.0f} kWh a year less than through those of the "
    "inverter.",
    "over_charge_limit": "It charges no faster than its limit: about {over:.0f} kWh a year of surplus come above that "
    "and pass it by, room or not.",
    "coupling_dc": "It sits between the panels and the inverter and saves about {unclipped:.0f} kWh a year that the "
    "inverter's limit would cut.",
    "coupling_dc.nothing_cut": "It sits between the panels and the inverter.",
    "inputs_do_not_fit.cold_voltage": "Do not connect these panels to it: on the coldest morning they reach "
    "{measured:.1f} V, and an input of the box bears {limit:.1f} V. That destroys it.",
    "inputs_do_not_fit.short_circuit_current": "Do not connect these panels to it: their short-circuit current is to "
    "be reckoned as {measured:.1f} A, and an input of the box bears {limit:.1f} A.",
    "inputs_not_known.cold_voltage": "Whether its inputs bear the panels' voltage is not known. Read its greatest "
    "input voltage on its sheet before you connect a panel.",
    "inputs_not_known.short_circuit_current": "Whether its inputs bear the panels' short-circuit current is not known. "
    "Read the limit on its sheet before you connect a panel.",
    "inputs_fit.cold_voltage": "On the coldest morning the panels reach {measured:.1f} V, below the {limit:.1f} V that "
    "you gave for an input of the box.",
    "inputs_fit.short_circuit_current": "The panels' short-circuit current, reckoned as {measured:.1f} A, is below the "
    "{limit:.1f} A that you gave for an input of the box.",
    "coupling_ac": "It has a socket of its own, and what it feeds comes on top of the set's power there. Circuit and "
    "local rule were looked at for the set alone: ask about the battery before you plug it in.",
    "not_modelled": "Not reckoned: frost, a charge that slows near full, charging from the mains, a reader's delay, "
    "repairs, and selling it later.",
}
