"""What was checked, and how did it turn out? One sentence or two for each code, verdict and case.

Keys are ``code.verdict.variant``; the facts of a finding fill them, with its ``measured``, ``limit`` and ``unit``.
"""

from collections.abc import Mapping
from types import MappingProxyType

from service.api.words.english.cards import PUBLISHED as _PUBLISHED
from service.api.words.english.losses import TEXTS as _LOSSES

_NOT_FOUND = (
    "No rule in force was found for {area_asked} (card {area}, looked at on {checked_on}). Treat a plug connection as "
    "not permitted until the grid operator confirms it in writing."
)

PANEL_SIDE: Mapping[str, str] = {
    "cold_voltage.fits.estimated": "{array}: on the coldest morning (about {coldest_air_c:.0f} C, an estimate; "
    "{coldest_low_c:.0f} C is counted with too) the array gives {measured:.1f} V without load, {worst_v:.1f} V at "
    "worst; the input stands {limit:g} V.",
    "cold_voltage.fits": "{array}: on the coldest morning ({coldest_air_c:.0f} C) the array gives {measured:.1f} V "
    "without load; the input stands {limit:g} V.",
    "cold_voltage.does_not_fit": "{array}: on a cold bright morning ({coldest_air_c:.0f} C) the array gives "
    "{measured:.1f} V. That is more than the input stands and can destroy the inverter at once. Do not connect it "
    "this way.",
    "cold_voltage.does_not_fit.measured": "{array}: on a cold bright morning ({coldest_air_c:.0f} C) the array "
    "gives {measured:.1f} V; the input stands {limit:g} V. More can destroy the inverter at once. Do not connect it "
    "this way.",
    "cold_voltage.not_known.coldest": "{array}: on the coldest morning the array gives about {measured:.1f} V at "
    "{coldest_air_c:.0f} C, our estimate for the place, and {worst_v:.1f} V should it get {coldest_low_c:.0f} C there; "
    "the input stands {limit:g} V. Tell how cold it gets. Until then, do not connect it.",
    "cold_voltage.not_known": "{array}: at {coldest_air_c:.0f} C the array gives about {measured:.1f} V, at worst "
    "{worst_v:.1f} V. Whether the input stands that cannot be said before this is known: {missing}. Until then, do "
    "not connect it. The top of the tracking range is not the limit that is meant.",
    "matrix": "Each panel alone on an input of each inverter: volts, amperes and watts of the panel side. Socket, "
    "circuit, local rule and several panels on one input are not looked at.",
    "hot_voltage.fits": "{array}: with cells at {hottest_cell_c:.0f} C the array still works at {measured:.1f} V, "
    "within the inverter's range.",
    "hot_voltage.fits_with_loss": "{array}: with cells at {hottest_cell_c:.0f} C the array works at {measured:.1f} "
    "V, below the {limit:g} V that the inverter tracks from. Hot hours give less; nothing breaks.",
    "hot_voltage.fits_with_loss.above": "{array}: in cool bright hours the array works at {measured:.1f} V, above "
    "the {limit:g} V up to which the inverter tracks. Such hours give less; nothing breaks.",
    "hot_voltage.not_known.above": "{array}: in cool bright hours the array works at about {measured:.1f} V. Whether "
    "the inverter tracks as high hangs on this: {missing}.",
    "hot_voltage.not_known": "{array}: with cells at {hottest_cell_c:.0f} C the array works at about {measured:.1f} "
    "V. Whether the inverter still tracks there hangs on this: {missing}.",
    "start_voltage.fits": "{array}: in dim morning light the array reaches {measured:.1f} V, enough to start the "
    "inverter.",
    "start_voltage.fits_with_loss": "{array}: in dim morning light the array reaches {measured:.1f} V; the inverter "
    "starts at {limit:g} V. It starts late on many days; nothing breaks.",
    "start_voltage.fits_with_loss.over_the_year": "{array}: in dim morning light the array reaches {measured:.1f} V; "
    "the inverter starts at {limit:g} V. In {hours_not_started:d} hours of light a year it gives nothing; nothing "
    "breaks.",
    "start_voltage.fits_with_loss.seldom_starts": "{array}: the array hardly ever reaches the {limit:g} V at which "
    "the inverter starts: it would yield next to nothing. Nothing breaks; another panel or two in series would help.",
    "start_voltage.not_known": "{array}: in dim morning light the array reaches about {measured:.1f} V. Whether the "
    "inverter starts then hangs on this: {missing}.",
    "system_voltage.fits": "{array}: the string of the array stays at {measured:.1f} V, below the {limit:g} V that "
    "its panels are insulated for.",
    "system_voltage.does_not_fit": "{array}: the string of the array reaches {measured:.1f} V; its panels are "
    "insulated for {limit:g} V only. Do not wire it so.",
    "system_voltage.not_known.rated": "{array}: the string of the array reaches about {measured:.1f} V, at worst "
    "{worst_v:.1f} V; its panels are insulated for {limit:g} V. Whether that is enough hangs on this: {missing}.",
    "system_voltage.not_known": "{array}: the string of the array reaches about {measured:.1f} V; for how much its "
    "panels are insulated is not known. Ask for: {missing}.",
    "operating_current.fits": "The panels work at {measured:.1f} A; the input draws up to {limit:g} A.",
    "operating_current.fits_with_loss": "The panels could give {measured:.1f} A; the input draws {limit:g} A at "
    "most. Bright hours give less, and that is all: nothing is harmed.",
    "operating_current.fits_with_loss.over_the_year": "The panels could give {measured:.1f} A; the input draws "
    "{limit:g} A at most. Over all inputs {lost_kwh:.0f} kWh a year stay undrawn by it, and that is "
    "all: nothing is harmed.",
    "operating_current.fits_with_loss.over_the_year_worth": "The panels could give {measured:.1f} A; the input draws "
    "{limit:g} A at most. Over all inputs {lost_kwh:.0f} kWh a year stay undrawn by it, worth about {lost_money:.2f} "
    "{currency}, and that is all: nothing is harmed.",
    "operating_current.not_known": "The panels work at about {measured:.1f} A. Whether the input draws all of it "
    "hangs on this: {missing}.",
    "short_circuit_current.fits": "In the brightest moments the panels can push {measured:.1f} A; the input stands "
    "{limit:g} A.",
    "short_circuit_current.fits.label": "The panels' short-circuit current is {measured:.1f} A on the label; the "
    "maker of the inverter admits panels of up to {limit:g} A.",
    "short_circuit_current.does_not_fit": "In the brightest moments the panels can push {measured:.1f} A into a "
    "failed input, more than it stands. That can burn the inverter. Do not connect it this way.",
    "short_circuit_current.does_not_fit.absolute": "In the brightest moments the panels can push {measured:.1f} A "
    "into a failed input; it stands {limit:g} A. More can burn the inverter. Do not connect it this way.",
    "short_circuit_current.does_not_fit.either": "Whatever the inverter's short-circuit figure of {limit:g} A "
    "means, these panels push more: {measured:.1f} A in the brightest moments. Do not connect it this way.",
    "short_circuit_current.does_not_fit.label": "The panels' short-circuit current is {measured:.1f} A on the "
    "label; the maker of the inverter admits no more than {limit:g} A. Do not connect it this way.",
    "short_circuit_current.not_known": "In the brightest moments the panels can push about {measured:.1f} A. "
    "Whether the input stands that cannot be said before this is known: {missing}. The operating limit does not "
    "stand in for it.",
    "short_circuit_current.not_known.label": "The panels' short-circuit current is about {measured:.1f} A on the "
    "label. Whether the inverter admits it cannot be said before this is known: {missing}.",
    "short_circuit_current.not_known.either": "The inverter's short-circuit figure may be the most that the input "
    "survives, or the largest panel's label value. By the second reading these panels fit, by the first they push "
    "{measured:.1f} A and do not. Ask the maker which is meant before connecting.",
    "reverse_current.fits": "{array}: if a panel of the array fails, the other strings push {measured:.1f} A back "
    "through it; it is made for a fuse of {limit:g} A.",
    "reverse_current.does_not_fit": "{array}: if a panel of the array fails, the other strings push {measured:.1f} "
    "A back through it; it is made for a fuse of {limit:g} A and could burn. Do not connect so many without string "
    "fuses.",
    "reverse_current.fits.fused": "{array}: if a panel of the array fails, the fuse in its string lets {measured:g} A "
    "by at most; the panel is made for {limit:g} A.",
    "reverse_current.does_not_fit.fused": "{array}: the fuse in its string lets {measured:g} A by, the panel is made "
    "for {limit:g} A at most and could burn if it fails. Do not connect it this way.",
    "reverse_current.does_not_fit.small_fuse": "{array}: a fuse of {measured:g} A in the string may open in plain sun. "
    "It wants {least_fuse_a:.1f} A at least.",
    "reverse_current.not_known.fused": "{array}: if a panel of the array fails, the fuse in its string lets "
    "{measured:g} A by. Whether the panel stands that hangs on this: {missing}.",
    "reverse_current.not_known.small_fuse": "{array}: whether the fuse of {measured:g} A in the string holds in plain "
    "sun and protects the panel hangs on this: {missing}.",
    "reverse_current.not_known": "{array}: if a panel of the array fails, the other strings push about "
    "{measured:.1f} A back through it. Whether it stands that hangs on this: {missing}.",
    "panel_power.fits": "{measured:.0f} W of panels on this input; the maker's figure is {limit:.0f} W.",
    "panel_power.fits.recommended_above": "{measured:.0f} W of panels on this input is more than the {limit:.0f} W "
    "that the maker recommends. That is advice, not a limit: the surplus is simply not drawn.",
    "panel_power.does_not_fit": "{measured:.0f} W of panels on this input is more than the {limit:.0f} W that the "
    "maker states as maximum: outside his terms, although volts and amperes may fit.",
    "panel_power.not_known": "{measured:.0f} W of panels on this input is more than the {limit:.0f} W that the "
    "maker prints. Ask whether that is a maximum or a recommendation.",
    "unlike_panels.does_not_fit.unlike_voltages": "{arrays} lie in parallel on one input with {voltages_v} V, "
    "{measured:.0f} % apart; strings in parallel may differ by {limit:g} % at most. Whenever the inverter draws "
    "nothing, the stronger one drives its current backwards through the weaker. Do not connect them this way.",
    "unlike_panels.not_known.unlike_voltages": "{arrays} lie in parallel on one input with about {voltages_v} V. They "
    "may differ by {limit:g} % at most; whether they do hangs on this: {missing}. Until then, do not connect them.",
    "unlike_panels.fits": "The arrays {arrays} share one input and lose {measured:.1f} % by it: next to nothing.",
    "unlike_panels.fits.alike": "The arrays {arrays} share one input and are alike: they lose next to nothing by it.",
    "unlike_panels.fits_with_loss": "The arrays {arrays} share one input and are unlike: in full sun that costs "
    "{measured:.0f} % of their power. An input for each would save it.",
    "unlike_panels.fits.string": "The arrays {arrays} are one string and lose {measured:.1f} % by it: next to nothing.",
    "unlike_panels.fits_with_loss.string": "The arrays {arrays} are one string of unlike panels, and the weaker "
    "current binds all: in full sun that costs {measured:.0f} % of their power. An input for each would save it.",
    "unlike_panels.fits_with_loss.string_planes": "The arrays {arrays} are one string and look different ways: at "
    "every hour the darker one binds the other or is passed by. In full sun on both it costs {measured:.0f} %; over "
    "the year more. An input for each would save it.",
    "unlike_panels.not_known.bypass_diodes": "The arrays {arrays} are one string. When the weaker panel is passed by, "
    "its bypass diodes carry up to {measured:.1f} A of the stronger; they are tested to {limit:.1f} A. Hot diodes in "
    "the junction box can burn. Ask its maker before connecting, or give each panel an input of its own.",
    "unlike_panels.not_known": "The arrays {arrays} share one input; what that costs hangs on this: {missing}.",
    "input_count.not_known": "{measured:.0f} inputs are used here. Whether there are so many cannot be said before "
    "this is known: {missing}.",
    "input_count.fits": "{measured:.0f} of {limit:.0f} inputs are used.",
    "input_count.fits.branch_leads": "There are more strings than connector pairs: {branch_leads} branch leads of "
    "the same make are needed.",
    "datasheet_sanity.fits": "{array}: the printed values of the array agree with each other.",
    "datasheet_sanity.not_known": "{array}: the printed values of the array contradict each other ({doubts}). Read "
    "the label again before trusting anything that rests on them.",
    "datasheet_sanity.not_known.voltages_swapped": "{array}: the voltage at maximum power is printed above the "
    "open-circuit voltage. The values contradict each other, perhaps swapped; read the label again.",
    "datasheet_sanity.not_known.currents_swapped": "{array}: the current at maximum power is printed above the "
    "short-circuit current. The values contradict each other, perhaps swapped; read the label again.",
    "datasheet_sanity.not_known.half_cells_counted": "{array}: {measured:.2f} V a cell is half of what a cell "
    "gives. Half-cut cells count half: 144 half cells are 72 in series.",
    "datasheet_sanity.not_known.voc_coefficient": "{array}: {measured:g} % per kelvin for the open-circuit voltage is "
    "outside what panels have ({low:g} to {high:g}). Perhaps it is a share, or in another unit; read the sheet again, "
    "as the voltage in the cold rests on it.",
    "connectors.does_not_fit.older_unlocked": "{array}: the connectors of the array do not lock and can come apart "
    "under load, which draws an arc. Have both halves replaced by one locking type and make.",
    "connectors.does_not_fit.bare": "{array}: the leads of the array are bare. Have matching locking connectors "
    "crimped on with the proper tool; never twist or clamp direct-current leads.",
    "connectors.fits.same_make": "{array}: the connectors of panels and inverter are of one make and type ({make}).",
    "connectors.does_not_fit.other_make": "{array}: the panels' connectors are {make}, the inverter's {inverter_make}. "
    "Pairs of different makes were never tested together and can heat up or draw an arc, even where they click.",
    "connectors.does_not_fit": "{array}: the connectors of the array must not be used as they are.",
    "connectors.not_known": "{array}: the array has an older locking connector. Ask which make and type mates with "
    "it; both halves must be of one make.",
}

