"""Where is energy lost on the way from the light to the socket? One sentence for each code of the account."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "skyline": "hidden by what stands on the horizon: houses, hills, trees far off, and by the own house behind",
    "overhang": "hidden by the slab above and the walls beside the panel",
    "shade": "taken by the shadows that you described",
    "cover": "held back by what stands in front of the panel, such as the glass of a railing",
    "angle": "thrown back by the panel's own glass where light strikes it at a slant",
    "rear_light": "gained where the rear of two-sided panels counts, so that it is negative",
    "dirt": "held back by dirt on the glass; rain does most of the cleaning, a soft cloth the rest",
    "snow": "held back by snow on the glass, by a rule of thumb; steep panels shed it",
    "heat_and_light": "lost because warm cells and dim light give less than the label; a gain in cold sun is negative",
    "ageing": "lost because the panels are no longer new",
    "mismatch": "lost because panels wired together are never quite alike, or look different ways",
    "leads": "turned to heat in the leads from the panels to the inverter; shorter or thicker ones lose less",
    "voltage_window": "not drawn because the panels' voltage lies outside what the inverter works with",
    "current_limit": "not drawn because the panels give more current than the input takes",
    "power_limit": "not drawn because the panels give more power than the input takes",
    "conversion": "turned to heat in the inverter",
    "clipped": "cut off by the limit that the inverter is set to",
    "export_limit": "cut off because less may leave the home than the set would send out",
    "downtime": "missed on days when the set is off or broken",
}
