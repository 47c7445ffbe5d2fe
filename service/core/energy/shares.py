"""What parts of an array's light are hidden, come to its rear, or lie under snow, over its year?"""

from service.core.energy.chain import ArrayHours


def left_kwh(hours: ArrayHours, *further: str) -> float:
    """What is left of the front's light behind all that stands around it and a cover, and after ``further``."""
    taken = ("skyline", "overhang", "shade", "cover", *further)
    return hours.light_kwh - sum(hours.lost_kwh[code] for code in taken)


def rear_share(hours: ArrayHours) -> float:
    """Part of what reaches an array's cells that comes to its rear: all, where the front sees nothing."""
    both_kwh = left_kwh(hours, "angle", "rear_light")
    return max(-hours.lost_kwh["rear_light"], 0.0) / both_kwh if both_kwh > 0 else 0.0


def snow_share(hours: ArrayHours) -> float:
    """What snow takes of an array's light, over what it leaves."""
    bare_kwh = left_kwh(hours, "angle", "rear_light", "dirt", "snow")
    return hours.lost_kwh["snow"] / bare_kwh if bare_kwh > 0 else 0.0


def hidden_share(one: ArrayHours) -> float:
    """The part of an array's open light that skyline, overhang and shade take."""
    hidden = sum(one.lost_kwh[code] for code in ("skyline", "overhang", "shade"))
    return hidden / one.light_kwh if one.light_kwh > 0 else 0.0
