"""What is said of a rule card beside its content: when and by whom it was published, whether it is old or disputed?"""

from collections.abc import Mapping

PUBLISHED = "Published on {published_on} by {published_by}; last looked at on {checked_on}."

TEXTS: Mapping[str, str] = {
    "published": PUBLISHED,
    "stale": "The card may be stale: nobody looked for more than twelve months. Ask whether it still holds.",
    "conflicts": "What was published disagrees: {conflicts}",
    "refused_elsewhere": "Two published rules disagree here: the wiring standard ({refused_by}) refuses this set on "
    "this circuit. Have the circuit mended first; see the finding on the cable.",
}
