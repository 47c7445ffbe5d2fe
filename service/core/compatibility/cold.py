"""How many volts does a string give on the coldest morning, and does that stay within a limit?

The method of IEC 62548 and IEC 60364-7-712: the open-circuit voltage moved to the lowest temperature to be expected, by
the panel's own coefficient. Where none is known, the table of NEC 690.7(A) in areas of that code, else the class's.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import ceil

from service.core.compatibility.conductors import is_us
from service.core.compatibility.reach import Outcome, Reach, at_most, combined
from service.core.compatibility.wiring import Strings, Wiring
from service.core.model.finding import Verdict

COLD_SOURCE = (
    "IEC 62548 and IEC 60364-7-712: open-circuit voltage corrected to the lowest temperature expected, cell at the "
    "air's, no sun"
)
NEC_SOURCE = "NEC (NFPA 70:2017) Table 690.7(A), crystalline silicon, used where no coefficient is known"
CRYSTALLINE = frozenset({"mono", "poly", "topcon", "hjt", "back_contact"})
COLDEST = "/site/coldest_air_c"

# NEC (NFPA 70:2017) Table 690.7(A): (coldest air down to this, factor on the
# open-circuit voltage at 25 C). Crystalline silicon.
NEC_690_7_A = (
    (20.0, 1.02), (15.0, 1.04), (10.0, 1.06), (5.0, 1.08), (0.0, 1.10), (-5.0, 1.12), (-10.0, 1.14), (-15.0, 1.16),
    (-20.0, 1.18), (-25.0, 1.20), (-30.0, 1.21), (-35.0, 1.23), (-40.0, 1.25),
)  # fmt: skip


def voltage_at_cell(voltage_v: float, coefficient_pct_per_k: float, cell_c: float) -> float:
    """Open-circuit voltage at a cell temperature in V, by the datasheet's coefficient (%/K, of the 25 C value).

    >>> round(voltage_at_cell(49.3, -0.28, -18), 2)
    55.24
    """
    return voltage_v * (1 + coefficient_pct_per_k / 100 * (cell_c - 25))


def nec_factor(coldest_c: float) -> float | None:
    """NEC Table 690.7(A): factor on the open-circuit voltage; None below -40 C, 1 above 24 C.

    Between two rows the colder one's factor is taken.

    >>> nec_factor(-18), nec_factor(-5), nec_factor(-5.5), nec_factor(-41)
    (1.18, 1.12, 1.14, None)
    """
    if coldest_c > 24:
        return 1.0
    return next((factor for down_to, factor in NEC_690_7_A if coldest_c >= down_to), None)


def _factor_in_any_cold(coldest_c: float) -> float:
    """``nec_factor``; below the table's end it goes on by its last step for each 5 K begun.

    That is 0.4 % a K, steeper than the coefficient of any crystalline panel, so that colder is never less.
    """
    factor = nec_factor(coldest_c)
    if factor is not None:
        return factor
    (_, before), (end_c, last) = NEC_690_7_A[-2:]
    return last + (last - before) * ceil((end_c - coldest_c) / 5)


@dataclass(frozen=True, slots=True)
class ColdVolts:
    """Open-circuit voltage of one string in the cold, V.

    ``method``: ``coefficient``; ``class``, where the coefficient was assumed; ``nec_table``, where none is known in an
    area of that code and the panel is said to be of crystalline silicon, for which the table is. ``coldest_c``: lowest,
    expected and highest temperature of the coldest morning; all the same where the caller told it.
    """

    method: str
    coldest_c: tuple[float, float, float]
    _volts: Callable[[float], Reach]
    _by_class: Callable[[float], Reach]
    _known: dict[tuple[str, float], Reach] = field(default_factory=dict)

    @property
    def expected(self) -> Reach:
        """At the expected temperature."""
        return self._at("volts", self.coldest_c[1])

    @property
    def at_worst(self) -> Reach:
        """At the lowest that it may be."""
        return self._at("volts", self.coldest_c[0])

    def judged(self, limit: Reach) -> Outcome:
        """Does the voltage stay within a limit?

        An estimated temperature counts as any assumed rating does: what fits, or fails, at one end of its range only is
        not known before somebody tells how cold it gets.
        """
        lowest, expected, highest = self.coldest_c
        outcome = self._within(limit, expected)
        if lowest == highest:
            return outcome
        worst = self._within(limit, lowest)
        if outcome.verdict == Verdict.DOES_NOT_FIT:
            kind = self._within(limit, highest)
            proven = kind.verdict == Verdict.DOES_NOT_FIT
            return outcome if proven else Outcome(Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT, (*kind.missing, COLDEST))
        if worst.likely == outcome.likely and worst.verdict == outcome.verdict:
            return outcome
        return Outcome(Verdict.NOT_KNOWN, worst.likely, (*outcome.missing, COLDEST))

    def _within(self, limit: Reach, coldest_c: float) -> Outcome:
        """The same at one temperature.

        Where the table stands in for the coefficient, a refusal is proven only if the kindest coefficient of the class
        fails too, and a fit holds only if the steepest one does not overtake the table.
        """
        outcome = at_most(self._at("volts", coldest_c), limit)
        if self.method != "nec_table" or outcome.missing:
            return outcome
        other = at_most(self._at("by_class", coldest_c), limit)
        if other.verdict == outcome.verdict or other.likely == outcome.verdict == Verdict.FITS:
            return outcome
        return Outcome(Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT, other.missing)

    def _at(self, which: str, coldest_c: float) -> Reach:
        key = which, coldest_c
        if key not in self._known:
            self._known[key] = (self._volts if which == "volts" else self._by_class)(coldest_c)
        return self._known[key]


def cold_volts(wiring: Wiring, strings: Strings) -> ColdVolts:
    """The volts of one string in the cold; those of unlike panels in one string add."""
    members = wiring.in_string(strings)
    methods = {member.at: _method(wiring, member) for member in members}
    method = next(one for one in ("nec_table", "class", "coefficient") if one in methods.values())

    def volts(coldest_c: float) -> Reach:
        return _summed(
            [
                _by_table(wiring, one, coldest_c)
                if methods[one.at] == "nec_table"
                else _by_coefficient(wiring, one, coldest_c)
                for one in members
            ]
        )

    def by_class(coldest_c: float) -> Reach:
        return _summed([_by_coefficient(wiring, one, coldest_c) for one in members])

    return ColdVolts(method, _coldest_c(wiring), volts, by_class)


def _summed(parts: list[Reach]) -> Reach:
    return parts[0] if len(parts) == 1 else combined(lambda *volts: sum(volts), *parts)


def _coldest_c(wiring: Wiring) -> tuple[float, float, float]:
    value = wiring.setup.site.coldest_air_c
    guess = wiring.assumptions.by_pointer.get(COLDEST)
    if guess is None or guess.low is None or guess.high is None:
        return value, value, value
    return guess.low, value, guess.high


def _method(wiring: Wiring, strings: Strings) -> str:
    if not wiring.of_panel(strings, "voc_coefficient_pct_per_k").missing:
        return "coefficient"
    told = not wiring.assumptions.assumed(f"{strings.pointer}/panel/cell_kind")
    silicon = strings.panel.cell_kind in CRYSTALLINE and told
    return "nec_table" if silicon and is_us(wiring.setup.site.rule_area) else "class"


def _by_table(wiring: Wiring, strings: Strings, coldest_c: float) -> Reach:
    factor = strings.in_series * _factor_in_any_cold(coldest_c)
    return combined(lambda volts: factor * volts, wiring.of_panel(strings, "open_circuit_voltage_v"))


def _by_coefficient(wiring: Wiring, strings: Strings, coldest_c: float) -> Reach:
    return combined(
        lambda volts, per_k: strings.in_series * voltage_at_cell(volts, per_k, coldest_c),
        wiring.of_panel(strings, "open_circuit_voltage_v"),
        wiring.of_panel(strings, "voc_coefficient_pct_per_k"),
    )
