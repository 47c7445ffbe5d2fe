"""Sets of the scenario with all that compatibility looks at drawn at random."""

from datetime import date
from typing import Any

from hypothesis import strategies as st

from service.core.compatibility import Compatibility, check
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Inverter, OtherSet, Panel, Setup, SocketCircuit
from service.core.rules import RuleCard, card_for
from service.data.local_rules import cards_of
from tests import builders

AS_OF = date(2026, 11, 25)
AREAS = ("DE", "AT", "CH", "IT", "PT", "GB", "FR", "NL", "BE", "US-UT", "US-ME", "US-TX", "UY")


def panels() -> st.SearchStrategy[Panel]:
    """Panels whose points make a curve; some ratings unknown, some two-sided, some with odd connectors."""
    return st.builds(
        _panel,
        cells=st.sampled_from([36, 54, 60, 66, 72, 96]),
        volts_a_cell=st.floats(0.6, 0.75),
        isc=st.floats(3, 18),
        fill=st.floats(0.72, 0.82),
        changes=st.fixed_dictionaries(
            {
                "voc_coefficient_pct_per_k": st.floats(-0.4, -0.22),
                "max_system_voltage_v": st.sampled_from([None, 50.0, 600.0, 1000.0]),
                "max_series_fuse_a": st.sampled_from([None, 10.0, 15.0, 25.0, 30.0]),
                "bifaciality_share": st.sampled_from([0.0, 0.7]),
                "connector": st.sampled_from(["locking_4mm", "older_locking", "older_unlocked", "bare", "not_known"]),
            }
        ),
    )


def _panel(cells: int, volts_a_cell: float, isc: float, fill: float, changes: dict[str, Any]) -> Panel:
    voc = cells * volts_a_cell
    vmp = 0.82 * voc
    imp = min(fill * voc * isc / vmp, 0.97 * isc)
    return builders.panel(
        cells_in_series=cells, open_circuit_voltage_v=voc, short_circuit_current_a=isc, max_power_voltage_v=vmp,
        max_power_current_a=imp, rated_power_w=vmp * imp, **changes,
    )  # fmt: skip


def arrays() -> st.SearchStrategy[Array]:
    """One to four panels, in series or in parallel, on input 1 or 2."""
    return st.builds(
        builders.array,
        input=st.sampled_from([1, 2]), count=st.integers(1, 4), joined=st.sampled_from(["series", "parallel"]),
        mount=st.sampled_from(["hung_on_rail", "ground_frame", "wall"]), panel=panels(),
    )  # fmt: skip


def inverters() -> st.SearchStrategy[Inverter]:
    """Two equal inputs with limits that are often too low and sometimes unknown."""
    one_input = st.builds(
        builders.one_input,
        max_input_voltage_v=st.sampled_from([None, 50.0, 60.0, 100.0, 150.0]), max_current_a=st.floats(8, 25),
        max_short_circuit_current_a=st.sampled_from([None, 15.0, 20.0, 40.0]),
        max_panel_short_circuit_current_a=st.sampled_from([None, 15.0, 20.0]),
        max_panel_power_w=st.sampled_from([None, 300.0, 600.0]),
        max_panel_power_kind=st.sampled_from(["maximum", "recommended", "not_known"]),
        tracking_min_v=st.sampled_from([14.0, 25.0, 40.0]), start_voltage_v=st.sampled_from([18.0, 30.0, 45.0]),
    )  # fmt: skip
    return st.builds(
        lambda limits, watts, share, papers, grid_v: builders.inverter(
            ac_power_w=watts, set_limit_w=share * watts, inputs=(limits, limits), certificates=papers,
            grid_voltage_v=grid_v,
        ),
        one_input, st.sampled_from([300.0, 600.0, 800.0, 1200.0]), st.sampled_from([0.5, 1.0]),
        st.sampled_from([None, (), ("VDE-AR-N 4105",), ("EN 50549-1", "CE marking")]),
        st.sampled_from([None, 120.0, 230.0, 240.0]),
    )  # fmt: skip


def circuits() -> st.SearchStrategy[SocketCircuit | None]:
    """A circuit with anything unknown in it, or none described."""
    other = st.builds(OtherSet, ac_power_w=st.sampled_from([300.0, 600.0]), panel_power_w=st.just(400.0),
                      same_circuit=st.booleans())  # fmt: skip
    described = st.builds(
        builders.socket_circuit,
        plug=st.sampled_from(["household", "special_connector", "fixed", "not_known"]),
        breaker_a=st.sampled_from([None, 10.0, 13.0, 16.0, 20.0]),
        cable_mm2=st.sampled_from([None, 1.5, 2.08, 2.5, 3.31, 4.0]),
        laying=st.sampled_from([None, "in_insulated_wall", "in_conduit", "under_plaster", "on_wall", "in_air"]),
        ambient_c=st.sampled_from([20.0, 25.0, 30.0, 45.0]), dedicated=st.sampled_from([None, True, False]),
        voltage_v=st.sampled_from([120.0, 230.0]), lead_length_m=st.floats(0, 80),
        lead_mm2=st.sampled_from([0.75, 1.0, 1.5, 2.5]),
        residual_current_device=st.sampled_from(["type_a", "type_b", "type_ac", "one_way", "none", "not_known"]),
        other_sets=st.lists(other, max_size=2).map(tuple), shared_neutral=st.sampled_from([None, True, False]),
    )  # fmt: skip
    return st.one_of(st.none(), described)


def setups() -> st.SearchStrategy[Setup]:
    """Whole sets in many areas."""
    return st.builds(
        lambda places, **facts: builders.setup(arrays=tuple(places), **facts),
        st.lists(arrays(), min_size=1, max_size=3),
        site=st.builds(lambda area, cold: builders.site(rule_area=area, coldest_air_c=cold),
                       st.sampled_from(AREAS), st.floats(-40, 20)),
        inverter=inverters(), socket_circuit=circuits(),
        meter=st.sampled_from(["two_way", "reversing", "one_way", "not_known"]).map(
            lambda counts: builders.facts.Meter(counts=counts, sums_phases=None, netting="instant")
        ),
    )  # fmt: skip


def asked(setup: Setup, assumptions: Assumptions | None = None, card: RuleCard | None = None) -> Compatibility:
    """The room's answer under the card of the set's area, every cell at 60 C."""
    card = card or card_for(cards_of(setup.site.rule_area), AS_OF)
    return check(setup, assumptions or Assumptions.of([]), (60.0,) * len(setup.arrays), card, AS_OF)
