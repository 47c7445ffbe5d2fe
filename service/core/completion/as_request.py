"""What would a caller have to send to get exactly this setup, with nothing assumed?"""

from dataclasses import fields, is_dataclass
from typing import Any

from service.core.model.facts import Household, Setup, TariffPeriod


def as_request(setup: Setup) -> dict[str, Any]:
    """The setup under the names of the interface, to be edited and sent again.

    Returns:
        Nested dicts and lists of JSON values; what is not there or not known is absent. Completing it again gives an
        equal setup; all that is then still assumed are things that no request can state (that no inverter swap is
        counted, that a short-circuit limit is not known).
    """
    return dict(_plain(setup))


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(entry) for entry in value]
    if isinstance(value, float):
        return value + 0.0  # -0.0 is nought, and told as it
    if not is_dataclass(value):
        return value
    pairs = ((f.name, getattr(value, f.name)) for f in fields(value))
    plain = {name: _plain(member) for name, member in pairs if member is not None}
    if isinstance(value, Household) and value.values_w is not None:
        plain["demand"] = {"values_w": plain.pop("values_w")}
        if "values_kind" in plain:
            plain["demand"]["kind"] = plain.pop("values_kind")
        if value.filled_share > 0.0:
            plain["demand"]["filled_share"] = value.filled_share
    if isinstance(value, Household):
        plain.pop("filled_share")
    if isinstance(value, TariffPeriod):
        _without_means(plain, value)
    return plain


def _without_means(plain: dict[str, Any], period: TariffPeriod) -> None:
    """Hourly prices are sent without their means, and no empty list of rates."""
    if not period.rates:
        plain.pop("rates")
    if period.hourly is not None:
        plain.pop("import_price_per_kwh")
        if period.hourly.export_prices_per_kwh is not None:
            plain.pop("export_price_per_kwh")