SOCKET_SIDE: Mapping[str, str] = {
    "circuit_cable.fits": "Breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together make {measured:.1f} A; the "
    "cable may carry {limit:.1f} A ({table}, method {method}, {ambient_c:g} C).",
    "circuit_cable.fits.shared_over_range": "Breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together make "
    "{measured:.1f} A; even at {ambient_c:g} C of air around it the cable may carry {limit:.1f} A ({table}, method "
    "{method}). How warm it gets there was not said; from {ambient_from_c:g} to {ambient_to_c:g} C the answer is the "
    "same.",
    "circuit_cable.fits.own_circuit_over_range": "On a circuit of its own the larger of breaker and set counts: "
    "{measured:.1f} A; even at {ambient_c:g} C of air around it the cable may carry {limit:.1f} A ({table}, method "
    "{method}). How warm it gets there was not said; from {ambient_from_c:g} to {ambient_to_c:g} C the answer is the "
    "same.",
    "circuit_cable.fits.own_circuit": "On a circuit of its own the larger of breaker and set counts: {measured:.1f} A; "
    "the cable may carry {limit:.1f} A ({table}, method {method}, {ambient_c:g} C).",
    "circuit_cable.fits.shared_neutral": "Another circuit returns through this neutral, and no breaker sits in it: "
    "breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together make {measured:.1f} A; it may carry {limit:.1f} A "
    "({table}, method {method}, {ambient_c:g} C).",
    "circuit_cable.does_not_fit.shared_neutral": "Another circuit returns through this neutral, and no breaker sits in "
    "it: breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together can push {measured:.1f} A through it, and it "
    "may carry {limit:.1f} A ({table}, method {method}, {ambient_c:g} C). Have an electrician mend the circuit before "
    "plugging in.",
    "circuit_cable.does_not_fit": "Breaker and set together can push more through the cable than it may carry, and no "
    "breaker would see it. Have an electrician mend the circuit before plugging in.",
    "circuit_cable.does_not_fit.shared": "Breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together can push "
    "{measured:.1f} A through a cable that may carry {limit:.1f} A ({table}, method {method}, {ambient_c:g} C), and no "
    "breaker would see it. Have an electrician mend the circuit before plugging in.",
    "circuit_cable.does_not_fit.shared_over_range": "Breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together can "
    "push {measured:.1f} A through a cable that may carry {limit:.1f} A even at {ambient_c:g} C of air around it "
    "({table}, method {method}) and less where it is warmer, and no breaker would see it. Have an electrician mend the "
    "circuit before plugging in.",
    "circuit_cable.does_not_fit.own_circuit_over_range": "Even on a circuit of its own {measured:.1f} A are more than "
    "the cable may carry: {limit:.1f} A at {ambient_c:g} C of air around it ({table}, method {method}), less where it "
    "is warmer. Have an electrician look at it.",
    "circuit_cable.does_not_fit.own_circuit": "Even on a circuit of its own {measured:.1f} A are more than the cable "
    "may carry: {limit:.1f} A ({table}, method {method}, {ambient_c:g} C). Have an electrician look at it.",
    "circuit_cable.does_not_fit.neutral_admitted_elsewhere": "Another circuit returns through this neutral, and no "
    "breaker sits in it: breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together can push {measured:.1f} A "
    "through it, and it may carry {limit:.1f} A ({table}, method {method}, {ambient_c:g} C). Two published rules "
    "disagree here: the {admitted_by}, published on {admitted_on}, admits such a set by plug; the wiring standard "
    "refuses it. Ask an electrician, and mend the circuit first.",
    "circuit_cable.does_not_fit.admitted_elsewhere": "Breaker ({breaker_a:g} A) and set ({fed_in_a:.2f} A) together "
    "can push {measured:.1f} A through a cable that may carry {limit:.1f} A ({table}, method {method}, {ambient_c:g} "
    "C). Two published rules disagree here: the {admitted_by}, published on {admitted_on}, admits such a set by plug; "
    "the wiring standard refuses it on this cable. Ask an electrician, and mend the circuit first.",
    "circuit_cable.not_known": "Whether the cable bears breaker and set together cannot be said before this is known: "
    "{missing}. Until then, do not plug in.",
    "grid_voltage.fits": "The inverter is made for {measured:g} V, and the socket has {limit:g} V.",
    "grid_voltage.does_not_fit": "The inverter is made for {measured:g} V; the socket has {limit:g} V. It will not run "
    "there, and its plug must not be changed for one that fits.",
    "grid_voltage.not_known": "The inverter is made for {measured:g} V. Whether the socket has that hangs on this: "
    "{missing}.",
    "lead_voltage_rise.fits": "The lead lifts the voltage by {measured:.1f} % and turns {eaten_w:.1f} W to heat "
    "at full output, {heat_w_per_m:.2f} W a metre of lead: at most {most_lost_kwh_per_1000_kwh:.1f} of 1000 kWh.",
    "lead_voltage_rise.fits_with_loss": "The lead lifts the voltage by {measured:.1f} % and turns {eaten_w:.1f} W to "
    "heat at full output, {heat_w_per_m:.2f} W a metre of lead: at most {most_lost_kwh_per_1000_kwh:.1f} of 1000 kWh. "
    "Above {limit:g} % the inverter cuts out sooner when the grid runs high.",
    "lead_voltage_rise.not_known": "The lead alone lifts the voltage by {measured:.1f} %; what the cable before it "
    "adds hangs on this: {missing}.",
    "lead_voltage_rise.does_not_fit": "The set sends {current_a:.1f} A through a lead of {lead_mm2:g} mm2 that may "
    "carry {lead_may_carry_a:g} A. Use a thicker one.",
    "residual_current.fits": "A residual-current device of this type ({device}) works with a set behind it where the "
    "inverter's maker proves that no smooth direct current can leak; look for that in the sheet.",
    "residual_current.fits.type_b": "A residual-current device of type B works with a set behind it.",
    "residual_current.fits.maker_asks_type_a": "The residual-current device ({device}) is of the kind that the "
    "inverter's maker asks for, or better.",
    "residual_current.does_not_fit.maker_asks_type_b": "The inverter's maker asks for a residual-current device of "
    "type B; this one ({device}) can be blinded. Have an electrician fit type B before plugging in.",
    "residual_current.does_not_fit.type_ac": "A residual-current device of type AC can be blinded by the direct "
    "current that an inverter leaks. Have an electrician fit the type that the inverter's maker asks for; where he "
    "says nothing, type A on his proof, else type B.",
    "residual_current.does_not_fit.one_way": "This residual-current device must not be fed from behind; it can fail "
    "unnoticed. Have an electrician replace it.",
    "residual_current.does_not_fit.none": "There is no residual-current device. Have an electrician fit one before "
    "plugging in.",
    "residual_current.does_not_fit": "The residual-current device does not suit. Have an electrician replace it.",
    "residual_current.not_known": "Which residual-current device protects the socket is not known. Read its label "
    "(type A, AC, B) or ask an electrician before plugging in.",
}

