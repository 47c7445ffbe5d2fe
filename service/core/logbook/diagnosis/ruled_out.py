"""Which causes can a log not show, or shows nothing of, whatever speaks for them besides?

Weights are fitted to made-up logs, and what goes along with a cause in those (unrest, a level) may have other reasons
in a log that they do not know. Some causes have a mark without which they are not.
"""

from collections.abc import Collection, Mapping
from types import MappingProxyType

TRIPS, SECTION, HEAT = "grid_trips", "bypass_section_lost", "heat_derating"
# Dips that take less than this of days that are smooth but for them are the edges of clouds. Steps of more than half an
# hour show none (see ``grid_trips``): what a hole of minutes leaves in an hour, a cloud leaves as well.
LEAST_DIPS_SHARE = 0.01
# Causes that a level shows which is near to what they leave, and the word in the names of those quantities.
_BY_NEARNESS = MappingProxyType({SECTION: "section", "input_dead": "dead"})
# A lid that sinks with warmth has to explain the course of the day by so much better (logarithm of misfits).
_LEAST_LID_GAIN = 0.01
# Logarithm of what a set has left without one of its sections: a loss smaller than this is no more than two standard
# deviations of what air, label and dirt leave open of a level, so that sound sets lie there.
_LEAST_SECTION_LOG = -0.1


def ruled_out(named: Mapping[str, float]) -> frozenset[str]:
    """Those causes.

    >>> sorted(ruled_out({"clear_dip_energy_share": 0.03, "heat_gain": 0.002, "section_share": -0.09}))
    ['bypass_section_lost', 'heat_derating']
    """
    found = set()
    if not named.get("clear_dip_energy_share", 0.0) >= LEAST_DIPS_SHARE:
        found.add(TRIPS)
    if not max(named.get("heat_gain", 0.0), named.get("w_heat_gain", 0.0)) >= _LEAST_LID_GAIN:
        found.add(HEAT)
    if _section_hides(named):
        found.add(SECTION)
    return frozenset(found)


def weighable(named: Mapping[str, float], excluded: Collection[str] = ()) -> Mapping[str, float]:
    """The quantities to be weighed: nearness to the level of what is ``excluded``, or hides in any set's, is not known.

    >>> weighable({"section_level": -0.2, "dead_level": -0.7}, {"bypass_section_lost"})
    {'section_level': nan, 'dead_level': -0.7}
    """
    words = [word for cause, word in _BY_NEARNESS.items() if cause in excluded]
    if _section_hides(named):
        words.append(_BY_NEARNESS[SECTION])
    return {name: float("nan") if any(word in name for word in words) else value for name, value in named.items()}


def _section_hides(named: Mapping[str, float]) -> bool:
    return any(named.get(f"{lead}section_share", -1.0) > _LEAST_SECTION_LOG for lead in ("", "w_"))
