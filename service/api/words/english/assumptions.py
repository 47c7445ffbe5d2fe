"""What was taken where nobody said, and why? One sentence a reason code; ``code.field`` where a field needs more.

The value itself stands beside the sentence. No sentence needs a fact.
"""

from collections.abc import Mapping

_BY_LIGHT = (
    "It was settled for most light, whatever the inverter cuts: /v1/tilt chooses under its limits, and may spread "
    "several panels."
)

TEXTS: Mapping[str, str] = {
    # panel
    "panel_class": "Not on hand, so taken from panels of this power and kind. Read the label, it can differ.",
    "panel_class.open_circuit_voltage_v": "The open-circuit voltage was not given; panels of this power and kind have "
    "about this. The inverter's voltage limit hangs on it: read the label.",
    "panel_class.short_circuit_current_a": "The short-circuit current was not given; panels of this power and kind "
    "have about this. The inverter's current limit hangs on it: read the label.",
    "panel_class.cells_in_series": "Taken as the commonest build with this power. Count the cells to be sure; of a "
    "half-cut panel count half.",
    "public_list": "Not given; listed panels of this power, build and size lie within this range. The "
    "inverter's limits hang on it: read the label.",
    "listed_code": "Taken from the public list under the model code that you gave. A code is a claim and no proof: "
    "read the label.",
    "datasheet_relation": "Worked out from the figures that you gave and the usual ratios of such panels.",
    "commonest_kind": "Not said; the commonest kind was taken.",
    "one_sided": "Not said; the panel was taken to gain nothing from its rear side.",
    "taken_as_new": "Not said; the panel was never in use, so it was taken as new.",
    "middle_age": "Not said; {value:.0f} years in use were taken, in the middle of {low:.0f} to {high:.0f}. Tell its "
    "age, or that it is unused.",
    "made_then": "Not said; panels of this power and build are {low:.0f} to {high:.0f} years old, and the middle was "
    "taken. Tell its age, or that it is unused.",
    "label_tolerance": "Not said; the usual tolerance of labels was taken.",
    "not_said": "Nobody said, so it stays open.",
    "not_said.connector": "The connector was not described, so its match is not looked at.",
    "not_said.history": "Where the panel was before was not said.",
    "not_said.plug": "The kind of plug was not said.",
    "not_said.residual_current_device": "The residual-current device was not said; have an electrician look.",
    "not_said.counts": "How the meter counts was not said. Its display or your grid operator tells; it can change the "
    "saving.",
    "not_said.max_panel_power_kind": "Whether the panel power on the inverter's sheet is a limit or advice was not "
    "said.",
    # array and plane
    "numbered": "Named in the order given.",
    "next_free_input": "Put on the next free input.",
    "fetching_beside": "Fetching was given twice, as a thing to be paid and with its kilometres; both were counted. "
    "Take one out if they are the same trip.",
    "none_faulty": "No panel was counted as faulty. Used ones may be: give a share to see what that costs.",
    "panels_by_name": "Taken from what it is called.",
    "one_trip": "One trip there and back was counted.",
    "one_panel": "One panel was taken.",
    "nothing_to_join": "One panel is joined to no other.",
    "series_unless_said": "How the panels are wired was not said. Series on one input was taken, as its higher voltage "
    "is the stricter check; with an input each they may yield far more, which the year's range holds. Tell an array "
    "for each input.",
    "mount_open": "How the panels stand was not said. They were taken as standing free towards the sun; hung on a "
    "railing they yield less. Tell the mount.",
    "upright_by_mount": "On a rail, wall or fence panels hang upright.",
    "upright_unless_told": "How far its fixing lets the panel lean out was not said, so it was taken to hang upright. "
    "Tell it, and the best lean is looked for.",
    "as_it_leans": "How far its fixing lets the panel lean out was not said, so no more was taken than the {value:.0f} "
    "degrees from upright that it leans already. Tell it, and the best lean is looked for.",
    "pitch_by_mount": "A middling roof pitch was taken; tell yours.",
    "best_within_mount": "Left open, so the plane with the most light of the year was taken that the mount admits. You "
    "can set it up so. " + _BY_LIGHT,
    "best_within_fixing": "Left open, so the lean with the most light of the year was taken that the fixing admits. "
    + _BY_LIGHT,
    "best_within_bounds": "Left open, so the plane with the most light of the year was taken within your bounds. "
    + _BY_LIGHT,
    "best_of_hinge": "Left open, so the place of the hinge with the most light of the year was taken. " + _BY_LIGHT,
    "best_of_planes": "Left open, so the plane with the most light of the year was taken of those that you listed. "
    + _BY_LIGHT,
    "best_if_free": "Left open, so the plane with the most light of the year was taken for panels standing free. Tell "
    "how they stand. " + _BY_LIGHT,
    "as_the_facade": "It looks as the facade does.",
    "sun_seen": "By when the sun came and left the railing faces about {value:.0f} degrees; the notes admit {low:.0f} "
    "to {high:.0f}, clockwise.",
    "middle_of_faces": "Which way it looks was not said. A face in the middle between the best and the worst was "
    "taken. Look with a compass: no answer narrows the range more.",
    "middle_of_faces.facade_azimuth_deg": "Which way the facade behind looks was not said. It was "
    "taken to look {value:.0f} degrees, the middle one by light of the faces from {low:.0f} to {high:.0f}, and the "
    "panel is turned before it. Look with a compass and tell it.",
    "one_front": "Which way it looks was not said, nor of other arrays here. They were taken to look alike, "
    "{value:.0f} degrees, a face in the middle between the best and the worst. Look with a compass: no answer narrows "
    "the range more.",
    "one_front.facade_azimuth_deg": "Which way the facade behind looks was not said, nor of other arrays here. One "
    "facade was taken for all of them, to look {value:.0f} degrees, a middle one by light of the faces from {low:.0f} "
    "to {high:.0f}, and the panel is turned before it. Look with a compass and tell it.",
    "sun_seen.facade_azimuth_deg": "By when the sun came and left the facade behind looks about "
    "{value:.0f} degrees; the notes admit {low:.0f} to {high:.0f}, clockwise. The panel is turned before it.",
    "square_to_panel": "Which way the facade behind looks was not said. It was taken to look "
    "{value:.0f} degrees, square to the panel as it stands; in every other plane the panel is turned before it.",
    "by_mount": "Taken by the mount.",
    "below_the_roof": "Not said; the panels were taken to hang {value:.2g} m up, a storey or more below the roof edge "
    "of the house as told, half-way up a low one; it may be {low:.2g} to {high:.2g} m.",
    "nothing_around": "Nothing was named, so nothing of the kind stands in the way of the light.",
    "straight_across_gaps": "The points named lie far apart. Between them, and through north, the skyline was taken to "
    "run straight, one point alone to stand all around. Give a house or a tree that stands alone a point of height 0 "
    "on each of its sides, else it hides more here than it does.",
    "usual_slab": "Not said; the slab of a usual balcony was taken. A tape measure makes it better.",
    "usual_rail": "Not said; a rail of 5 cm, 10 cm before the panel's upper edge, was taken.",
    "whole_cells": "Not said; whole cells were taken, which is wary: a shadow never costs them less. Cut ones are half "
    "as high as wide, and the panel has 100 or more of them.",
    "usual_wall": "Not said; the side wall of a usual balcony was taken.",
    "usual_cover": "Not said; a usual share of light was taken to come through.",
    "rail_in_front": "The panel is behind the railing, and what that is made of was not said: glass or bars that let "
    "{value:.2g} of the light through were taken; it may be {low:.2g} to {high:.2g}. Tell cover.light_through_share, "
    "1 where nothing of the kind stands before the panel, as behind a closed parapet, which is told as row_in_front.",
    "rail_not_told": "No railing was told before the panels on the balcony's floor: one of usual height was taken, of "
    "bars or glass, which lets {value:.2g} of the light through; it may be {low:.2g} to {high:.2g}. Tell "
    "fixing.railing_height_m, or cover.light_through_share, 1 where nothing is there.",
    "rail_before_floor": "The panel stands behind the railing, and what that is made of was not said: through bars or "
    "glass and over them {value:.2g} of the light were taken to come; it may be {low:.2g} to {high:.2g}. Tell "
    "cover.light_through_share; a closed parapet is told as row_in_front, with a share of 1 here.",
    "usual_shade": "Not said; the shade of a tree in leaf was taken.",
    "hard_unless_said": "Not said; a hard edge was taken, which costs more. What a soft one leaves is in the range.",
    "soft_of_leaves": "Not said; leaves throw a soft shadow. What a hard edge would cost is in the range.",
    "all_year": "Not said; it was taken to fall all year.",
    "all_day": "Not said; it was taken to fall all day.",
    "usual_dirt": "Not said; a little dirt was taken, as rain leaves it.",
    "off_unless_asked": "Not asked for, so what the rear of two-sided panels gives is not counted.",
    "one_panel_an_input": "One panel cannot differ from itself.",
    "usual_mismatch": "Not said; panels wired together were taken to differ a little.",
    "usual_lead": "Not said; a usual lead was taken.",
    # inverter
    "not_turned_down": "Not said; the inverter was taken as set to its full power.",
    "inputs_by_power": "Not said; as many inputs as inverters of this power have. Count them on yours.",
    "inverter_class": "Not on hand, so taken from plug-in inverters of this power. Read the label, it can differ.",
    "inverter_class.max_input_voltage_v": "The greatest input voltage was not given; plug-in inverters have about "
    "this. Until the label is read the cold voltage is not known to fit.",
    "cut_at_greatest_voltage": "The tracking range was given up to above the greatest input voltage. It was cut there; "
    "please read both on the label again.",
    "rating_missing": "The input's short-circuit limit was not given and is not guessed. The inverter's sheet has it.",
    "usual_weighting": "Not said; the European weighting was taken.",
    "usual_seat": "Not said; the inverter was taken to hang behind the panel.",
    # circuit
    "voltage_of_area": "Taken as usual in the country.",
    "table_ambient": "How warm the air around the cable gets was not said. The standard's table is for this; the cable "
    "is judged over the whole range.",
    "no_feeder": "No long cable to a shed or garden was named.",
    "nothing_else": "No other set was named.",
    "usual_other_set": "Not said; a usual set was taken.",
    "same_unless_said": "Not said; the other set was taken to feed the same circuit, which is stricter.",
    # site
    "elevation_of_table": "Taken from the climate table. On a hill tell your height.",
    "zone_of_place": "Taken from the coordinates. Please confirm near a border.",
    "country_of_zone": "Taken from the coordinates. Please confirm; where regions have their own rules, name yours.",
    "usual_ground": "Not said; grass, soil or paving in front was taken. Snow and white walls throw back more.",
    "usual_terrain": "Not said; a suburb's shelter from the wind was taken.",
    "wind_without_map": "The wind zone was not said and no map is kept; a windy one was taken. The national map of "
    "EN 1991-1-4 has yours.",
    "a_storey_above": "Not said; at a railing or wall one more storey was taken above the panels, which hides the "
    "sky behind them.",
    "usual_railing": "Not said; a railing of usual height was taken. A tape measure makes it better.",
    "coldest_estimate": "An estimate on the cold side, made from monthly means. A local record is better.",
    # storage
    "usual_box": "Not said; usual for small boxes beside plug-in sets. The sheet of the box has the true figure.",
    "half_an_hour_kwh": "Not said; taken by the size of the battery. The sheet of the box has the true figure.",
    "inputs_of_the_inverter": "Not said; the box was taken to draw no less from the panels than the inverter does. A "
    "box before the inverter has input limits of its own, for voltage, too: read them before you connect a panel.",
    "no_reader_named": "No meter reader was named, so the box feeds a fixed power all night, wanted or not.",
    "most_used_at_home": "Not said; of a few settings tried for this home the one with the most use at home was taken. "
    "Leaving the box off is one of them.",
    # weather of the caller's own
    "air_of_climate": "Not given; the air of the typical year was taken at the same hour of the same day.",
    "rest_of_months": "How much snow lies goes by the cold of whole months. Of months that were given in part so many "
    "hours are not known; the mean air of the place was taken for them.",
    "wind_of_climate": "Not given; the mean wind of the place was taken.",
    "light_and_air_of_file": "Light and air are the file's. Its wind blows ten metres above open ground; the mean wind "
    "of the place was taken, in m/s.",
    "light_of_file": "The light is the file's, which does not tell the air: that of the typical year was taken at the "
    "same hour of the same day, and the mean wind of the place, in m/s.",
    "sum_and_air_of_file": "The sum of the light and the air are the file's. How much of the light came straight from "
    "the sun was taken by a model, hour by hour; and the mean wind of the place was taken, in m/s.",
    "sum_of_file": "The sum of the light is the file's. How much of it came straight from the sun was taken by a "
    "model, hour by hour; the air is that of the typical year, and the mean wind of the place was taken, in m/s.",
    "split_by_model": "Only the sum of the light on level ground was given. How much of it came straight from the sun "
    "was taken by a model, hour by hour.",
    "level_from_plane": "Only the light on the planes was given. The light on level ground that explains it was taken, "
    "{value:.0f} kWh/m2. That is a guess, it may be {low:.0f} to {high:.0f}: a plane tells little while it looks away "
    "from the sun. It tells clear days from dull ones, and what comes to the rears.",
    "weather_gaps_filled": "So many hours were missing and have been filled. Light was taken to be the same part of a "
    "cloudless sky's as in the hours beside, air and wind to change evenly.",
    # home and money
    "sending_parcel": "It has to be sent and nobody says for how much; a parcel within the country was taken. Ask the "
    "seller.",
    "sending_pallet": "It has to be sent and nobody says for how much; a pallet within the country was taken. Ask the "
    "seller.",
    "getting_parcel": "Neither how far away it is nor what sending it costs was told; a parcel within the country was "
    "taken. Tell the way to it, or ask the seller.",
    "getting_pallet": "Neither how far away it is nor what sending it costs was told; a pallet within the country was "
    "taken. Tell the way to it, or ask the seller.",
    "one_panel_in_set": "Nobody says how many panels belong to the set; one was taken. Ask the seller.",
    "price_of_one": "Whether the price is for one or for all is not said; it was taken for one, the dearer reading. "
    "Ask the seller.",
    "one_in_lot": "Nobody says how many are in the lot; one was taken. Ask the seller.",
    "as_many_as_wanted": "Nobody says how many there are; as many as this set takes were taken to be there. Ask the "
    "seller.",
    "two_at_least": "More than one have to be taken, and nobody says how many; two were taken. Ask the seller.",
    "inputs_not_told": "Nobody says how many inputs the inverter has; so many were taken, as inverters of this power "
    "mostly have. With fewer, these panels cannot hang this way. Ask the seller.",
    "usual_way": "How far away it is was not told; a usual way was taken, driven there and back. Tell the way to it.",
    "way_not_counted": "How far away it is was not told, and a kilometre costs nothing here, so getting it costs "
    "nothing. Tell the way to it, and what a kilometre costs.",
    "usual_downtime": "Not said; two days a year were taken on which the set does not run.",
    "usual_home": "Not said; two persons were taken.",
    "usual_demand": "Not said; a usual flat with so many persons was taken. The yearly bill has the true figure.",
    "sum_of_own_hours": "The sum of the hours that you gave.",
    "share_of_demand": "Not said; the usual share that runs day and night was taken.",
    "bare_number": "No range was given beside it, so one was put about it: a figure for years to come is never "
    "certain. Give cautious, middle and hopeful where you know them: of the yield at /energy/year_kwh, of what is used "
    "at home at /use/self_used_kwh.",
    "least_of_own_hours": "Read from the lowest of the hours that you gave.",
    "even_hours": "The hours that you gave are very even, and that does not prove that so much is drawn at every "
    "moment; only a usual part of their mean was taken. Say it where you know it.",
    "more_than_the_home_draws": "Your machines would need more in a year than the home draws above what is always on. "
    "So much a run was counted. Tell a larger yearly demand, less that is always on, or fewer runs.",
    "own_hours_say_otherwise": "The hours that you gave add up to this; the yearly figure beside them was not used.",
    "hours_differ": "The hours were taken as this home's own, each as it was.",
    "days_repeat": "Most of the days are alike, so the hours were taken as an averaged profile: less is then used at "
    "home than by hours as they really were. Say so if they are real.",
    "gaps_filled": "Of the meter's log this share of the year's hours is missing. Each takes the mean of the known "
    "hours at that hour of day, on that kind of day, in that month; where there is none, over more months and days.",
    "usual_roof": "Not said; a usual roof was taken for the plant that is there already.",
    "towards_noon": "Not said; it was taken to look towards the midday sun.",
    "none_named": "No machine was named whose hour can be chosen.",
    "usual_machine": "Not said; a usual machine was taken.",
    "usual_netting": "Not said; what leaves the home is taken as lost to it from moment to moment.",
    "netted_over_the_year": "Over which period surplus is netted was not said; the year was taken. Over a month or an "
    "hour it is worth less.",
    "card_ends": "The day after the last on which the rule card of the area lets surplus be netted.",
    "nets_where_a_period_does": "Netting over a month or a year is done on the bill, by a rule that may end. It counts "
    "in tariff periods whose export is netted, and none is: what is sent out has the price said there.",
    "netting_ends": "By the rule card of the area netting ends; the next card leaves surplus to a contract or pays "
    "nothing. From then on it was taken to earn the export price that you gave, or nothing. Ask your supplier, and "
    "give a period of your own from that day.",
    "meter_runs_backwards": "A meter that runs backwards nets what is sent out for as long as it hangs there, whatever "
    "was agreed. Give a period of its own from the day on which it is changed or netting ends.",
    "meter_runs_backwards_no_rule_known": "A meter that runs backwards nets what is sent out for as long as it hangs "
    "there, whatever was agreed. The country is not known, so neither is any rule by which that ends; it was taken to "
    "go on for all years. Give the place, or a period of your own from the day on which the meter is changed.",
    "no_register_for_it": "A meter that runs backwards has no register for what is sent out, so what a year leaves "
    "over earns nothing; your price for it counts only where such netting ends.",
    "no_rule_known": "The country is not known, so neither is any rule by which netting ends; it was taken to go on "
    "for all years. Give the place or its rule area, or a period of your own from the day on which it ends.",
    "no_later_rule_known": "The rule card of the area ends within this period, and no later one is known. Netting was "
    "taken to go on as you said; ask your supplier until when it does.",
    "shared_by_days": "Prices change within a year of the account. One figure of energy tells nothing of its seasons, "
    "so each price took its part of the year by days. Ask with site, arrays and inverter to have it by the months.",
    "in_the_share_already": "You gave the energy and the share used at home. They were taken to have this in them "
    "already, and it was not reckoned again.",
    "nothing_sent_out": "You said that nothing may be sent out. So what is not used at home was taken to be thrown "
    "away: it earns nothing and nets nothing, whatever the tariff says.",
    "account_is_shorter": "You expect to stay longer than the account runs. It ends after the years in money; give "
    "more of them there to see the whole stay.",
    "paid_as_priced": "A price for what is sent out was given, so it was taken to be paid.",
    "currency_of_area": "The currency of the price table for this place.",
    "from_this_year": "Taken to hold from the beginning of this year.",
    "holds_before": "The first prices that you gave begin after the day of the question. They were taken to hold until "
    "then, too, as none before them is known; give what you pay now as a period of its own.",
    "price_of_area": "No price was given. This is the published household average of the area, less an eighth where "
    "fixed charges are inside it, which a kWh saved does not save. Your bill has the true price.",
    "surplus_unpaid": "Not said; what is sent out was taken to earn nothing.",
    "usual_account": "Our own choice; change it if you reckon otherwise.",
    "no_growth_promised": "No rise of prices is counted on.",
    "usual_ageing": "Panels lose about half a per cent a year.",
    "no_swap_counted": "No replacement of the inverter is counted. Give a year and an amount to count one.",
    "usual_swap": "Not said; a usual year was taken.",
    "no_resale": "Nothing is counted for selling the set later.",
    "no_running_cost": "No running cost was named.",
    # why an assumption has no figure of how far it moves the year
    "moves.no_range": "How far it may be off is not known, so no figure is made of it.",
    "moves.does_not_move_the_year": "The year's energy, as it is reckoned here, does not depend on it.",
}