LOCAL_RULE: Mapping[str, str] = {
    "local_cap.fits": "{measured:.0f} W of inverter output, counted per {scope}, is within the {limit:.0f} {unit} "
    f"published for {{area}}. {_PUBLISHED}",
    "local_cap.does_not_fit": "{measured:.0f} W of inverter output, counted per {scope}, is outside the {limit:.0f} "
    f"{{unit}} published for {{area}}. {_PUBLISHED}",
    "local_cap.not_known": "Whether {measured:.0f} W is within what was published for {area} is open. "
    f"{_PUBLISHED}",
    "local_cap.not_known.other_set_open": "Whether this set and the other ones stay within the {limit:.0f} {unit} "
    f"published for {{area}} hangs on the output of another set, which was not said. {_PUBLISHED}",
    "local_cap.not_known.building": "{measured:.0f} W is within the {limit:.0f} {unit} published for {area}, but these "
    f"count for the whole building, and its other sets were not said. {_PUBLISHED}",
    "local_cap.not_known.none_found": "No cap on the output of a plug-in set was found for {area}. That is no "
    f"permission: ask the grid operator in writing. {_PUBLISHED}",
    "local_cap.not_known.no_card_in_force": _NOT_FOUND,
    "local_cap.not_known.conditional": "{measured:.0f} W is above the {limit:.0f} {unit} published for {area} without "
    f"more; above that a condition is named: {{condition}}. {_PUBLISHED}",
    "local_cap.not_known.plug_not_described": "{measured:.0f} W is outside the {limit:.0f} {unit} published for a "
    f"household plug in {{area}}; other connections have another figure. {_PUBLISHED}",
    "panel_cap.fits": "{measured:.0f} W of panels is within the {limit:.0f} W published for {area}. "
    f"{_PUBLISHED}",
    "panel_cap.does_not_fit": "{measured:.0f} W of panels is outside the {limit:.0f} W published for this plug in "
    f"{{area}} ({{basis}}). {_PUBLISHED}",
    "panel_cap.not_known": "{measured:.0f} W of panels is outside the {limit:.0f} W published for a household plug in "
    f"{{area}} ({{basis}}); other connections have a higher figure. Say how the set is connected. {_PUBLISHED}",
    "panel_cap.not_known.other_set_open": "Whether the panels of this set and the other ones stay within the "
    f"{{limit:.0f}} W published for {{area}} hangs on the panels of another set, which were not said. {_PUBLISHED}",
    "panel_cap.not_known.no_card_in_force": _NOT_FOUND,
    "plug.fits": "The card for {area} admits this kind of plug, with its conditions: {statement} {notes} "
    f"{_PUBLISHED}",
    "plug.does_not_fit": f"The card for {{area}} does not admit this kind of plug: {{statement}} {_PUBLISHED}",
    "plug.does_not_fit.fixed_wiring_only": "The card for {area} admits fixed wiring by an electrician only: "
    f"{{statement}} Never fit a household plug to such a set. {_PUBLISHED}",
    "plug.not_known": "The card for {area} leaves open by which plug a set may be connected. Treat a plug as not "
    f"permitted until the grid operator confirms it in writing. {_PUBLISHED}",
    "plug.not_known.no_card_in_force": _NOT_FOUND,
    "registration.fits": f"To be told: {{who}}, {{when}}. Cost: {{cost}}. {_PUBLISHED}",
    "registration.fits.none_asked": f"No notice is asked for by the card for {{area}}: {{when}}. {_PUBLISHED}",
    "registration.not_known": "Who has to be told is not settled for {area_asked}. Ask the grid operator in writing, "
    f"before buying. Read so far: {{who}}, {{when}}. {_PUBLISHED}",
    "certificate.fits": f"The papers named ({{given}}) are those that the card for {{area}} expects. {_PUBLISHED}",
    "certificate.not_known": "The card for {area} expects {expected}; not shown so far: {not_shown}. An inverter "
    f"without proof of grid protection may go on feeding in a power cut. Ask for the papers. {_PUBLISHED}",
    "meter.fits": f"The meter suits what was published for {{area}}: {{published_metering}} {_PUBLISHED}",
    "meter.fits.two_way": "The meter counts both ways.",
    "meter.does_not_fit": "A counter that runs backwards is not admitted by the card for {area}: "
    f"{{published_metering}} Ask the operator to swap it first. {_PUBLISHED}",
    "meter.not_known": "Ask the grid operator about the meter before plugging in. The card for {area} says: "
    f"{{published_metering}} {_PUBLISHED}",
    "meter.not_known.one_way": "A meter that counts one way may bill what you send out as if you had bought it. Ask "
    f"the grid operator before plugging in. The card for {{area}} says: {{published_metering}} {_PUBLISHED}",
}

_LITTLE = "next_to_nothing.fits_with_loss"
_LITTLE_IN = {
    "all": "{array}: next to nothing comes of it.",
    "half_year": "{array}: next to nothing comes of it in half of the year, months {from_month} to {to_month}.",
}
_LITTLE_LEFT = (
    "Of {light_kwh:.0f} kWh that its rated power would give in all the light on the bare plane, {measured:.1f} are "
    "left. Most, {taken_kwh:.0f} kWh, is "
)
_NOT_STARTED = " In {hours_not_started:d} hours with light the inverter does not start or finds no working point."
OF_THE_YEAR: Mapping[str, str] = {
    f"{_LITTLE}.{when}.{code}": f"{said} {_LITTLE_LEFT}{lost}.{_NOT_STARTED if code == 'voltage_window' else ''}"
    for when, said in _LITTLE_IN.items()
    for code, lost in _LOSSES.items()
}

TEXTS: Mapping[str, str] = MappingProxyType({**PANEL_SIDE, **SOCKET_SIDE, **LOCAL_RULE, **OF_THE_YEAR})
