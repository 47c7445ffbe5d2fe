"""The bench of energy: all ways tell nearly the same year, and the kernel costs next to nothing beside the others."""

from dataclasses import replace
from pathlib import Path

import pytest

from service.api.answers.question import Question
from service.api.schemas.requests import AppraisalIn
from service.app import deps_of
from service.bench.energy import energy_cost, energy_off_pct, report
from service.bench.energy_bulk import bulk_cost
from service.bench.energy_bulk import report as bulk_report
from service.bench.energy_what_if import report as what_if_report
from service.bench.energy_what_if import what_if_cost
from service.settings import Settings

# The library's chain reads an attribute that its own table package has deprecated.
pytestmark = pytest.mark.filterwarnings("ignore:DatetimeIndex.dayofyear is deprecated")


@pytest.fixture(scope="module")
def cost():
    return energy_cost(Path("examples/kranichwerft.json"), rounds=1)


def test_the_kernel_is_right_to_two_parts_in_ten_thousand(cost):
    for way in ("kernel, warm", "kernel, new planes", "kernel, cold"):
        assert cost.kwh[way] == pytest.approx(cost.kwh["plain chain"], rel=2e-4)


def test_the_worst_of_the_kernels_years_is_told_beside_the_others(cost):
    worse = replace(cost, kwh={**cost.kwh, "kernel, cold": 0.99 * cost.kwh["plain chain"]})
    assert energy_off_pct(worse)["plain chain"] == pytest.approx(-1.0)
    assert all(abs(off) < 0.02 for off in energy_off_pct(cost).values())


def test_what_others_would_do_tells_about_the_same_year(cost):
    # The usual chain: no leads (0.5 %), no dirt (2 %) and no incidence loss of sky and ground (some 4 % upright).
    assert cost.kwh["functions by hand"] == pytest.approx(cost.kwh["plain chain"], rel=1e-4)
    assert cost.kwh["library chain"] == pytest.approx(cost.kwh["plain chain"], rel=0.07)


def test_the_kernel_is_far_below_the_others_even_on_a_busy_machine(cost):
    assert cost.ratios["library chain / kernel, warm"] > 300
    assert cost.ratios["functions by hand / kernel, warm"] > 30
    assert cost.ratios["functions by hand / kernel, cold"] > 1


def test_the_table_has_a_line_for_every_figure(cost):
    table = report(cost)
    assert len(table.splitlines()) == len(cost.ratios) + len(cost.growth) + len(cost.ms) + 2
    assert "energy of the kernel against plain chain" in table
    assert "growth with planes" in table


def test_maps_flats_and_starts_are_timed_and_told():
    file = Path("examples/kranichwerft.json")
    question = Question.asked(AppraisalIn, file.read_bytes(), deps_of(Settings()))
    bulk = bulk_cost(file, question, lambda: sum(i * 0.5 for i in range(200_000)), rounds=1)
    assert all(ratio > 0 for ratio in bulk.ratios.values())
    lines = bulk_report(bulk).splitlines()
    assert len(lines) == len(bulk.ratios) + 4
    assert any(line.startswith("start / start that imports pvlib") for line in lines)


def test_changed_sets_are_timed_and_told_whichever_way_panels_share_an_input():
    cost = what_if_cost(Path("examples/kranichwerft.json"), lambda: sum(i * 0.5 for i in range(200_000)), rounds=1)
    assert len(cost.by_hand) == 5
    assert min(cost.changes.values()) >= 7
    assert len(what_if_report(cost).splitlines()) == 10
    # Solved at 120 points of its curve, as once, a string takes fifteen times as long as panels on inputs of their own.
    assert cost.by_hand["one string, another way"] < 6 * cost.by_hand["own inputs"]
