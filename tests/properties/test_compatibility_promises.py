"""Promises of the compatibility check that hold for any set."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from service.core.compatibility import Compatibility
from service.core.compatibility.cold import nec_factor
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import WORST_FIRST, Verdict, worst
from service.core.model.pointer import replaced_at, value_at
from service.core.rules import card_for
from service.data.local_rules import cards_of
from tests.findings import told
from tests.properties.compatibility_strategies import AS_OF, asked, setups

SETS = setups()


def measured(compatibility: Compatibility, code: str) -> dict[str, float]:
    return {f.about: f.measured for f in compatibility.findings if f.code == code and f.measured is not None}


def verdicts(compatibility: Compatibility, code: str) -> dict[str, Verdict]:
    return {f.about: f.verdict for f in compatibility.findings if f.code == code}


@given(SETS, st.floats(0, 30))
def test_colder_air_never_lowers_the_cold_voltage(setup: Setup, colder_k: float) -> None:
    cold = replaced_at(setup, "/site/coldest_air_c", setup.site.coldest_air_c - colder_k)
    before, after = measured(asked(setup), "cold_voltage"), measured(asked(cold), "cold_voltage")
    assert all(after[about] >= before[about] - 1e-9 for about in before)


@given(st.floats(-60, 45), st.floats(0, 30))
def test_colder_air_never_lowers_the_factor_of_the_table(air_c: float, colder_k: float) -> None:
    here, colder = nec_factor(air_c), nec_factor(air_c - colder_k)
    assert colder is None or (here is not None and colder >= here)


@given(SETS)
def test_one_more_panel_in_series_never_lowers_voltage_and_in_parallel_never_current(setup: Setup) -> None:
    before = asked(setup)
    for at, array in enumerate(setup.arrays):
        more = asked(replaced_at(setup, f"/arrays/{at}/count", array.count + 1))
        for code in ("cold_voltage", "hot_voltage", "operating_current", "short_circuit_current"):
            old, new = measured(before, code), measured(more, code)
            assert all(new[about] >= old[about] - 1e-9 for about in old)
        grows = "cold_voltage" if array.joined == "series" else "short_circuit_current"
        about = f"/arrays/{at}" if array.joined == "series" else f"/inverter/inputs/{array.input - 1}"
        assert array.count == 1 or measured(more, grows)[about] > measured(before, grows)[about]


LIMITS = {
    "max_input_voltage_v": "cold_voltage", "max_short_circuit_current_a": "short_circuit_current",
    "max_current_a": "operating_current", "max_panel_power_w": "panel_power",
}  # fmt: skip


@given(SETS, st.sampled_from(sorted(LIMITS)), st.floats(0.5, 0.99))
def test_a_stricter_limit_never_turns_a_refusal_into_a_fit(setup: Setup, name: str, share: float) -> None:
    stricter = setup
    for k, limits in enumerate(setup.inverter.inputs):
        value = getattr(limits, name)
        if value is not None:
            stricter = replaced_at(stricter, f"/inverter/inputs/{k}/{name}", share * value)
    before, after = verdicts(asked(setup), LIMITS[name]), verdicts(asked(stricter), LIMITS[name])
    assert set(before) == set(after)
    for about, verdict in before.items():
        assert not (verdict != Verdict.FITS and after[about] == Verdict.FITS)
        assert not (verdict == Verdict.DOES_NOT_FIT and after[about] != Verdict.DOES_NOT_FIT)


NEEDED = (
    "/inverter/inputs/{k}/max_input_voltage_v", "/inverter/inputs/{k}/max_current_a",
    "/inverter/inputs/{k}/tracking_min_v", "/inverter/inputs/{k}/start_voltage_v",
    "/arrays/0/panel/open_circuit_voltage_v", "/arrays/0/panel/short_circuit_current_a",
    "/arrays/0/panel/max_power_voltage_v", "/arrays/0/panel/max_power_current_a",
)  # fmt: skip


@given(SETS, st.sampled_from(NEEDED), st.floats(0, 0.2))
def test_a_missing_rating_never_yields_fits(setup: Setup, pattern: str, spread: float) -> None:
    pointer = pattern.format(k=setup.arrays[0].input - 1)
    value = value_at(setup, pointer)
    ranged = None if value is None else (value * (1 - spread), value * (1 + spread))
    low, high = ranged or (None, None)
    missing = Assumption(pointer=pointer, value=value, code="class", source="", low=low, high=high)
    assert asked(setup, Assumptions.of([missing])).by_part["panel_side"] in (Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT)


@given(SETS)
def test_no_short_circuit_limit_at_all_never_yields_fits(setup: Setup) -> None:
    for k in range(2):
        for name in ("max_short_circuit_current_a", "max_panel_short_circuit_current_a"):
            setup = replaced_at(setup, f"/inverter/inputs/{k}/{name}", None)
    assert set(verdicts(asked(setup), "short_circuit_current").values()) == {Verdict.NOT_KNOWN}


@given(SETS)
def test_an_unknown_breaker_cable_or_device_never_yields_fits(setup: Setup) -> None:
    if setup.socket_circuit is None:
        assert "socket_side" not in asked(setup).by_part
        return
    for name, unknown in (("breaker_a", None), ("cable_mm2", None), ("residual_current_device", "not_known")):
        open_setup = replaced_at(setup, f"/socket_circuit/{name}", unknown)
        assert asked(open_setup).by_part["socket_side"] in (Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT)


@given(SETS)
def test_the_whole_is_the_worst_of_its_parts_and_they_of_their_findings(setup: Setup) -> None:
    compatibility = asked(setup)
    assert compatibility.verdict == worst(compatibility.by_part.values())
    assert compatibility.verdict == worst(f.verdict for f in compatibility.findings)
    for part, verdict in compatibility.by_part.items():
        assert verdict == worst(f.verdict for f in compatibility.findings if f.part == part)


@given(SETS)
def test_the_order_of_the_arrays_does_not_matter(setup: Setup) -> None:
    turned = asked(replace(setup, arrays=setup.arrays[::-1]))

    def tale(compatibility: Compatibility) -> list[tuple[object, ...]]:
        return sorted(
            (f.code, str(f.verdict), str(f.likely), f.input or 0, "" if f.measured is None else f"{f.measured:.6g}")
            for f in compatibility.findings
        )

    assert tale(turned) == tale(asked(setup))


@given(SETS, st.floats(50, 2000), st.floats(0.1, 1.0))
def test_a_lower_cap_never_turns_a_refusal_into_a_fit(setup: Setup, cap_w: float, share: float) -> None:
    card = card_for(cards_of(setup.site.rule_area), AS_OF)
    high = replace(card, ac_cap_w=cap_w, ac_cap_inclusive=True, panel_cap_wp=cap_w)
    low = replace(high, ac_cap_w=share * cap_w, panel_cap_wp=share * cap_w)
    for code in ("local_cap", "panel_cap"):
        before, after = verdicts(asked(setup, card=high), code), verdicts(asked(setup, card=low), code)
        for about, verdict in before.items():
            assert verdict == Verdict.FITS or after[about] != Verdict.FITS


@given(SETS)
def test_every_remedy_betters_its_finding_or_asks_somebody(setup: Setup) -> None:
    for finding in asked(setup).findings:
        assert finding.verdict != Verdict.FITS or not finding.remedies
        for remedy in finding.remedies:
            better = WORST_FIRST.index(remedy.verdict_then) > WORST_FIRST.index(finding.verdict)
            assert better or remedy.code.startswith("ask_")
        if finding.verdict == Verdict.NOT_KNOWN:
            assert finding.remedies, finding


@given(SETS)
def test_the_same_question_gets_the_same_answer(setup: Setup) -> None:
    assert told(asked(setup)) == told(asked(setup))
