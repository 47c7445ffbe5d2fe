"""What is said of planes: ranges, schedules, rules of thumb, which way a railing faces."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "near_best": "Within {within} % of the best lies any tilt from {low_tilt:.0f} to {high_tilt:.0f} degrees{turned}.",
    "turned.around": ", and any direction at the best tilt",
    "turned.arc": ", and at the best tilt any direction from {low_azimuth:.0f} to {high_azimuth:.0f} degrees",
    "turned.fixed": "",
    "schedule.worth_moving": "{changes} planes a year give {gain:.0f} kWh more ({share:.1f} %), {each:.0f} kWh for "
    "each change{money}.",
    "schedule.hardly_worth_moving": "{changes} planes a year give {gain:.1f} kWh more ({share:.1f} %), {each:.1f} kWh "
    "for each change{money}: hardly worth the trouble of moving it.",
    "schedule.nothing_gained": "{changes} planes a year give nothing more than one: leave it where it is.",
    "money": ", and {amount:.2f} {currency} in all",
    "objective.energy": "The most energy over the year, after the limits of inputs and inverter.",
    "objective.self_used": "The most energy that is used at home, as the meter sees it.",
    "objective.money": "The most money saved in the first year, at the prices and rules of the tariff. Under yearly "
    "netting when it is used does not count.",
    "rule.fit": "Rule of thumb: a fit of best tilts over latitude.",
    "rule.latitude_fixed": "Rule of thumb: 0.76 times the latitude and 3.1 degrees.",
    "rule.latitude_two": "Rule of thumb: a summer and a winter tilt by latitude.",
    "rule.latitude_four": "Rule of thumb: four tilts by latitude.",
    "rule.tilt_is_latitude": "Rule of thumb: as many degrees of tilt as of latitude.",
    "facing.sure": "By when the sun comes and goes it faces {azimuth:.0f} degrees (from {low:.0f} to {high:.0f}).",
    "facing.open": "The notes admit any direction from {low:.0f} to {high:.0f} degrees. Please note "
    "the times of one more day, some months apart.",
    "obstacle.appears": "Something other than the railing's own line hid the sun until {clock} on {day}.{month}.: then "
    "it stood at {azimuth:.0f} degrees, {height:.0f} degrees high.",
    "obstacle.goes": "Something other than the railing's own line hid the sun from {clock} on {day}.{month}.: then it "
    "stood at {azimuth:.0f} degrees, {height:.0f} degrees high.",
    "map.title": "Yearly energy by tilt and direction",
    "map.description": "Share of the best plane's {best:.0f} kWh. Best: {tilt:.0f} degrees, direction {azimuth:.0f}.",
    "map.out": "degrees out from upright",
    "map.tilt": "tilt in degrees, 90 upright",
    "map.turned": "degrees turned left (-) or right of the railing",
    "map.azimuth": "direction in degrees, 90 east, 180 south",
    "map.within": "from {share:.0f} %",
    "map.below": "below {share:.0f} %",
}
