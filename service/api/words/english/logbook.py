"""What is said of a log: the conclusion, gaps, oddities of the rows, causes and where to look.

``cause.*`` is a cause in a few words, ``suspect.*`` what the log shows of it, ``look.*`` what to look at.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "conclusion.nothing_unusual": "Nothing unusual.",
    "conclusion.something_wrong": "Something is wrong.",
    "conclusion.cannot_tell": "This log cannot tell.",
    "because.cause_found": "The log has the marks of a fault, the likeliest being this: {cause} ({sure_pct:.0f} % "
    "sure). Look at what is named beside it before you take anything apart.",
    "because.cause_found.vague": "The log does not look like that of a sound set, but no single cause stands out: "
    "likeliest {cause} ({sure_pct:.0f} % sure). A longer log, or the weather of those days, would tell more.",
    "because.gives_nothing": "The set gives nothing: since {since} every row by day is nought, {silent_days} days "
    "on end, on which even a dull sky would have shown something. Is it unplugged, a breaker or the socket off, the "
    "inverter's lamp dark, the meter dead, or snow on all panels?",
    "because.turned_clamp": "All values are below nought: the meter's clamp or its two leads are turned, so that it "
    "shows what is made as drawn. They were read with the sign turned. Turn the clamp with the power off, or have the "
    "meter turn the sign.",
    "because.input_gives_nothing": "One input gives nothing while another gives. {silence}",
    "because.input_gives_little": "One input gives far less than it should beside another. {silence}",
    "because.was_off": "{off} In the time in which it ran it gave {ratio_pct:.0f} % of what was to be expected, and "
    "nothing else stands out.",
    "also.worth": "That was worth some {not_made_worth:.0f} {currency}.",
    "also.off": "On {days} days it was off or not connected: about {kwh:.0f} kWh were not made.",
    "also.off.one": "On one day it was off or not connected: about {kwh:.1f} kWh were not made.",
    "also.not_logged": "Of {days} days nothing was logged: about {kwh:.0f} kWh are not in the log.",
    "also.not_logged.one": "Of one day nothing was logged: about {kwh:.1f} kWh are not in the log.",
    "because.not_a_solar_log": "So much of this log's energy lies in the dark that it is none of panels alone, "
    "by whatever full hours the clock is put right. Is it another meter's, or that of a store? "
    "Nothing is reckoned from it.",
    "because.store_behind_it": "What this log holds in the dark is at one power until it stops, as a store gives it "
    "that the panels have filled. Such a log tells of the store, not of the sun: send what goes into the store, or "
    "what the panels give before it. Nothing is reckoned from it.",
    "because.may_lie_under_snow": "The set has given nothing since {since}, {silent_days} days on end, in months in "
    "which snow may lie on the panels: that alone explains it. Look at them; never climb for it. If they are free, see "
    "to plug, breaker and the inverter's lamp.",
    "because.clear_days_are_right": "Nothing stands out: on days that tell the set's level (clear ones, or those whose "
    "weather is known) it gave what a sound set gives. A fault that takes {visible_pct:.0f} % and more would most "
    "likely have shown. In the sum it gave {ratio_pct:.0f} % of what the season brings, which so few days leave open.",
    "because.less_than_expected": "The set gave {ratio_pct:.0f} % of what was to be expected in exactly the time "
    "logged, less than weather and the doubts of label and model explain, and no single cause stands out. Look for "
    "shade, dirt and an input that gives nothing.",
    "because.within_band": "The set gave {ratio_pct:.0f} % of what was to be expected in exactly the time logged, and "
    "nothing stands out. That is the usual case. A shortfall of less than about {visible_pct:.0f} % would not show in "
    "such a log.",
    "because.within_band.low": "The set gave {ratio_pct:.0f} % of what was to be expected in exactly the time logged: "
    "lower than expected, but the weather and the doubts of label and model may be all of it, and no cause stands out. "
    "A shortfall of less than about {visible_pct:.0f} % would not show in such a log. If it stays so low, look for "
    "dirt and shade.",
    "because.more_than_expected": "The set gave {ratio_pct:.0f} % of what was to be expected, more than it can by what "
    "is said of it. Please check rated power, number of panels, planes and the unit of the log.",
    "because.weather_hides_it": "The set gave {ratio_pct:.0f} % of what was to be expected in the time logged, but "
    "over so few days weather alone can hide a shortfall of up to {visible_pct:.0f} %. Send a longer log, the weather "
    "of those days, or logs of neighbours.",
    "because.too_little_logged": "Too little was logged to say anything. Send at least some days of rows by day.",
    "basis.climate": "Compared with what the climate gives in those hours of the year. The weather of those days is "
    "not known, which makes the band wide; weather of your own or logs of neighbours make it narrow.",
    "basis.weather": "Compared with what the given weather makes of this set, hour by hour.",
    "basis.weather_in_part": "The given weather tells of a part of the log only: there it was compared with what "
    "that makes of this set, and with what the climate gives everywhere else, which keeps the band wide.",
    "basis.peers": "Compared with the neighbours' sets day by day, which see the same sky.",
    "gap.connection_lost": "Nothing was logged here. Most likely only the connection was lost: about {missed_kwh:.1f} "
    "kWh are not in the log. Whether the set ran, its own counter tells.",
    "gap.connection_lost.regained": "Nothing was logged here, but the counter ran on: its jump at the end, "
    "{regained_kwh:.1f} kWh, is spread over the gap and is no peak.",
    "gap.set_off": "The set gave nothing here, although even a dull day would have shown something: about "
    "{missed_kwh:.1f} kWh were not made. Was it unplugged, a breaker off, the grid out, or snow on it?",
    "gap.unknown": "Nothing was logged here, and the log cannot tell whether the set ran; up to some {missed_kwh:.1f} "
    "kWh are missing.",
    "input_gap.connection_lost": "The log of input {input} lacks this stretch, while another input was logged: about "
    "{missed_kwh:.1f} kWh of this input are not in the sum. What the others gave counts.",
    "input_gap.connection_lost.regained": "Of input {input} nothing was logged here, but its counter ran on: its jump "
    "at the end, {regained_kwh:.1f} kWh, is spread over the gap and is no peak.",
    "input_gap.set_off": "The counter of input {input} stood still here, while another input was logged: about "
    "{missed_kwh:.1f} kWh were not made. Was it unplugged?",
    "input_gap.unknown": "Of input {input} nothing was logged here, and its counter cannot tell whether it ran; up to "
    "some {missed_kwh:.1f} kWh of it are missing.",
    # of the rows
    "note.empty_rows": "{count} rows hold no value and count as not logged.",
    "note.empty_rows.one": "One row holds no value and counts as not logged.",
    "note.unordered": "The rows are not in order of time; they were sorted ({count} steps back).",
    "note.duplicates": "{count} rows stand twice with the same value; each counts once.",
    "note.duplicates.one": "One row stands twice with the same value; it counts once.",
    "note.disputed": "{count} times stand with different values, first {first}; none of them was used.",
    "note.disputed.one": "{first} stands with different values; none of them was used.",
    "note.below_zero": "{count} values lie a little below nought, as meters show the inverter's own draw by night; "
    "they count as nought.",
    "note.below_zero.one": "One value lies a little below nought, as meters show the inverter's own draw by night; it "
    "counts as nought.",
    "note.impossible": "{count} values cannot be: more than the inverter can give in that time, or below nought by "
    "more than it draws. They count as not logged.",
    "note.impossible.one": "One value cannot be: more than the inverter can give in that time, or below nought by "
    "more than it draws. It counts as not logged.",
    "note.unit_too_large": "{count} values ({dates}) are a thousand times what the set can give: they are in the "
    "smaller unit, Wh for kWh or W for kW, and were divided by a thousand. Please check the unit.",
    "note.unit_too_small": "{count} values ({dates}) are a thousandth of what the set gives: they are in the larger "
    "unit, kWh for Wh or kW for W, and were multiplied by a thousand. Please check the unit.",
    "note.unit_in_doubt": "{count} values ({dates}) are about a thousandth or a thousand times what was to be "
    "expected, and whether they are in another unit or the set was next to off cannot be told. They count as not "
    "logged. Please send these days in the unit of the others.",
    "note.more_than_told.one": "The set gave {percent:.0f} % of what it can by what is said of it: it may be described "
    "wrongly. Please check rated power, number of panels, how they hang on their inputs and the volts of these, planes "
    "and the unit of the log. Every value that the inverter's rating allows counts as it stands.",
    "note.too_much_for_the_sun": "{count} values are more than the sun can give this set in that time, such as "
    "{kwh:.1f} kWh from {dates} on: a digit too many, or a comma lost? They count as not logged.",
    "note.too_much_for_the_sun.one": "{kwh:.1f} kWh from {dates} on is more than the sun can give this set in that "
    "time: a digit too many, or a comma lost? It counts as not logged.",
    "note.far_below_the_others": "{count} months lie below a fifth of what the others let expect, such as {kwh:.1f} "
    "kWh from {dates} on: a digit lost, or was the set off? They count as they stand.",
    "note.far_below_the_others.one": "{kwh:.1f} kWh from {dates} on is below a fifth of what the other months let "
    "expect: a digit lost, or was the set off? It counts as it stands.",
    "note.counter_daily": "The counter begins each day at nought; it was read day by day.",
    "note.counter_reset": "The counter was set back {count} times, first before {first}. What came between the last "
    "reading and that is not known: at least {at_least_kwh:.2f} kWh are counted.",
    "note.counter_reset.one": "The counter was set back before {first}. What came between the last reading and that is "
    "not known: at least {at_least_kwh:.2f} kWh are counted.",
    "note.counter_spikes": "{count} readings stand out and are taken back by the next; they were dropped.",
    "note.counter_spikes.one": "One reading stands out and is taken back by the next; it was dropped.",
    "note.counter_slipped": "The counter slips back by a trifle {count} times; that counts as no change.",
    "note.counter_slipped.one": "The counter slips back by a trifle once; that counts as no change.",
    "note.counter_jump": "The counter jumps {count} times by more than the set can have made; the jumps were left out.",
    "note.counter_jump.one": "The counter jumps once by more than the set can have made; the jump was left out.",
    "note.lost_rows": "{count} single rows by day are missing; they would hold about {kwh:.2f} kWh, not in the sum.",
    "note.lost_rows.one": "One row by day is missing; it holds about {kwh:.2f} kWh, which are not in the sum.",
    "note.input_gaps": "The log of input {input} lacks {count} stretches, {days:.1f} days together, in which another "
    "input was logged: about {kwh:.1f} kWh of input {input} are not in the sum; what the others gave meanwhile counts.",
    "note.input_gaps.one": "The log of input {input} lacks a stretch of {days:.1f} days in which another input was "
    "logged: about {kwh:.1f} kWh of input {input} are not in the sum; what the others gave meanwhile counts.",
    "note.input_lost_rows": "Of input {input} {count} single rows by day are missing; they would hold about "
    "{kwh:.2f} kWh, not in the sum.",
    "note.input_lost_rows.one": "Of input {input} one row by day is missing; it holds about {kwh:.2f} kWh, which are "
    "not in the sum.",
    "note.input_without_log.one": "Input {input} has panels, but no log of it was sent: what was to be expected is "
    "that of the other inputs alone.",
    "note.inputs_apart.one": "Input {input} gives {percent:.0f} % of what it should beside input {other}, first seen "
    "on {since}: more than their days lie apart otherwise ({spread:.0f} %). Look for dirt, shade and plugs there.",
    "note.nights_left_out": "{count} stretches without sun were not logged; they are no gaps.",
    "note.nights_left_out.one": "One stretch without sun was not logged; it is no gap.",
    "note.more_gaps": "{count} more gaps are not listed; the largest are.",
    "note.by_night": "{percent:.0f} % of the energy lies in hours in which the sun is down: the clock or its zone is "
    "wrong, or the values are not those of a solar set.",
    "note.not_a_solar_log": "{percent:.0f} % of the energy in the dark is more than any clock explains: these are not "
    "the values of panels alone.",
    "note.store_behind_it": "{percent:.0f} % of the energy lies in the dark, at one power until it stops: that is a "
    "store's, not the sun's.",
    "note.turned_clamp": "{count} values lie below nought and next to none above: their sign was turned.",
    "note.clock_set_right": "The log's clock is {fast_by_h} hours ahead of the sun (behind it, where below nought): "
    "all {count} times were set right before anything else was looked at.",
    "note.wall_clock": "{count} times have no offset and were read on the wall clock of the site, summer time in.",
    "note.standard_time": "{count} times have no offset and keep standard time all year: they name an hour that the "
    "wall clock skips, or the sun's noon stays at one hour of theirs when the clock is put on or back. All were read "
    "in standard time.",
    "note.hour_twice": "{count} times fall in the hour that the wall clock runs through twice; of two equal ones the "
    "second was read as the later.",
    # a letter after the first year
    "letter.less": "Over the same days as a year ago the set gave {percent:.0f} % less than its light explains "
    "({after_kwh:.0f} kWh, {before_kwh:.0f} a year before).",
    "letter.more": "Over the same days as a year ago the set gave {percent:.0f} % more ({after_kwh:.0f} kWh, "
    "{before_kwh:.0f} a year before).",
    "letter.about_the_same": "Over the same days as a year ago the set gave about the same ({after_kwh:.0f} kWh, "
    "{before_kwh:.0f} a year before).",
    "letter.about_the_same.a_cause": "Over the same days as a year ago the set gave {after_kwh:.0f} kWh, "
    "{before_kwh:.0f} a year before. The sum of so many kinds of days hides what clear ones show: {cause}. What that "
    "takes by itself is told beside it.",
    "letter.cannot_tell": "Over the same days as a year ago the set gave {after_kwh:.0f} kWh, {before_kwh:.0f} a year "
    "before. Whether the set or the sky has changed, so few days do not tell.",
    "letter.cannot_tell.a_cause": "Over the same days as a year ago the set gave {after_kwh:.0f} kWh, "
    "{before_kwh:.0f} a year before. The sum alone does not tell whether the set or the sky has changed; clear days "
    "do: {cause}. What that takes by itself is told beside it.",
    "letter.lowest": "{month} lost the most: {percent:.0f} % less than a year before.",
    "letter.doubt": "One year's light lies apart from another's: up to {percent:.0f} % either way proves nothing.",
    "do.look_at_cause": "Likeliest cause: {cause}. {look}",
    "do.wash": "Look at the glass on the first dry day of spring, and wash it with cool water in the morning if it is "
    "grey: that tells dirt from all else.",
    "do.look_round": "Look what has grown or been put up since last spring, at the hours at which the sun is low.",
    "do.fastenings": "With the set unplugged, pull at every clamp and hook, look at plugs and leads for chafing and "
    "green contacts, and tighten what frost and wind have loosened.",
    "do.compare_counter": "Write down the inverter's own counter beside the log's sum, so that next year tells more.",
    # causes
    "silent.to_the_end": "Input {input} has given nothing since {since}: on {days} of {told} days on which input "
    "{other} gave it stayed at nought.",
    "silent.some_days": "Input {input} gave nothing on {days} of {told} days on which input {other} gave, first on "
    "{since}.",
    "weak.from_a_day": "Since {since} input {input} has given about {percent:.0f} % of what it gave before beside "
    "input {other}: on {days} of {told} days compared. A single day's ratio lies within some {spread:.0f} % of that.",
    "weak.always": "Input {input} gives about {percent:.0f} % of what it should beside input {other}, on all {told} "
    "days compared. A single day's ratio lies within some {spread:.0f} % of that.",
    "weak.some_days": "Input {input} gave about {percent:.0f} % of what it should beside input {other} on {days} of "
    "{told} days compared, first on {since}, and gave well on the others.",
    "cause.input_dead": "one input gives nothing or half",
    "suspect.input_dead": "The set gives a fixed part of what it should, on bright and dull days alike: one of its "
    "inputs gives nothing or half.",
    "look.input_dead": "Read the power of each input in sun. See to the plugs of the weak one first, then change its "
    "panel to the other input: does the fault go with the panel or stay with the input?",
    "cause.bypass_section_lost": "a part of one panel is bridged",
    "suspect.bypass_section_lost": "A part of about one third of a panel is missing all day long: a bypass diode has "
    "failed shorted, or a string of cells is broken.",
    "look.bypass_section_lost": "Measure the open-circuit voltage of each panel: one that lacks a third is the one. "
    "Look for a shadow that never leaves, too.",
    "cause.limit_lower_than_stated": "the inverter is set lower than stated",
    "suspect.limit_lower_than_stated": "Bright days have a flat top below the stated limit: the inverter is set lower "
    "than thought.",
    "look.limit_lower_than_stated": "Read the limit in the inverter's settings.",
    "cause.undeclared_shade": "a shadow that was not declared",
    "suspect.undeclared_shade": "On clear days output falls at the same hours: something shades the panels that the "
    "request does not know.",
    "look.undeclared_shade": "Look at the panels at those hours on a sunny day. What shades them, and can it be moved, "
    "or the panels?",
    "cause.plane_differs": "the panels stand otherwise than stated",
    "suspect.plane_differs": "The course of clear days fits another plane than the stated one.",
    "look.plane_differs": "Measure tilt and direction; a phone's compass beside metal is no good, the sun at noon is.",
    "cause.dirt_drift": "dirt that builds up",
    "suspect.dirt_drift": "Output sinks slowly and comes back at once, as dirt does that rain washes off.",
    "look.dirt_drift": "Look at the glass and wash it with cool water in the morning. Does output come back?",
    "cause.heat_derating": "the inverter throttles in heat",
    "suspect.heat_derating": "On hot bright hours output stays below a lid that cooler hours pass: the inverter holds "
    "back in heat.",
    "look.heat_derating": "Does air move around the inverter, is it in the sun? Shade it, leave a hand's width free.",
    "cause.grid_trips": "the inverter parts from the grid at high output",
    "suspect.grid_trips": "On bright hours output breaks off for minutes and comes back slowly, as an inverter does "
    "that has parted from the grid: the voltage of the house is high.",
    "look.grid_trips": "Read the voltage at the socket at noon. If it is above some 250 V, an electrician looks at "
    "lead and circuit, and the grid operator at the rest.",
    "cause.wet_trips": "it drops out on wet mornings",
    "suspect.wet_trips": "Output is missing on damp mornings and is there on dry ones: moisture in a connector or a "
    "panel.",
    "look.wet_trips": "Do not touch wet connectors. On a dry day unplug, cover the panels and have connectors and "
    "panel looked at for leaks to the frame.",
    "cause.clock_shift": "the clock of the log is wrong",
    "suspect.clock_shift": "The day of the log begins and ends too early or too late: its clock or its zone is wrong. "
    "No energy is lost.",
    "look.clock_shift": "Compare the logger's clock with yours, and see whether it knows summer time and the zone.",
    "cause.set_off": "the set was off or not connected for days",
    "suspect.set_off": "The set was off or not connected on {days} days between {since} and {until}: every row by day "
    "is nought there, although even a dull sky would have shown something. About {not_made_kwh:.0f} kWh were not made.",
    "look.set_off": "Did somebody unplug it or switch it off? If nobody did, look at plug, breaker and socket and at "
    "the errors in the inverter's display; a set that drops out of itself for days needs an electrician.",
    "cause.shade_grown": "a shadow that has grown since last year",
    "suspect.shade_grown": "In the same weeks as a year ago, clear days give less while the sun stands in one part of "
    "the sky, and no less in the others: something there has grown.",
    "look.shade_grown": "Stand at the panels at those hours on a sunny day. What has grown since last year, and whose "
    "is it? Cut it back before the spring, outside the birds' nesting season, or ask whoever may.",
    "cause.low_voltage_off": "the inverter is off at low voltage",
    "suspect.low_voltage_off": "The set gives nothing at moments at which its string has about {string_v:.1f} V by its "
    "datasheet, where the inverter wants {wanted_v:.1f} V, and hardly ever at others.",
    "look.low_voltage_off": "Read the voltage of the string on the inverter's display at such a moment. Two panels in "
    "series where the input takes their cold voltage, a panel with more cells, or an inverter that starts at less "
    "would end it; ask /v1/compatibility before you change anything.",
    "cause.fast_ageing": "the panels lose power faster than they should",
    "suspect.fast_ageing": "Against the year before, output has sunk by more than panels age.",
    "look.fast_ageing": "Wash the panels, look for new shade, and measure each panel's voltage and current in sun. If "
    "it stays, the maker's warranty is the way.",
}
