"""What is known of the panel whose identity is asked?"""

from dataclasses import dataclass

VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"
VMP, IMP = "max_power_voltage_v", "max_power_current_a"
POINTS = (VOC, ISC, VMP, IMP)
COEFFICIENTS = ("voc_coefficient_pct_per_k", "isc_coefficient_pct_per_k", "power_coefficient_pct_per_k")
RATINGS = (*POINTS, *COEFFICIENTS)


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelFacts:
    """Facts of one panel, each None where nobody said; units in the names, ``built`` is a year."""

    rated_power_w: float | None = None
    open_circuit_voltage_v: float | None = None
    short_circuit_current_a: float | None = None
    max_power_voltage_v: float | None = None
    max_power_current_a: float | None = None
    voc_coefficient_pct_per_k: float | None = None
    isc_coefficient_pct_per_k: float | None = None
    power_coefficient_pct_per_k: float | None = None
    cells_in_series: int | None = None
    cells_visible: int | None = None
    cell_kind: str | None = None
    length_mm: float | None = None
    width_mm: float | None = None
    built: int | None = None
    model_code: str | None = None

    @property
    def area_m2(self) -> float | None:
        """Area of the front, where both sides are known."""
        if self.length_mm is None or self.width_mm is None:
            return None
        return self.length_mm * self.width_mm / 1e6

    @property
    def cell_counts(self) -> frozenset[int] | None:
        """Cells in series that agree with what was counted: as seen, or half of it for cut cells; None: any."""
        if self.cells_in_series is not None:
            return frozenset({self.cells_in_series})
        if self.cells_visible is None:
            return None
        halves = {self.cells_visible // 2} if self.cells_visible % 2 == 0 and self.cells_visible > 2 else set()
        return frozenset({self.cells_visible} | halves)

    def rating(self, name: str) -> float | None:
        """A rating by its name."""
        value: float | None = getattr(self, name)
        return value
