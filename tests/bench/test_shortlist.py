"""Does the bench of shortlists run, and stay near its goals? Few rounds; the goals are judged on a quiet machine."""

from dataclasses import replace
from pathlib import Path

from service.bench.shortlist import GOALS, ShortlistCost, report, shortlist_cost

FILE = Path(__file__).parents[2] / "examples/adverts/kranichwerft_shortlist.json"


def test_two_hundred_adverts_cost_no_more_than_some_years_of_the_library_by_hand() -> None:
    cost = shortlist_cost(FILE, rounds=2)
    assert 300 < cost.sets < 5000  # of very many adverts the first at a glance are judged
    assert cost.ratios["numbers / functions by hand"] < 6
    assert cost.ratios["whole answer / functions by hand"] < 30
    assert all(name in report(cost) for name in cost.ms)
    assert report(cost).count("goal: at most") == len(GOALS)


def test_a_goal_is_judged_as_a_ratio_to_a_year_by_hand_on_the_same_machine() -> None:
    name = "whole answer / functions by hand"
    near = ShortlistCost(ms={}, ratios={name: 14.6}, sets=1)
    assert "goal: at most 14.7 x, met" in report(near)
    assert "goal: at most 14.7 x, not met" in report(replace(near, ratios={name: 14.8}))
