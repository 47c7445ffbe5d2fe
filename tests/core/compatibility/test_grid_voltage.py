"""The voltage that the inverter is made for, beside that of the socket."""

from typing import Any

import pytest

from service.core.model.finding import Finding
from service.core.model.pointer import replaced_at
from tests import builders
from tests.core.compatibility.ask import answer, assumed, one


def voltage(made_for: float, *assumptions: Any, area: str = "US-UT", **circuit: Any) -> Finding:
    return one("grid_voltage", answer(
        *assumptions, site=builders.site(rule_area=area), inverter=builders.inverter(grid_voltage_v=made_for),
        socket_circuit=builders.socket_circuit(**circuit),
    ))  # fmt: skip


@pytest.mark.parametrize(
    ("made_for", "socket", "verdict"),
    [(230, 120, "does_not_fit"), (120, 120, "fits"), (240, 240, "fits"), (240, 120, "does_not_fit"),
     (230, 207, "fits"), (230, 206, "does_not_fit"), (230, 253, "fits"), (230, 254, "does_not_fit")],
)  # fmt: skip
def test_an_inverter_runs_within_a_tenth_of_its_voltage_only(made_for: float, socket: float, verdict: str) -> None:
    """IEC 60038:2009: 230 V +- 10 % is 207 to 253 V. From memory."""
    assert voltage(made_for, voltage_v=socket).verdict == verdict


def test_an_inverter_for_another_grid_is_mended_by_one_for_this() -> None:
    [remedy] = voltage(230, voltage_v=120).remedies
    assert (remedy.code, remedy.pointer, remedy.new_value) == ("other_inverter", "/inverter/grid_voltage_v", 120)
    mended = replaced_at(builders.setup(), str(remedy.pointer), remedy.new_value).inverter
    circuit = builders.socket_circuit(voltage_v=120)
    assert one("grid_voltage", answer(inverter=mended, socket_circuit=circuit)).verdict == remedy.verdict_then == "fits"


def test_a_voltage_taken_from_the_area_settles_it_only_where_all_of_its_voltages_agree() -> None:
    here = assumed("/socket_circuit/voltage_v", 230, 230, 240)
    assert voltage(230, here, area="PT", voltage_v=230).verdict == "fits"
    two = assumed("/socket_circuit/voltage_v", 120, 120, 240)
    found = voltage(240, two, voltage_v=120)
    assert (found.verdict, found.facts["missing"]) == ("not_known", "voltage_v")
    assert [r.code for r in found.remedies] == ["ask_electrician"]
    assert voltage(100, two, voltage_v=120).verdict == "does_not_fit"


def test_a_voltage_that_nobody_named_was_not_looked_at() -> None:
    silent = answer(socket_circuit=builders.socket_circuit())
    assert "/inverter/grid_voltage_v" in silent.not_looked_at
    assert not [f for f in silent.findings if f.code == "grid_voltage"]
