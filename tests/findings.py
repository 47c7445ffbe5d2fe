"""Findings, compatibilities and accounts made by hand, for tests of what is concluded from them."""

from typing import Any

import numpy as np

from service.core.compatibility import Compatibility
from service.core.model.band import Band
from service.core.model.facts import Money
from service.core.model.finding import WORST_FIRST, Finding, Part, Remedy, Verdict, worst
from service.core.payback import discounted_payback_years, worth_up_to
from service.core.worth import Worth, YearFlow
from tests import builders

FITS, LOSS, REFUSED, OPEN = Verdict.FITS, Verdict.FITS_WITH_LOSS, Verdict.DOES_NOT_FIT, Verdict.NOT_KNOWN


def finding(code: str, part: Part, verdict: Verdict = FITS, **more: Any) -> Finding:
    """One checked question."""
    return Finding(**{"code": code, "part": part, "verdict": verdict, "likely": verdict, "about": "/arrays/0", **more})


def remedy(code: str, pointer: str | None = None, new_value: Any = None, **more: Any) -> Remedy:
    """A remedy that mends, by an electrician."""
    base = {"unit": "", "who": "electrician", "verdict_then": FITS}
    return Remedy(**{"code": code, "pointer": pointer, "new_value": new_value, **base, **more})


def compatibility(*findings: Finding) -> Compatibility:
    """The findings with one that fits on the panel side and one of the local rule, where none is given."""
    found = list(findings)
    for code, part in (("cold_voltage", Part.PANEL_SIDE), ("plug", Part.LOCAL_RULE)):
        if not any(f.part == part for f in found):
            found.append(finding(code, part))
    found.sort(key=lambda f: WORST_FIRST.index(f.verdict))
    by_part = {part: worst(f.verdict for f in found if f.part == part) for part in {f.part for f in found}}
    return Compatibility(verdict=worst(by_part.values()), by_part=by_part, findings=tuple(found), not_looked_at=())


def account(outlay: float | None, savings: tuple[float, float, float] = (80.0, 100.0, 120.0), **changes: Any) -> Worth:
    """A plain account of level yearly savings (cautious, middle, hopeful), without ageing or running cost."""
    money: Money = changes.pop("money", builders.money(inverter_swap=None))
    kept: int = changes.pop("kept", money.years)
    rate = money.discount_rate_share
    flows = [np.array([-(outlay or 0.0)] + [saving] * kept) for saving in savings]
    value = Band(*(worth_up_to(np.full(kept, saving), np.zeros(kept), rate) for saving in savings))
    crossings = [discounted_payback_years(flow, rate) for flow in flows]
    priced = outlay is not None
    base = {
        "outlay": outlay, "outlay_parts": None, "expected_year_kwh": 0.0, "years_kept": kept,
        "saving_first_year": Band(*savings),
        "least_by_import_price": 0.0, "simple_payback_years": Band(*(outlay / s for s in savings)) if priced else None,
        "undiscounted_payback_years": None,
        "discounted_payback_years": Band(*(c.first for c in crossings)) if priced else None,
        "lasting_payback_years": Band(*(c.lasting for c in crossings)) if priced else None,
        "net_present_value": None, "internal_rate_of_return_share": None, "internal_rates_of_return": (),
        "levelised_cost_per_kwh": None, "worth_up_to": value, "break_even": (), "sensitivity": (),
        "yearly_flows": tuple(
            YearFlow(year=year, saving=savings[1] if year else 0.0, cost=0.0 if year else outlay, resale=0.0,
                     unpaid=0.0)
            for year in range(kept + 1)
        ) if priced else (),
        "if_moving_after_years": None,
    }  # fmt: skip
    return Worth(**{**base, **changes})


def told(found: Compatibility) -> tuple[object, ...]:
    """All that was found, to be compared."""
    return found.verdict, dict(found.by_part), found.findings, found.not_looked_at
