"""Does the bench of shortlists run, and stay near its goals? Few rounds; the goals are judged on a quiet machine."""

from pathlib import Path

from service.bench.shortlist import report, shortlist_cost

FILE = Path(__file__).parents[2] / "examples/adverts/kranichwerft_shortlist.json"


def test_two_hundred_adverts_cost_no_more_than_some_years_of_the_library_by_hand() -> None:
    cost = shortlist_cost(FILE, rounds=2)
    assert 300 < cost.sets < 5000  # of very many adverts the first at a glance are judged
    assert cost.ratios["numbers / functions by hand"] < 6
    assert cost.ratios["whole answer / functions by hand"] < 30
    assert all(name in report(cost) for name in cost.ms)
