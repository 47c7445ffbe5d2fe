"""What does a storm do to the panels? Sentences beside the figures; none of them says that something will hold."""

from collections.abc import Mapping

_CAUTION = (
    "Orders of magnitude by EN 1991-1-4 without safety factors; hills and tall neighbours can add. They prove "
    "neither railing, roof nor mount: get the mount's proof for this place, and ask owner or builder about the railing."
)

TEXTS: Mapping[str, str] = {
    "forces": "The gust met once in fifty years at {height:g} m pushes on each panel with about {push:newtons} N and "
    "pulls with about {pull:newtons} N, at worst {pull_most:newtons} N. Its own weight is {weight:newtons} N.",
    "forces.standing": "The gust met once in fifty years at {height:g} m pulls at each panel with about "
    "{pull:newtons} N, at worst {pull_most:newtons} N. Its own weight is {weight:newtons} N; against sliding "
    "and lifting some {ballast:newtons} kg of weights a panel would be needed, at worst {ballast_most:newtons} kg, "
    "and tipping is not counted.",
    "caution": _CAUTION,
    "caution.above_the_standard": f"{_CAUTION} Above 200 m the standard's profile does not reach; it was carried on.",
    "capacity_under_load": "The fixing is stated to carry {capacity_n:newtons} N a panel; the ordinary storm figure is "
    "{middle_n:newtons} N already. Do not hang the panel on it as it is; ask the maker for a stronger one.",
    "capacity_within_spread": "The fixing is stated to carry {capacity_n:newtons} N a panel. The storm figures reach "
    "{cautious_n:newtons} N, and design practice counts {design_factor:g} times that (EN 1990). Ask the maker for the "
    "proof at this height and terrain.",
    "capacity_above_load": "The fixing is stated to carry {capacity_n:newtons} N a panel, above {design_factor:g} "
    "times the greatest storm figure here ({cautious_n:newtons} N). That proves nothing yet: what it is fixed to "
    "must carry it too.",
    "glass_over_people": "People pass below: from {falls_m:g} m a panel of {weight_kg:g} kg arrives at about "
    "{arrives_km_per_h} km/h. Secure each panel a second time, apart from the mount.",
    "glass_over_people.glass_foil": "People pass below: from {falls_m:g} m a panel of {weight_kg:g} kg arrives at "
    "about {arrives_km_per_h} km/h, and toughened glass with a foil behind breaks into clumps of crumbs. Secure each "
    "panel a second time, apart from the mount.",
    "ballast_short": "{given_kg:g} kg of weights lie on each panel's frame; against the ordinary storm figure "
    "{middle_kg:newtons} kg would be needed. Anchor it, weigh it down, or lay it flatter.",
    "ballast_within_spread": "{given_kg:g} kg of weights lie on each panel's frame; the storm figures ask for "
    "{middle_kg:newtons} to {cautious_kg:newtons} kg. Ask the maker of the frame for the proof.",
    "ballast_above": "{given_kg:g} kg of weights lie on each panel's frame, more than the greatest figure here "
    "({cautious_kg:newtons} kg). Tipping is not counted, and whether roof or floor carries the weights is another "
    "question.",
    "reaches_past_railing": "The panel is {tall_m:g} m tall, the railing {railing_height_m:g} m: {past_m:g} m reach "
    "past it, where wind gets at it from both sides and no bar holds it.",
    "reaches_past_railing.usual": "The panel is {tall_m:g} m tall; at a usual railing of {railing_height_m:g} m it "
    "reaches past by {past_m:g} m, where wind gets at it from both sides and no bar holds it. Measure yours.",
    "wider_than_railing.one": "The panel is {wide_m:g} m wide, the railing {railing_length_m:g} m.",
    "wider_than_railing": "{count} panels side by side are {wide_m:g} m wide, the railing {railing_length_m:g} m.",
    "carrying": "A panel of {weight_kg:g} kg and {area_m2:g} m2 is a sail: a breeze of {breeze_m_per_s:g} m/s "
    "pulls at it with about {breeze_n:g} N. Fit it on a calm day.",
    "carrying.two": "A panel of {weight_kg:g} kg and {area_m2:g} m2 takes two people, and it is a sail: a breeze of "
    "{breeze_m_per_s:g} m/s pulls at it with about {breeze_n:g} N. Fit it on a calm day.",
}
