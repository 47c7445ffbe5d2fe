"""Which datasheet facts of a panel are taken where the caller gives none? The panel's rows of the table of defaults."""

from service.core.completion.rows import NEUTRAL, PUBLIC_LIST, TRADE, WARY, Row

_FORMATS = f"{TRADE}, beside the {PUBLIC_LIST.split(';', maxsplit=1)[0]}"
_CELL_KINDS = f"{PUBLIC_LIST}; kinds newer than the list: {TRADE}"
_CODED = f"{PUBLIC_LIST.split(';', maxsplit=1)[0]}, under the model code given: a claim, no proof"
_BY_CODE = "of the listed panels with this model code, where power, size and given ratings agree"
_RELATION = "ratios of voltages and currents, public panel list of 2019 and trade figures; the rated power closes"


def _panel(name: str, **row: object) -> Row:
    return Row(pointer=f"/arrays/*/panel/{name}", **row)  # type: ignore[arg-type]


def _electric(name: str, unit: str, class_rule: str, relation_rule: str) -> tuple[Row, ...]:
    return (
        _panel(name, code="panel_class", rule=class_rule, unit=unit, source=_FORMATS, moves_energy=True),
        _panel(name, code="datasheet_relation", rule=relation_rule, unit=unit, source=_RELATION, moves_energy=True),
        _panel(name, code="listed_code", rule=_BY_CODE, unit=unit, source=_CODED, moves_energy=True),
    )


PANEL_ROWS: tuple[Row, ...] = (
    *_electric(
        "open_circuit_voltage_v", "V",
        "0.586 V a cell in series + 0.0127 V a watt (mono, poly; cells newer than 2019: its mean with the voltage that "
        "the current of the cell size leaves; other kinds by volts a cell)",
        "voltage at maximum power over the kind's ratio",
    ),
    *_electric(
        "short_circuit_current_a", "A", "current at maximum power over the kind's ratio",
        "current at maximum power over the kind's ratio",
    ),
    *_electric(
        "max_power_voltage_v", "V", "open-circuit voltage times the kind's ratio",
        "rated power over the current, or open-circuit voltage times the kind's ratio",
    ),
    *_electric(
        "max_power_current_a", "A", "rated power over the voltage at maximum power",
        "rated power over the voltage, or short-circuit current times the kind's ratio",
    ),
    _panel("cells_in_series", code="panel_class", rule="the commonest format with this power, size, age and these "
           "ratings; half-cut panels count half", source=_FORMATS, moves_energy=True),
    _panel("voc_coefficient_pct_per_k", code="panel_class", rule="by kind of cell", unit="%/K", source=_CELL_KINDS,
           moves_energy=True),
    _panel("isc_coefficient_pct_per_k", code="panel_class", rule="by kind of cell", unit="%/K", source=_CELL_KINDS,
           moves_energy=True),
    _panel("power_coefficient_pct_per_k", code="panel_class", rule="by kind of cell", unit="%/K", source=_CELL_KINDS,
           moves_energy=True),
    _panel("cell_kind", code="commonest_kind", value="mono", source=TRADE),
    _panel("bifaciality_share", code="one_sided", value=0.0, source=WARY, low=0.0, high=0.8),
    _panel("length_mm", code="panel_class", rule="by format, else from power", unit="mm", source=_FORMATS),
    _panel("width_mm", code="panel_class", rule="by format, else from power", unit="mm", source=_FORMATS),
    _panel("weight_kg", code="panel_class", rule="by format, else 11 kg a square metre", unit="kg", source=_FORMATS),
    _panel("age_years", code="middle_age", value=5.0, unit="a", source="judgement: half of the range, where nobody "
           "tells that a panel is unused", low=0.0, high=10.0, moves_energy=True),
    _panel("age_years", code="made_then", rule="half-way between the first and the last year in which panels of this "
           "size and build had this power, at most 25 years ago", unit="a", source=_FORMATS, moves_energy=True),
    _panel("age_years", code="taken_as_new", value=0.0, unit="a", source="an unused panel was in no use"),
    _panel("power_tolerance_pct", code="label_tolerance", value=[0.0, 3.0], unit="%", source=TRADE),
    _panel("connector", code="not_said", value="not_known", source=NEUTRAL),
    _panel("glass", code="commonest_kind", value="glass_foil", source=WARY),
    _panel("history", code="not_said", value="not_known", source=NEUTRAL),
    *(
        _panel(name, code="public_list", rule=rule, unit=unit, source=PUBLIC_LIST, moves_energy=True)
        for name, unit, rule in (
            ("open_circuit_voltage_v", "V", "as by class; range of the listed panels with this power, build and size"),
            ("short_circuit_current_a", "A", "as by class; range of the listed panels with this power, build and size"),
        )
    ),
    *(
        _panel(name, code="listed_code", rule=_BY_CODE, unit=unit, source=_CODED, moves_energy=True)
        for name, unit in (
            ("cells_in_series", ""), ("cell_kind", ""), ("voc_coefficient_pct_per_k", "%/K"),
            ("isc_coefficient_pct_per_k", "%/K"), ("power_coefficient_pct_per_k", "%/K"),
        )
    ),
)  # fmt: skip
