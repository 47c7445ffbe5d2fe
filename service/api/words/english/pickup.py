"""What is said at the seller's door: what readings mean, how to take them without harm, what to look at.

Keys: ``verdict.word``, ``cause.code``, ``not_seen.code``, ``worth.code``, ``light.origin``, ``ask.code``, ``how.code``,
``look.code``, ``remark.code``, ``assumed.code``, ``name.quantity``.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "verdict.as_expected": "It reads as a sound panel of this label should, as far as it was read.",
    "verdict.as_expected.not_all": "It reads as a sound panel of this label should, as far as it was read. That proves "
    "no full power; what such readings cannot show is told beside it.",
    "verdict.suspicious": "Something speaks against this panel; see the causes.",
    "verdict.cannot_tell": "Nobody can say by this; see what is missing.",
    # what keeps from telling
    "cause.light_indoors": "Indoors a panel shows next to nothing, sound or not. Ask for the reading outdoors in sun.",
    "cause.light_not_known": "How much light falls on the panel was not told. Send the place, the time and how the sky "
    "looks, or a measured irradiance.",
    "cause.sun_is_down": "The sun is down there at that time. Come back by day and read it in sun.",
    "cause.light_too_low": "About {w_per_m2} W/m2 is too little light to judge this by. A lost group of cells shows in "
    "the volts from {least_for_gross_voltage} W/m2 on; a smaller fault, and any current, takes {least} W/m2. Please "
    "come back in better light.",
    "cause.light_too_unsure": "The light is known too roughly for this reading to prove anything: a sound panel may "
    "give up to {high} A by it. A clear sky, a measured irradiance, or the others of the lot would tell.",
    "cause.light_too_unsure.read": "The light is known too roughly for this reading to prove anything: a sound panel "
    "may give up to {high} A by it. The others of the lot were read, too, and may lack the same: a clear sky or a "
    "measured irradiance would tell.",
    "cause.more_than_told_light": "What was read and the light that was told contradict each other. Look at both "
    "again.",
    "cause.more_than_told_light.current": "{read} A take about {shown} W/m2, and what was told of the light leaves "
    "{most} W/m2 at most: these contradict each other. Either the light was told wrong (sky, place, time, a light "
    "meter in the shade), or the current was (range, jack, decimal point), or it is another panel. Tell the light "
    "anew, or read again.",
    "cause.more_than_told_light.voltage": "{read} V are more than a panel of this label gives in {most} W/m2, the most "
    "light by what was told: these contradict each other. Either the light was told wrong (sky, place, time, a light "
    "meter in the shade), or the voltage was (range, decimal point), or it is another panel. Tell the light anew, or "
    "read again.",
    "cause.more_light_than_measured": "It gives a little more current than the measured light should drive: the light "
    "meter was held otherwise than the panel, or it is another panel. Measure the light again, right beside the panel.",
    "cause.columns_swapped": "No sun drives that many amperes through a panel of this label, and the two figures fit "
    "far better exchanged: volts and amperes were written down the wrong way round. Nothing was judged by them. Look "
    "at the note, or read again.",
    "cause.shaded": "A shadow lay on the panel. It takes much current and hardly any voltage: please read it again "
    "without shade.",
    "cause.more_light_than_thought": "It gives more than the sky should allow: there was more light than thought, or "
    "it is another panel. Compare with a second panel, or measure the light.",
    "cause.more_light_than_thought.read": "It gives more than the sky should allow: there was more light than thought, "
    "or it is another panel. Measure the light, and compare the labels of the lot.",
    "cause.cooler_than_thought": "It gives {over_pct} % more voltage than a sound panel of this label gives at that "
    "temperature at most. A label errs, and a panel that is cooler than thought gives more (all of it would be "
    "{cooler_k} K): measure at its back and read it again. If it stays, it is another type.",
    "cause.cooler_than_thought.hardly": "It gives a trace more voltage than a sound panel of this label gives at that "
    "temperature at most. A label errs, and a panel that is cooler than thought gives more (all of it would be "
    "{cooler_k} K): measure at its back and read it again. If it stays, it is another type.",
    "cause.whole_lot_low": "All panels are alike and low, so there was probably less light than thought. Read "
    "them again in clear sun.",
    "cause.measure_low": "Others of the lot are measured by it and differ from it, and yet it is lower than it should "
    "be, so there was probably less light than thought. Read each again in clear sun, one right after the other.",
    "cause.most_outdone": "Its {quantity} is like that of most of the lot, and another panel gives more in the same "
    "light. Either that one is of another type or got more light just then, or most of the lot lack the same. Compare "
    "the labels, and read each again in clear sun, one right after the other.",
    "cause.turned_to_the_sun": "It is low, but within what a panel gives that does not look at the sun. Turn it square "
    "to the sun and read again.",
    "cause.lot_scatters": "The panels differ so much from one another that none of them can be the measure. Read each "
    "again, one right after the other.",
    "cause.rating_not_known": "The {quantity} on the label was not told, so a reading can prove no more than that "
    "nothing gross is wrong. Read the label.",
    "cause.label_doubtful": "The figures told of the label do not suit one another, so a reading can prove no more "
    "than that nothing gross is wrong. Read the label again.",
    "cause.label_doubtful.voltages_swapped": "As told, the voltage at maximum power is not below the open-circuit "
    "voltage. Read both off the label again.",
    "cause.label_doubtful.currents_swapped": "As told, the current at maximum power is not below the short-circuit "
    "current. Read both off the label again.",
    "cause.label_doubtful.half_cells_counted": "The voltage suits half as many cells in series as told. Count them "
    "again; cut cells lie by twos in parallel.",
    "cause.label_doubtful.voltage_per_cell": "The open-circuit voltage does not suit the number of cells told. Count "
    "the cells and read the label again.",
    "cause.label_doubtful.fill_factor": "The rated power does not suit voltage and current as told. Read the label "
    "again.",
    "cause.label_doubtful.power_product": "Voltage and current at maximum power do not make the rated power. Read the "
    "label again.",
    "cause.label_doubtful.voc_coefficient": "The coefficient of the voltage is not one that panels have. Read it, and "
    "its unit, again.",
    "cause.nothing_read": "Nothing was read on this panel.",
    "cause.voltage_not_read": "The open-circuit voltage was not read. A current alone hides a lost group of cells.",
    "cause.frame_without_light": "Volts to the frame tell nothing while the panel makes no voltage. Read them in sun.",
    "cause.frame_readings_disagree": "Both readings to the frame are more together than the panel's {voltage:.0f} V. "
    "Read each lead again, and the panel itself.",
    "cause.other_lead_not_read": "Only one lead was read against the frame; a leak near that lead shows on the other.",
    "cause.frame_not_read_wetted": "Dry, about {mohm} megohms lead to the frame. That is above the {wanted} that a "
    "panel of this size needs, but dry it should be far more. Wet frame and back and read it again.",
    "cause.frame_wet_below_dry": "Wetted, both leads show {together} V to the frame, dry they showed {dry} V. Water "
    "takes no leak away, so the probe hardly touched bare metal. Read it wetted again.",
    "cause.meter_too_coarse": "A meter of {meter} megohms shows too little to tell a leak from nought. Use a digital "
    "one of 10 megohms.",
    "cause.panel_size_not_known": "Whether that is a leak hangs on the panel's size. Measure its length and width.",
    "cause.meter_resistance_not_known": "Whether that is a leak hangs on the meter's input resistance. It stands in "
    "its manual, often as 10 megohms.",
    # likely causes
    "cause.no_reading": "There is light and hardly any voltage. Check the probes, the meter's range and the connectors "
    "first; if it stays, the circuit inside is broken.",
    "cause.no_current": "There is light and no current. Check the meter's fuse and the connectors first; if it stays, "
    "a ribbon inside is broken.",
    "cause.no_contact": "Nothing was read in {silent} of {rounds} rounds, and a value in the others: most often a lead "
    "or probe without contact, or the meter on another range. Measure a third time, moving leads and connectors; if it "
    "goes again, a joint inside the panel opens.",
    "cause.no_contact.current": "No current flowed in {silent} of {rounds} rounds, and some in the others: most often "
    "a lead without contact, or the meter in another jack or range. Measure a third time, and cover the panel before "
    "you part or move a lead; if it goes again, a joint inside the panel opens.",
    "cause.rounds_disagree": "On the same panel {most} and {least} V were read, which contradict each other: volts "
    "hardly move with light. One of them was read on another panel, or with a lead or range that was wrong, or a diode "
    "or joint inside opens and closes. Read it again; until then the worse one counts.",
    "cause.rounds_disagree.current": "On the same panel {most} and {least} A were read, which contradict each other "
    "unless the light changed or a shadow fell on it: one may have been read on another panel, or a joint inside opens "
    "and closes. Read it again, right after one of the others; until then the worse one counts.",
    "cause.no_current_on_any": "None of the panels gives any current, though they give volts: most likely it is the "
    "meter. Look at the fuse of its current input, the jack and the range, then read again.",
    "cause.no_voltage_yet_current": "It gives current and no volts, which a broken circuit cannot do: the meter was "
    "not on d.c. volts, or all bypass diodes are shorted, as after lightning near by. Measure the volts again.",
    "cause.bypass_section_lost": "{lost} of {sections} groups of cells give no voltage: a bypass diode has failed "
    "shorted, or a string of cells is broken.",
    "cause.bypass_section_lost.1_of_3": "One third of the voltage is missing: a bypass diode has failed shorted, or a "
    "string of cells is broken.",
    "cause.bypass_section_lost.2_of_3": "Two thirds of the voltage are missing: bypass diodes have failed shorted, or "
    "strings of cells are broken.",
    "cause.bypass_section_lost.1_of_2.mates": "Half of the voltage that the others of the lot give is missing: a "
    "bypass diode has failed shorted, or a string of cells is broken.",
    "cause.bypass_section_lost.1_of_3.mates": "One third of the voltage that the others of the lot give is missing: a "
    "bypass diode has failed shorted, or a string of cells is broken.",
    "cause.bypass_section_lost.2_of_3.mates": "Two thirds of the voltage that the others of the lot give are missing: "
    "bypass diodes have failed shorted, or strings of cells are broken.",
    "cause.voltage_low": "The voltage is {missing_pct:.0f} % lower than it should be; low light does not explain that. "
    "Broken cells, a wrong label, or a panel much hotter than thought.",
    "cause.voltage_low.no": "The voltage is {missing_pct:.0f} % lower than it should be; neither low light nor heat "
    "explains that. Broken cells, or a wrong label.",
    "cause.current_low": "The current is {missing_pct:.0f} % lower than it should be: dirt, shade, a weaker panel "
    "than labelled, or cells broken in every group (in one alone they do not show). Clean it, look for shadows, read "
    "again.",
    "cause.lower_than_the_lot": "Its {quantity} is lower than that of the others in the same light, so the sky is no "
    "excuse: dirt, shade, a weaker panel, or cells broken in every group.",
    "cause.lower_than_the_lot.voltage": "Its voltage is lower than that of the others in the same light, so the sky is "
    "no excuse: broken cells, a weaker panel or another type.",
    "cause.lower_than_the_lot.current.most": "Its current is low as that of most of the lot, and lower than that of "
    "those which come nearest to what is expected in the same light: dirt, shade, a weaker "
    "panel, or cells broken in every group.",
    "cause.lower_than_the_lot.voltage.most": "Its voltage is low as that of most of the lot, and lower than that of "
    "those which come nearest to what is expected in the same light: broken cells, a weaker panel or another type.",
    "cause.higher_than_the_lot": "Its {quantity} is higher than that of the others in the same light: another type, "
    "or more light just then. Compare the labels, and read it again right after one of the others.",
    "cause.wrong_panel.voltage_high": "It gives more voltage than a panel of this label can. The label or the type is "
    "another one: do not plan a string by it.",
    "cause.wrong_panel.current_high": "It gives more current than a panel of this label can in this light. The label "
    "or the type is another one.",
    "cause.wrong_panel.other_cells": "The voltage suits a panel of {cells} cells in series rather than {label_cells}. "
    "Count the cells and compare the label.",
    "cause.wrong_panel.other_cells.mates": "The voltage of the others, beside which it was held, suits panels of "
    "{cells} cells in series rather than {label_cells}. Count the cells and compare the labels.",
    "cause.leaks_frame_dry": "Current leaks from the cells to the frame: about {mohm} megohms, where a panel of this "
    "size should have {wanted} or more. The frame can give a shock. Leave it.",
    "cause.leaks_frame_wetted": "Wet, current leaks from the cells to the frame: about {mohm} megohms, where a panel "
    "of this size should have {wanted} or more. In rain the frame can give a shock. Leave it.",
    "cause.bypass_open": "In the dark no current passes the row of {sections}: at least one bypass diode is open, and "
    "in partial shade such a panel can burn. Check first that red sat on minus, and that the test reaches {high} V.",
    "cause.bypass_shorted": "In the dark {measured} V, where {sections} bypass diodes in a row show {low} V or more: "
    "at least {shorted} of them shorted or leaking, and its group of cells is lost.",
    "cause.bypass_against_volts": "The two readings contradict each other: {measured} V in the dark mean that "
    "{shorted} of {sections} bypass diodes are shorted, and then the panel could not give the volts that were read in "
    "sun. Make sure of the diode test and not another range, of a dark panel, and of leads that do not touch; read "
    "again. If it stays, diodes leak.",
    "cause.bypass_count_not_known": "{measured} V in the dark can be {sections} sound diodes in a row or fewer of "
    "another kind, the rest shorted. The open-circuit volts in sun decide: each shorted one takes its share of them.",
    "cause.bypass_leads_mixed_up": "A value with red on plus, none with red on minus: the leads were mixed up, or "
    "light fell on the panel. Cover it well and read both ways again.",
    "cause.bypass_both_ways": "With red on plus a dark panel shows no value; {measured} V mean that light falls on it, "
    "or that current passes where it should not. Cover it well and read both ways again.",
    "cause.bypass_other_way_not_read": "With red on plus a sound panel and one with a dead diode show the same: no "
    "value. Read it with red on minus too.",
    "cause.bypass_perhaps_none": "No value in the dark. Some thin-film panels have no bypass diode; the sheet tells.",
    "cause.glass_cracked": "The glass is cracked. Such a panel lets water in and cannot be mended. Leave it.",
    "cause.back_cracked": "The back is cracked. It insulates no longer: when wet, it can give a shock. Leave it.",
    "cause.back_chalky": "The back comes off like chalk. The foil is ageing and will crack; then it insulates no "
    "longer. Leave it.",
    "cause.back_burnt": "The back is burnt: a cell or a joint got very hot there, and will again. Leave it.",
    "cause.old_connectors": "Its old connectors have no lock. New ones of one make have to be fitted by somebody who "
    "has the tool.",
    "cause.bare_leads": "Its leads have no connectors. New ones of one make have to be fitted by somebody who has the "
    "tool.",
    # what readings cannot show
    "not_seen.weak_group": "Volts and amperes cannot show cracked or weak cells in some of its {sections} groups: on a "
    "short circuit the bypass diodes carry the current past such a group, and with nothing connected it has nearly all "
    "its volts. At work as little as some {least_pct} % of the power may be left. What shows it: volts and amperes "
    "together into a load near the knee (about {knee_v} V), best the watts of its inverter in full sun, beside a panel "
    "that is known to be sound. Look for hot spots, brown or burnt cells and cracks. The diode test in the dark tells "
    "whether the bypass diodes that have to carry such a group are whole.",
    "not_seen.current_not_read": "The current was not read. It shows dirt, shade, a weak panel, and cells that are "
    "broken in every group of the panel.",
    # what it is worth
    "worth.nothing_against_it": "Volts and amperes are as they should be: worth what a sound panel of its age is.",
    "worth.nothing_seen_against_it": "Volts and amperes are as they should be: worth what a sound panel of its age is "
    "at most. Neither shows cells that are cracked or weak in one group; see what would.",
    "worth.current_not_seen": "At most that: the current was not read, and dirt, shade or a weak panel hardly show in "
    "the volts: a tenth off. Cells that are cracked or weak in one group show in neither.",
    "worth.power_left": "At most that: by the share of its power that volts and amperes leave it, and what has to be "
    "mended; a tenth off where the current was not read. Cells that are cracked or weak in one group show in neither.",
    "worth.power_left_at_most": "At most that: by the share of its power that is left as far as it could be judged, "
    "and what has to be mended; a tenth off where the current was not read. What is open may take more off, be it of "
    "this panel or of those it was compared with.",
    "worth.contact_not_sure": "By the share of the rounds in which it gave anything, and by what it gave then. Should "
    "it have been the meter, leave the empty round out; measure a third time before you pay.",
    "worth.repair_needed": "By what has to be mended.",
    "worth.gives_nothing": "It gives nothing, so it is worth nothing until it does.",
    "worth.meter_first": "Not known before the meter was ruled out, which may well be why this reading shows nothing. "
    "Look at its fuse, jack and range, and read both volts and amperes again.",
    "worth.not_at_any_price": "It can give a shock or start a fire: not worth taking at any price.",
    "worth.another_panel": "It is another panel than labelled; it is worth what its own label says.",
    "worth.another_panel_with_a_fault": "It is another panel than labelled, and more is wrong with it: it is worth "
    "less than what its own label says.",
    "worth.not_known_yet": "Not known before what is missing was read.",
    # light
    "light.measured": "As measured.",
    "light.sky": "From the height of the sun and how the sky looks: a rough guess.",
    "light.indoors": "Indoors; nothing can be judged.",
    "light.not_known": "Not told; anything from a dull to a bright day.",
    "ask.hours": "Ask for the reading outdoors, the panel turned square to the sun and free of shade, under a clear "
    "sky between {from_clock} and {to_clock} on {day}.",
    "ask.any_hour": "Ask for the reading outdoors, the panel turned square to the sun and free of shade, under a clear "
    "sky within two hours of when the sun is highest.",
    "ask.sun_stays_low": "The sun stays too low there these days. Turn the panel square to it at noon under a clear "
    "sky, and compare panels of the lot with one another.",
    # what contradicts itself, or came to nothing
    "remark.light_told_twice": "The {measured} W/m2 that were measured and the rest of what was told of the light "
    "contradict each other.",
    "remark.light_told_twice.indoors": "Indoors and {measured} W/m2 were told, which contradict each other: a room has "
    "{most} W/m2 at most, near a window. Indoors was taken, so that nothing is judged. If the panel was read "
    "outdoors, take indoors out of the question.",
    "remark.light_told_twice.sky": "{measured} W/m2 were measured, and place, time and sky leave {most} W/m2 at most: "
    "these contradict each other. The measurement was taken. Look at the clock, the sky and the meter's range again.",
    "remark.light_told_twice.sun_is_down": "{measured} W/m2 were measured, and the sun is down at that place and time: "
    "these contradict each other. The measurement was taken. Look at the date, the clock and the meter's range again.",
    "remark.light_told_twice.less": "{measured} W/m2 were measured, and place, time and sky give {least} W/m2 at "
    "least: these do not go together. The measurement was taken. A cloud or a shadow lay on the light meter, it was "
    "held otherwise than the panel, or its range, the clock or the sky was told wrong. Look at them again.",
    "remark.sky_without_place": "How the sky looks tells no light without place and time. Send both, or leave it out.",
    "remark.sky_without_place.measured": "How the sky looks tells no light without place and time, so that it could "
    "not be held beside what was measured; that counts alone. Send both, or leave it out.",
    "remark.cells_unlike_air": "Cells of {cell_c} C were measured and air of {air_c} C told: in that light and air "
    "they have {low} to {high} C. The cells count. Look at both again.",
    "remark.another_day": "The panels were read on {read_on}, and this answer is of {as_of}.",
    "remark.another_day.ahead": "The panels were read on {read_on}, and this answer is of {as_of}: that day is "
    "still to come. Look at the date; the sun of {read_on} was taken.",
    "remark.another_day.long_ago": "The panels were read on {read_on}, and their age counted on {as_of}. Look at the "
    "date, or send the day of the reading as `as_of`.",
    "remark.size_unlike_power": "{rated_w} W on {m2} square metres would be {w_per_m2} W on each, which no panel has. "
    "Length and width are in millimetres; how well the frame must be insulated goes by them.",
    "remark.columns_swapped": "Volts and amperes of {panels} fit far better exchanged: probably they were written down "
    "the wrong way round. They accuse no panel, and none of the others was held beside them. Read again, or send them "
    "the right way round.",
    "remark.names_alike": "{panels} differ in capitals and blanks alone: they count as panels of their own. Give one "
    "panel one name.",
    "remark.plane_without_place": "How the panel stands tells no light without place and time. Light that was measured "
    "counts as it falls on the panel. Send both, or leave the plane out.",
    "remark.uncertainty_without_light": "How sure the light meter is was told, and not what it showed.",
    "remark.wetted_without_frame": "Of {panels} it was told that frame and back were wetted, without the volts to the "
    "frame in the same reading: nothing came of it, and no leak was looked for. Read both leads to the frame.",
    "remark.meter_input_without_frame": "Of {panels} the meter's input resistance was told, without the volts to the "
    "frame in the same reading. It serves those alone.",
    "remark.shade_without_reading": "Of {panels} a shadow was told, without volts or amperes in the same reading, so "
    "that nobody knows what was read under it.",
    "remark.frame_told_twice": "Of {panels} volts to the frame were told more than once and contradict one another; "
    "each was judged, and the worst counts. Read them again.",
    "remark.diodes_told_twice": "Of {panels} the diode test in the dark was told more than once and contradicts "
    "itself; each was judged, and the worst counts. Make it again.",
    "remark.glass_told_twice": "Of {panels} the glass was told to be both sound and cracked; cracked counts. Look "
    "again.",
    "remark.back_told_twice": "Of {panels} the back was told to be sound, and not to be; the worse counts. Look again.",
    # on paper
    "name.open_circuit_voltage_v": "Open-circuit voltage",
    "name.short_circuit_current_a": "Short-circuit current",
    "name.voltage_rounds": "Lowest voltage of several rounds",
    "name.current_rounds": "Lowest current of several rounds",
    "name.frame_dry": "Both leads to the frame, dry",
    "name.frame_wetted": "Both leads to the frame, wetted",
    "name.bypass_forward_v": "Bypass diodes, red on minus",
    "name.bypass_swapped_v": "Bypass diodes, red on plus",
    "expected.nothing": "there is no daylight to read by",
    # how to measure
    "how.apart_from_all": "Have the panel apart from inverter and other panels. Never pull a connector that carries "
    "current: switch the inverter off at the socket and cover the panel first.",
    "how.voltage": "Set the meter to d.c. volts, range {range:.0f} V or more: up to {most} V can be there. Red probe, "
    "in the volts jack, on the plus lead; touch only the insulated parts. A minus sign means that the connectors were "
    "fitted the wrong way round: do not plug it in like that.",
    "how.voltage.highest": "Set the meter to d.c. volts, its highest range: up to {most} V can be there, and it bears "
    "{range:.0f}. Red probe, in the volts jack, on the plus lead; touch only the insulated parts. A minus sign means "
    "that the connectors were fitted the wrong way round: do not plug it in like that.",
    "how.no_voltage_with_this_meter": "Do not measure with this meter, in no step: up to {most} V can be there; it "
    "bears {limit}. Volts, current, the frame and the diodes take a meter that bears more: send its limits, "
    "and the steps for it are told.",
    "how.current": "Short-circuit current: up to {most} A beside a cloud's edge. Cover the panel or turn it face "
    "down, lead in the jack that bears {limit} A, join both leads through the meter, uncover, read within ten "
    "seconds, cover again, then part.",
    "how.no_current_with_this_meter": "Do not measure the short-circuit current with this meter: up to {most} A "
    "can flow when the sun comes out, its fused input bears {limit} A. Use a d.c. clamp meter, or less light: turn the "
    "panel away from the sun, and compare panels with one another.",
    "how.no_current_with_this_meter.no": "Do not measure the short-circuit current with this meter: up to {most} A can "
    "flow when the sun comes out, its fused input bears {limit} A, and away from the sun it can still be more. Use a "
    "d.c. clamp meter.",
    "how.current_by_clamp": "Short-circuit current, up to {most} A: cover the panel, join its two connectors, clamp "
    "one lead, uncover, read, cover again, then part.",
    "how.never_part_under_sun": "Never open the short circuit under sun, nor pull the probes apart: the direct current "
    "draws an arc that burns. Cover the panel first.",
    "how.between_readings": "Put the lead back in the volts jack after each current. Read all panels one right after "
    "the other, at the same angle, so that they can be compared.",
    "how.one_after_the_other": "Read all panels one right after the other, at the same angle, so that they can be "
    "compared.",
    "how.volts_to_the_frame": "In sun, d.c. volts from the plus lead to bare metal of the frame, then from the frame "
    "to the minus lead; dry, then with frame and back wetted, gloves on; wait until it stands still. Bare is the metal "
    "in an earthing hole or at a screw: the film on a frame insulates, and a leak then shows as nought. Through "
    "{meter:.0f} megohms both together show next to nothing dry, {dry} V at most, and wetted {most} V at most, which "
    "are {wanted} megohms.",
    "how.diodes_in_the_dark": "Face down or well covered, meter on diode test. Red on the minus lead, black on the "
    "plus lead: {schottky_low} to {schottky_high} V for {sections} Schottky diodes in a row, {junction_low} to "
    "{junction_high} V for plain silicon; less: one is shorted; no value: one is open. Then red on plus, black on "
    "minus: no value, as diodes and cells block.",
    # what to look at
    "look.glass": "Glass: cracks, chips at the edge, milky corners.",
    "look.cells": "Cells: brown spots, bubbles, snail-like lines, burnt ribbons.",
    "look.back": "Back: chalk on your finger, cracks, bubbles, burnt spots, mends with tape.",
    "look.box": "Junction box: lid closed, not molten, firmly glued.",
    "look.leads": "Leads: bites, cracks, bare copper, green copper.",
    "look.connectors": "Connectors: of one make, with a lock that clicks, not molten, no corrosion.",
    "look.frame": "Frame: bent, gaping corners, drilled holes.",
    "look.label": "Label and serial: there, readable, the same type on every panel of the lot.",
    # what was taken
    "assumed.power_from_figures": "Not read; worked out from the figures that were, to find the kind of panel. No "
    "expected reading hangs on it where these are given.",
    "assumed.halves_counted": "As many as told would make too few volts each, or be too many: cut cells lie by twos in "
    "parallel and count half.",
    "assumed.usual_light_meter": "Not told; the usual error of a hand-held light meter was taken.",
    "assumed.probe_error": "A probe at the back is a few kelvin off the cells.",
    "assumed.air_of_the_month": "Not told; the air of the month at this place was taken.",
    "assumed.any_air": "Not told; anything from frost to a hot day was taken.",
    "assumed.usual_meter": "Not told; the usual hand-held meter was taken.",
    "assumed.cells_in_balance": "Not measured; from air and light, between just carried out and long in the sun.",
    "source.judgement": "our own judgement",
    "source.trade": "common practice, from memory",
    "source.climate": "monthly climate of the place",
    "source.given": "the figures given",
    "source.faiman": "heat balance after Faiman, free-standing, light wind",
}
