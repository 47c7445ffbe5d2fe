"""Which stated figures cannot all be true, or are too good?"""

from service.core.adverts.figures import Found
from service.core.adverts.volts_of_others import MOST_INPUT_V

CELL_VOLTAGE_V = (0.55, 0.75)  # open-circuit voltage of a silicon cell, trade figures
PRODUCT_SHARE = 0.03
GREATEST_FILL_SHARE = 0.86
GREATEST_W_PER_M2 = 250.0
GREATEST_CURRENT_A = 25.0  # of one panel: large cells give some 20 A
STRING_FROM_V = 100.0
TOO_CHEAP_EUR_PER_W = 0.08
# Rough worth of a currency in euro: it only decides whether a price is far too low.
ROUGH_EUR = {"EUR": 1.0, "GBP": 1.15, "USD": 0.9, "PLN": 0.23, "CZK": 0.04, "DKK": 0.134, "CHF": 1.05}


def figure_doubts(panel: Found, inverter: Found) -> set[str]:
    """Codes of what does not hang together among the figures."""
    found: set[str] = set()
    value = {name: one[0] for name, one in panel.items()}
    power, voc, isc = value.get("power"), value.get("voc"), value.get("isc")
    vmp, imp = value.get("vmp"), value.get("imp")
    if power and vmp and imp and abs(vmp * imp / power - 1) > PRODUCT_SHARE:
        found.add("power_vs_vi")
    if power and voc and isc and power > GREATEST_FILL_SHARE * voc * isc:
        found.add("power_vs_vi")
    if (voc and vmp and voc <= vmp) or (power and power / min(voc or power, vmp or power) > GREATEST_CURRENT_A):
        found.add("power_vs_vi")
    if isc and imp and imp >= isc:
        found.add("isc_not_above_imp")
    cells = value.get("cells")
    if voc and cells and not CELL_VOLTAGE_V[0] <= voc / cells <= CELL_VOLTAGE_V[1]:
        found.add("voc_vs_cells")
    if power and "length" in value and power / (value["length"] * value["width"] * 1e-6) > GREATEST_W_PER_M2:
        found.add("power_vs_area")
    if any(inverter[name][0] >= STRING_FROM_V for name in ("tracking_min", "start") if name in inverter):
        found.add("string_inverter")
    if "max_in" in inverter and inverter["max_in"][0] > MOST_INPUT_V:
        found.add("string_inverter")
    return found


def too_cheap(each: float | None, currency: str | None, power_w: float | None) -> bool:
    """Is the price a watt of new or unused panels below what the trade pays?"""
    if each is None or not power_w or currency not in ROUGH_EUR or each <= 0:
        return False
    return each * ROUGH_EUR[currency] / power_w < TOO_CHEAP_EUR_PER_W
