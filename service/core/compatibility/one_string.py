"""What is lost, and what is not tested, where unlike panels are one string?

One current flows through all. What is lost: the joint curve against each panel's own maximum. What is not tested: the
bypass diodes of the weaker panel carry the stronger one's current whenever it is passed by, and their type test goes to
1.25 times the panel's own short-circuit current.
"""

import numpy as np

from service.core.compatibility.current import rear_gain_share
from service.core.compatibility.finding import made
from service.core.compatibility.reach import Outcome, at_most, combined
from service.core.compatibility.wiring import FULL_SUN_W_PER_M2, Strings, Wiring
from service.core.model.facts import Input
from service.core.model.finding import Fact, Finding, Part, Verdict
from service.core.panel import Branch, drawn_in_string, max_power

# IEC 61215-2 MQT 18.1, bypass diode thermal test: one hour at 1.25 x the panel's own Isc (from memory).
DIODES_TESTED_AT = 1.25
DIODE_SOURCE = "IEC 61215-2 MQT 18: bypass diodes are tested at 1.25 x the panel's own short-circuit current"
CURVE_SOURCE = "joint curve of the string in full sun, single-diode model with bypass diodes"
STRING_LOSS_PCT = 1.0


def unlike_in_string(wiring: Wiring, index: int, here: tuple[Strings, ...]) -> Finding:
    """What the panels of one string lose by sharing one current, and whether bypass diodes were tested for it.

    ``fits`` only for panels of like currents that look the same way: unlike planes lose by the darker one, which full
    sun does not show; the year's energy does.
    """
    currents = {s.at: wiring.of_panel(s, "short_circuit_current_a") for s in here}
    bright = [1 + rear_gain_share(wiring, s) for s in here]  # light on the rear adds to what the diodes carry
    strongest = combined(lambda *amps: max(a * more for a, more in zip(amps, bright, strict=True)), *currents.values())
    tested = combined(lambda *amps: DIODES_TESTED_AT * min(amps), *currents.values())
    diodes = at_most(strongest, tested, Verdict.NOT_KNOWN)
    lost_pct = _lost_pct(wiring, index, here)
    planes_differ = any(s.array.plane != here[0].array.plane for s in here)
    facts: dict[str, Fact] = {"arrays": ", ".join(s.array.name for s in here), "planes_differ": planes_differ}
    about = f"/inverter/inputs/{index}"
    if diodes.verdict == Verdict.NOT_KNOWN and not diodes.missing:
        facts |= {"variant": "bypass_diodes", "lost_in_full_sun_pct": lost_pct}
        return made(
            "unlike_panels", Part.PANEL_SIDE, Outcome(Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT), about,
            input_number=index + 1, facts=facts, numbers=(strongest.value, tested.value, "A"), source=DIODE_SOURCE,
        )  # fmt: skip
    missing = diodes.missing + tuple(
        pointer for s in here for name in ("max_power_current_a", "max_power_voltage_v")
        for pointer in wiring.of_panel(s, name).missing
    )  # fmt: skip
    loses = lost_pct is None or lost_pct > STRING_LOSS_PCT or planes_differ
    likely = Verdict.FITS_WITH_LOSS if loses else Verdict.FITS
    outcome = Outcome(Verdict.NOT_KNOWN, likely, tuple(dict.fromkeys(missing))) if missing else Outcome(likely, likely)
    if lost_pct is None and not missing:
        outcome = Outcome(Verdict.NOT_KNOWN, Verdict.NOT_KNOWN)
    facts["variant"] = "string_planes" if planes_differ else "string"
    return made(
        "unlike_panels", Part.PANEL_SIDE, outcome, about, input_number=index + 1, facts=facts,
        numbers=(lost_pct, STRING_LOSS_PCT, "%"), source=CURVE_SOURCE,
    )  # fmt: skip


def _lost_pct(wiring: Wiring, index: int, here: tuple[Strings, ...]) -> float | None:
    """Per cent of the separate maxima in full sun that one current costs; None where a sheet makes no curve."""
    limits: Input = wiring.setup.inverter.inputs[index]
    branches = []
    for strings in here:
        diode = wiring.curves.diode(strings.panel)
        if diode is None:
            return None
        sun, cell = np.array([FULL_SUN_W_PER_M2]), np.array([25.0])
        branches.append(
            Branch(diode=diode, irradiance_w_per_m2=sun, cell_c=cell, in_series=strings.in_series, strings=1.0)
        )
    together = sum(float(one.available_w[0]) for one in drawn_in_string(branches, limits))
    apart = sum(float(max_power(b.diode, FULL_SUN_W_PER_M2, 25.0).power_w[0]) * b.in_series for b in branches)
    lost = 100 * (1 - together / apart)
    return lost if lost > 0.05 else 0.0
