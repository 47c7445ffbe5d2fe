"""Why is the year's energy a range and no single number? One sentence for each reason."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "climate_data": "how well the climate table knows the sun at this place, as it falls on the panels",
    "given_weather": "how well the light that you gave was measured",
    "year_to_year": "one year is sunnier than the next, as it falls on the panels",
    "rating": "panels give a little more or less than their label says; used ones more so",
    "ageing": "panels age at different rates, and lose a little in their first days in the sun",
    "reflectance": "how much light the ground and what stands in front throw back; it counts most for upright panels",
    "dirt": "how dirty the glass gets",
    "shade": "how exactly skyline, walls, shadows and what stands in front were described, how high the house behind "
    "is and which way it looks, and how bright and sunlit houses opposite are",
    "model": "made-up hours and formulas instead of measurements at your place",
    "rear_light": "how much light reaches the rear of two-sided panels",
    "snow": "how much snow falls and how long it stays on the glass",
    "datasheet": "voltages and currents of the panel's sheet were not told; telling them narrows the range",
    "input": "the panels' volts, their way of joining, or the voltages and the current that the inverter's inputs take "
    "were not told and may lie on either side of a limit; telling them narrows the range. Untold ones are those of "
    "usual panels and inputs: where a panel of a few more watts may be of a kind with more cells, or "
    "a limit comes within reach, this part steps",
    "plane": "which way the panels look, how steep they stand, or how they are fixed was not told; telling it narrows "
    "the range",
}
