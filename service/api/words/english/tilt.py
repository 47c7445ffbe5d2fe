"""What is said of planes: ranges, schedules, rules of thumb, which way a railing faces."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "near_best": "Within {within} % of the best lies {tilts}{turned}.",
    "near.tilt.several": "any tilt from {low:.0f} to {high:.0f} degrees",
    "near.tilt.one": "no tilt but {low:.0f} degrees",
    "near.out.several": "any lean from {low:.0f} to {high:.0f} degrees out from upright",
    "near.out.one": "no lean but {low:.0f} degrees out from upright",
    "turned.around": ", and any direction at the best tilt",
    "turned.arc": ", and at the best tilt any direction from {low_azimuth} to {high_azimuth}",
    "turned.one": ", and at the best tilt no direction but {low_azimuth}",
    "way.compass": "{azimuth:.0f} degrees",
    "way.straight": "straight out",
    "way.left": "{turn} degrees to the left",
    "way.left.one": "1 degree to the left",
    "way.right": "{turn} degrees to the right",
    "way.right.one": "1 degree to the right",
    "gains.energy": "{planes} planes a year give {kwh:.1f} kWh more ({share:.1f} %), {kwh_each:.1f} kWh for each "
    "change{money}.",
    "gains.self_used": "With {planes} planes a year {used:.1f} kWh more are used at home ({share:.1f} %), "
    "{used_each:.1f} kWh for each change{money}.",
    "gains.money": "{planes} planes a year save {amount:.2f} {currency} more ({share:.1f} %), {amount_each:.2f} "
    "{currency} for each change; the energy changes by {kwh:+.1f} kWh.",
    "money": ", and save {amount:.2f} {currency} more in all",
    "schedule.worth_moving": "It can be worth moving.",
    "schedule.hardly_worth_moving": "Hardly worth the trouble of moving it.",
    "schedule.nothing_gained": "{asked} planes a year bring nothing more than one: leave it where it is.",
    "note.walls_stay": "House, slab and side walls stay where they stand, square to the panel as it stands now or to "
    "facade_azimuth_deg, and it is turned before them.",
    "note.facade_assumed": "House, slab and side walls stay where they stand, and the panel is turned before them. "
    "Which way their facade looks was not said; what was taken is among the assumptions. Tell facade_azimuth_deg.",
    "note.facade_not_known": "Which way the facade behind looks was not said, so the panel is not "
    "turned. Give the direction that it looks now (azimuth_deg), or the facade's (facade_azimuth_deg).",
    "note.upright_unless_told": "It was taken to hang upright. Where its fixing lets it lean out, tell how far from "
    "upright (fixing.high_lean_out_deg): the best lean is looked for.",
    "note.told_against_sun": "It was told to face {told:.0f} degrees, which was kept; the notes of the sun admit "
    "{low:.0f} to {high:.0f}, clockwise. One of the two is off, unless the notes are of another railing: look with a "
    "compass, or at the clock times.",
    "note.spread_brings_more": "Each array in a plane of its own brings {more:.1f} % more than all in the best one: "
    "see best_per_array.",
    "objective.energy": "The most energy over the year, after the limits of inputs and inverter.",
    "objective.self_used": "The most energy that is used at home, as the meter sees it.",
    "objective.money": "The most money saved in the first year, at the prices and rules of the tariff. Under yearly "
    "netting when it is used does not count.",
    "off.one": "Here it is {off:.1f} % below the best single plane.",
    "off.several": "Here it is {off:.1f} % below the best {planes} planes a year.",
    "rule.fit": "Rule of thumb: a fit of best tilts over latitude.",
    "rule.latitude_fixed": "Rule of thumb: 0.76 times the latitude and 3.1 degrees.",
    "rule.latitude_two": "Rule of thumb: a summer and a winter tilt by latitude.",
    "rule.latitude_four": "Rule of thumb: four tilts by latitude.",
    "rule.tilt_is_latitude": "Rule of thumb: as many degrees of tilt as of latitude.",
    "facing.both_ends": "By when the sun comes and goes it faces {azimuth:.0f} degrees (from {low:.0f} to {high:.0f}).",
    "facing.one_date": "By one day's notes it faces about {azimuth:.0f} degrees (from {low:.0f} to {high:.0f}). Please "
    "note the times of one more day, some months apart, to be sure.",
    "facing.fewest_obstacles": "Most likely it faces {azimuth:.0f} degrees, if it was the railing's own line that cut "
    "the sun off. The upright edge of a building looks just alike, on every date: then it is any direction from "
    "{low:.0f} to {high:.0f} degrees. A look at a map or compass tells.",
    "facing.middle": "The notes admit any direction from {low:.0f} to {high:.0f} degrees; the middle was taken. The "
    "upright edge of a building looks just like the railing's own line. Please note both times of one more day, some "
    "months apart, or look at a map or compass.",
    "obstacle.appears": "Something other than the railing's own line hid the sun until {clock} on {day}.{month}.: then "
    "it stood at {azimuth:.0f} degrees, {height:.0f} degrees high.",
    "obstacle.goes": "Something other than the railing's own line hid the sun from {clock} on {day}.{month}.: then it "
    "stood at {azimuth:.0f} degrees, {height:.0f} degrees high.",
    "map.title.energy": "Yearly energy by tilt and direction",
    "map.title.self_used": "Energy used at home in a year by tilt and direction",
    "map.title.money": "Money saved in the first year by tilt and direction",
    "map.energy": "{best:.0f} kWh",
    "map.self_used": "{best:.0f} kWh used at home",
    "map.money": "{best:.2f} {currency}",
    "map.share": "Share of what the best plane of all brings: {most}.",
    "map.where": "Best where it may stand: {out} degrees {from_where}, {way}: {best}.",
    "map.where.one": "Best where it may stand: 1 degree {from_where}, {way}: {best}.",
    "map.from.tilt": "of tilt",
    "map.from.out": "out from upright",
    "map.out": "degrees out from upright",
    "map.tilt": "tilt in degrees, 90 upright",
    "map.turned": "degrees turned left (-) or right of the railing",
    "map.azimuth": "direction in degrees, 90 east, 180 south",
    "map.within": "from {share:.0f} %",
    "map.below": "below {share:.0f} %",
    "map.free": "best if nothing bound it",
    "map.best": "best where it may stand",
    "map.stands": "as it stands",
}
