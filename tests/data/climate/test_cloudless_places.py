"""Is the doubt of a cloudless sky learned so that regions it was not learned on lie within as often as they should?"""

from dataclasses import replace

import numpy as np
import pytest

from service.data.builders.climate.cloudless_places import Judged, cloudless_sd_of
from service.data.climate.accuracy import cloudless_share

Z = 1.2816  # of the first and the last tenth


def judged(region: object, off: float, **changes: float) -> Judged:
    """A site of full share with 5 % of other doubt and 1 % of its year's."""
    return replace(Judged(region=str(region), off=off, years_sd=0.01, rest_sd=0.05, share=1.0), **changes)


def drawn(regions: int, sites: int, seed: int, rest_sd: float = 0.05, alike: float = 0.5) -> list[Judged]:
    """Regions with a doubt of 0.08 beside the rest, whose sites share the part ``alike`` of their variance."""
    random = np.random.default_rng(seed)
    variance = 0.08**2 + rest_sd**2 + 0.01**2
    shared = random.normal(0.0, np.sqrt(alike * variance), regions)
    own = random.normal(0.0, np.sqrt((1.0 - alike) * variance), (regions, sites))
    return [judged(at, shared[at] + off, rest_sd=rest_sd) for at in range(regions) for off in own[at]]


def test_of_many_regions_the_doubt_that_was_drawn_comes_back() -> None:
    assert cloudless_sd_of(drawn(2000, 3, seed=1)) == pytest.approx(0.08, abs=0.003)


def test_errors_that_the_other_doubts_explain_ask_for_no_more() -> None:
    assert cloudless_sd_of([judged(region, 0.03) for region in range(9)]) == 0.0


def test_few_regions_ask_for_more_than_many_with_the_same_errors() -> None:
    doubts = [cloudless_sd_of([judged(region, 0.09) for region in range(regions)]) for regions in (2, 4, 40)]
    assert doubts == sorted(doubts, reverse=True)
    assert doubts[0] > 1.2 * doubts[2]


def share_held(regions: int, **kind: float) -> float:
    """Left-out sites within their band, over 800 worlds of so many regions."""
    held = []
    for seed in range(800):
        sites = drawn(regions, 3, seed, **kind)
        for name in {site.region for site in sites}:
            doubt = cloudless_sd_of(sites, name)
            assert doubt is not None
            held += [abs(s.off) <= Z * np.hypot(doubt, np.hypot(s.rest_sd, 0.01)) for s in sites if s.region == name]
    return float(np.mean(held))


@pytest.mark.parametrize("regions", [3, 5, 9])
def test_of_left_out_regions_eight_in_ten_sites_lie_within(regions: int) -> None:
    """Where a region's sites err alike and nothing else is in doubt the law is exact, however few the regions."""
    assert share_held(regions, rest_sd=0.0, alike=1.0) == pytest.approx(0.8, abs=0.03)


def test_sites_that_err_on_their_own_lie_within_rather_more_often() -> None:
    """Each then tells something, and the band is never narrower than the other doubts: on the side of caution."""
    assert 0.8 < share_held(4) < 0.88


def test_the_region_left_out_takes_no_part() -> None:
    sites = drawn(5, 3, seed=2)
    wild = [replace(site, off=0.5) if site.region == "3" else site for site in sites]
    assert cloudless_sd_of(sites, "3") == cloudless_sd_of(wild, "3")
    assert cloudless_sd_of(wild) != cloudless_sd_of(wild, "3")


def test_a_region_of_many_sites_counts_as_one_of_few() -> None:
    few = [judged("dry", 0.12), judged("drier", 0.06)]
    assert cloudless_sd_of(few * 1) == pytest.approx(cloudless_sd_of([few[0]] * 7 + [few[1]]))


def test_without_such_a_site_nothing_is_learned() -> None:
    assert cloudless_sd_of([judged("cloudy", 0.2, share=0.0)]) is None
    assert cloudless_sd_of([judged("dry", 0.2)], "dry") is None


def test_the_doubt_sets_in_without_a_step() -> None:
    shares = [cloudless_share(clearness) for clearness in np.linspace(0.5, 1.05, 500)]
    assert shares[0] == 0.0
    assert shares[-1] == 1.0
    assert 0.0 <= np.diff(shares).min() <= np.diff(shares).max() < 0.03
