"""How is a panel written in a request?"""

from typing import Annotated

from pydantic import Field

from service.api import fields as f
from service.api.schemas.base import In


class PanelIn(In):
    """The datasheet facts of one panel; all but the rated power may be missing and is then assumed and reported."""

    rated_power_w: f.RatedPowerW
    open_circuit_voltage_v: f.OpenCircuitVoltageV | None = None
    short_circuit_current_a: f.ShortCircuitCurrentA | None = None
    max_power_voltage_v: f.MaxPowerVoltageV | None = None
    max_power_current_a: f.MaxPowerCurrentA | None = None
    cells_in_series: f.CellsInSeries | None = None
    voc_coefficient_pct_per_k: f.VocCoefficientPctPerK | None = None
    voc_coefficient_v_per_k: f.VocCoefficientVPerK | None = None
    voc_coefficient_mv_per_k: f.VocCoefficientMvPerK | None = None
    isc_coefficient_pct_per_k: f.IscCoefficientPctPerK | None = None
    isc_coefficient_a_per_k: f.IscCoefficientAPerK | None = None
    isc_coefficient_ma_per_k: f.IscCoefficientMaPerK | None = None
    power_coefficient_pct_per_k: f.PowerCoefficientPctPerK | None = None
    max_system_voltage_v: f.MaxSystemVoltageV | None = None
    max_series_fuse_a: f.MaxSeriesFuseA | None = None
    cell_kind: f.CellKind | None = Field(default=None, description="Kind of the cells.")
    half_cells: f.Yes | None = Field(
        default=None,
        description="Are the cells cut in two? Then the panel's halves lie in parallel, and a shadow (`overhang`, "
        "`hand_rail`, `row_in_front`; `side_walls` beside a lengthwise panel) that touches one half leaves the other "
        "at work. Where absent they count as whole, which costs no less. How high a row of cells is follows from "
        "`length_mm`, `width_mm` and `cells_in_series`, six columns of them; where that makes no cells of 10 to 22 cm, "
        "about square, 17 cm are taken.",
    )
    bifaciality_share: f.BifacialityShare | None = None
    length_mm: f.LengthMm | None = None
    width_mm: f.WidthMm | None = None
    weight_kg: f.WeightKg | None = None
    age_years: f.AgeYears | None = None
    power_tolerance_pct: (
        Annotated[
            list[f.PowerTolerancePct],
            Field(
                min_length=2,
                max_length=2,
                description="Least and most that the power may differ from the label, in per cent.",
                examples=[[0, 3]],
            ),
        ]
        | None
    ) = None
    connector: f.Connector | None = Field(default=None, description="Connector at the panel's leads.")
    connector_make: f.ConnectorMake | None = None
    glass: f.Glass | None = Field(default=None, description="Glass in front with foil behind, or glass on both sides.")
    history: f.History | None = Field(default=None, description="Where the panel has been until now.")
    model_code: f.ModelCode | None = None
