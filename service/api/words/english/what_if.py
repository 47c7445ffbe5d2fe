"""What the set would give with one thing changed: a sentence for the change, one for what comes of it."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "one_panel_more.own_input": 'One panel more, standing as "{array}" does, on input {input} which is free.',
    "one_panel_more.parallel": 'One panel more in parallel on "{array}": {panels} on input {input}.',
    "one_panel_more.series": 'One panel more in series on "{array}": {panels} on input {input}.',
    "one_panel_fewer": 'One panel fewer: {panels} on "{array}".',
    "one_panel_fewer.none_left": 'One panel fewer: without "{array}".',
    "upright": '"{array}" upright instead of at {tilt_deg:.0f} degrees.',
    "leaned_out": '"{array}" leaned out at the foot to {new_tilt_deg:.0f} degrees instead of {tilt_deg:.0f}; only with '
    "a bracket that is made for it.",
    "outside_rail": '"{array}" hung outside of the railing instead of behind it, with nothing in front.',
    "other_limit": "The inverter set to {new_limit_w} W instead of {limit_w} W.",
    "tree_gone": 'Shadow {shade} of {of} on "{array}" gone.',
    "own_inputs": "Each of the {panels} panels on an input of its own.",
    "because.part_of_a_year": "The weather given is less than a year, and changed sets are told of whole years only.",
    "because.no_such_change": "The set admits none of the changes that are asked about.",
    "then": "The year gives {year_kwh:.0f} kWh ({year_change:+.0f}), of which {self_used_kwh:.0f} ({used_change:+.0f}) "
    "are used at home.",
    "verdict.fits": "It then fits.",
    "verdict.fits_with_loss": "It then fits with some loss.",
    "verdict.not_known": "Whether it then fits is not known: ask /v1/compatibility.",
    "verdict.does_not_fit": "Like that it does not fit: ask /v1/compatibility what is in the way.",
}
