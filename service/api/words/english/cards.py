"""What is said of a rule card beside its content: when and by whom it was published, whether it is old or disputed?"""

from collections.abc import Mapping

PUBLISHED = "Published on {published_on} by {published_by}; last looked at on {checked_on}."

TEXTS: Mapping[str, str] = {
    "published": PUBLISHED,
    "stale": "The card may be stale: nobody looked for more than twelve months. Ask whether it still holds.",
    "turned_down": "The plate says {rated_ac_power_w:.0f} W; counted is the setting. Keep the proof of it: whether the "
    "setting or the plate counts, the grid operator says.",
    "volt_amperes": "Watts are counted as volt-amperes here; where the inverter's plate names more volt-amperes than "
    "watts, hold those against the figure.",
    "advisory": "Named in practice, and no rule: {advisory_w:.0f} W, counted per {advisory_scope} ({advisory_basis}).",
    "conflicts": "What was published disagrees: {conflicts}",
    "refused_elsewhere": "Two published rules disagree here: the wiring standard ({refused_by}) refuses this set on "
    "this circuit. Have the circuit mended first; see the finding on the cable.",
}
