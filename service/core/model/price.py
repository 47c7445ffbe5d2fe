"""What does a kWh cost at a place, and what is paid for one sent out? Dated, sourced figures, as plain values."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseholdPrice:
    """What households of an area pay for a kWh, all taxes in; the period it was published for, and by whom.

    With ``fixed_charges_inside`` the figure spreads standing charges over the year's kWh: a kWh not bought saves
    less than that. ``previous_*`` tell the figure of the period before, None where none was read. ``not_for`` names
    parts of the area that the figure does not cover.
    """

    area: str
    price_per_kwh: float
    currency: str
    period: str
    previous_period: str | None
    previous_price_per_kwh: float | None
    fixed_charges_inside: bool
    not_for: tuple[str, ...]
    source: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ExportPayExample:
    """What was paid for a kWh sent out, somewhere, once: an example with its date, never a default.

    ``price_per_kwh`` is None where a duty to pay was read but no figure; nought is a real value.
    """

    area: str
    price_per_kwh: float | None
    currency: str
    period: str
    kind: str
    source: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """The table of prices. ``read_on`` is the ISO date on which the sources were read."""

    read_on: str
    household: tuple[HouseholdPrice, ...]
    export_examples: tuple[ExportPayExample, ...]

    def of(self, area: str) -> HouseholdPrice | None:
        """The price of an ISO 3166 area: its own, else its country's; None where there is none, never a neighbour's."""
        by_area = {price.area: price for price in self.household}
        found = by_area.get(area) or by_area.get(area.partition("-")[0])
        return None if found is None or area in found.not_for else found

    def export_examples_of(self, area: str) -> tuple[ExportPayExample, ...]:
        """Examples of export pay of the area or its country, as listed."""
        return tuple(example for example in self.export_examples if example.area in {area, area.partition("-")[0]})
