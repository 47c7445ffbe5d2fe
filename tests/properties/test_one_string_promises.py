"""Promises about unlike panels in one string that hold for any set."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.compatibility import Compatibility
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Setup
from service.core.model.finding import Verdict
from service.core.model.pointer import replaced_at
from tests.properties.compatibility_strategies import arrays, asked, setups


def strings() -> st.SearchStrategy[Setup]:
    """Two or three unlike arrays in one string on input 1."""

    def wired(setup: Setup, members: list) -> Setup:  # type: ignore[type-arg]
        return replace(setup, arrays=tuple(replace(a, input=1, count=1, joined="one_string") for a in members))

    return st.builds(wired, setups(), st.lists(arrays(), min_size=2, max_size=3))


STRINGS = strings()
CODE_OF = {
    "open_circuit_voltage_v": "cold_voltage",
    "short_circuit_current_a": "short_circuit_current",
    "max_power_voltage_v": "hot_voltage",
    "max_power_current_a": "operating_current",
}


def figures(compatibility: Compatibility, code: str) -> list[float]:
    return sorted(f.measured for f in compatibility.findings if f.code == code and f.measured is not None)


@settings(max_examples=4, deadline=None)
@given(STRINGS)
def test_a_panel_more_in_the_string_never_lowers_voltage_and_never_adds_current(setup: Setup) -> None:
    fewer = replace(setup, arrays=setup.arrays[:-1])
    before, after = asked(fewer), asked(setup)
    for code in ("cold_voltage", "hot_voltage", "start_voltage"):
        assert max(figures(after, code)) > max(figures(before, code))
    # current never adds: at most that of the strongest panel alone on the input
    for at in range(len(setup.arrays)):
        alone = asked(replace(setup, arrays=(setup.arrays[at],)))
        assert figures(after, "operating_current")[0] >= figures(alone, "operating_current")[0] - 1e-9
    most = max(figures(asked(replace(setup, arrays=(a,))), "operating_current")[0] for a in setup.arrays)
    assert figures(after, "operating_current")[0] <= most + 1e-9


@settings(max_examples=4, deadline=None)
@given(STRINGS)
def test_the_order_of_the_panels_in_a_string_does_not_matter(setup: Setup) -> None:
    def tale(compatibility: Compatibility) -> list[tuple[str, str, str, str]]:
        return sorted(
            (f.code, str(f.verdict), str(f.likely), "" if f.measured is None else f"{f.measured:.6g}")
            for f in compatibility.findings
        )

    assert tale(asked(setup)) == tale(asked(replace(setup, arrays=setup.arrays[::-1])))


@settings(max_examples=4, deadline=None)
@given(STRINGS, st.floats(0, 30))
def test_colder_air_never_lowers_the_voltage_of_a_string(setup: Setup, colder_k: float) -> None:
    cold = replaced_at(setup, "/site/coldest_air_c", setup.site.coldest_air_c - colder_k)
    assert max(figures(asked(cold), "cold_voltage")) >= max(figures(asked(setup), "cold_voltage")) - 1e-9


@settings(max_examples=4, deadline=None)
@given(
    STRINGS,
    st.sampled_from(
        ("open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a")
    ),
)
def test_a_rating_missing_of_any_panel_of_a_string_never_yields_fits(setup: Setup, name: str) -> None:
    last = len(setup.arrays) - 1
    value = getattr(setup.arrays[last].panel, name)
    missing = Assumption(
        pointer=f"/arrays/{last}/panel/{name}", value=value, code="class", source="", low=0.9 * value, high=1.1 * value
    )
    found = asked(setup, Assumptions.of([missing]))
    assert Verdict.FITS not in {f.verdict for f in found.findings if f.code == CODE_OF[name]}
