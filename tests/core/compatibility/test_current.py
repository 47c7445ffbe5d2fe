"""Amperes as energy and as danger."""

from typing import Any

import pytest

from service.core.compatibility.current import rear_light_share
from service.core.model.assumption import Assumption
from service.core.model.facts import Array
from service.core.model.finding import Finding
from tests import builders
from tests.core.compatibility.ask import alone, answer, assumed, inputs, one

ISC = "/arrays/0/panel/short_circuit_current_a"
LIMIT = "/inverter/inputs/0/max_short_circuit_current_a"


def short(*assumptions: Assumption, **changes: Any) -> Finding:
    return one("short_circuit_current", answer(*assumptions, **{**alone(), **changes}))


@pytest.mark.parametrize(
    ("absolute", "label", "verdict"),
    [
        (18, None, "fits"), (17, None, "does_not_fit"), (None, 15, "fits"), (None, 14, "does_not_fit"),
        (18, 18, "fits"), (15, 15, "not_known"), (14, 14, "does_not_fit"), (None, None, "not_known"),
        (20, 15, "fits"), (17, 15, "does_not_fit"), (20, 14, "does_not_fit"),
    ],
)  # fmt: skip
def test_a_short_circuit_figure_is_read_in_both_meanings(
    absolute: float | None, label: float | None, verdict: str
) -> None:
    limits = inputs(max_short_circuit_current_a=absolute, max_panel_short_circuit_current_a=label)
    assert short(**limits).verdict == verdict


def test_the_operating_limit_never_stands_in_for_the_short_circuit_limit() -> None:
    finding = short(**inputs(max_short_circuit_current_a=None, max_current_a=40))
    assert finding.verdict == "not_known"


def test_a_class_that_is_too_weak_at_its_best_proves_the_refusal() -> None:
    weak = assumed(LIMIT, None, 12.0, 16.0)
    assert short(weak, **inputs(max_short_circuit_current_a=None)).verdict == "does_not_fit"


def test_a_given_panel_label_figure_is_enough_where_the_absolute_one_was_only_assumed() -> None:
    guess = assumed(LIMIT, None, 12.0, 16.0)
    limits = inputs(max_short_circuit_current_a=None, max_panel_short_circuit_current_a=15)
    assert short(guess, **limits).verdict == "fits"


def test_an_assumed_short_circuit_current_is_not_known_with_its_worst_as_likely() -> None:
    finding = short(assumed(ISC, 14.1, 13.0, 14.6))
    assert (finding.verdict, finding.likely) == ("not_known", "does_not_fit")


@pytest.mark.parametrize(
    ("mount", "reflects", "share"),
    [
        ("hung_on_rail", 0.2, 0.05),
        ("ground_frame", 0.2, 0.68 * 0.15),
        ("fence", 0.8, 0.68 * 0.45),
        ("wall", 0.2, 0.015),
    ],
)
def test_the_rear_side_gets_what_ground_and_sky_leave_it(mount: str, reflects: float, share: float) -> None:
    assert rear_light_share(builders.array(mount=mount), reflects) == pytest.approx(share)


def test_a_two_sided_panel_adds_its_rear_light_and_no_more() -> None:
    finding = one("short_circuit_current", answer(**alone(bifaciality_share=0.7)))
    assert finding.measured == pytest.approx(14.1 * 1.25 * (1 + 0.7 * 0.05))


def test_too_much_operating_current_costs_energy_and_says_how_much() -> None:
    finding = one("operating_current", answer(**inputs(max_current_a=10.0)))
    assert finding.verdict == "fits_with_loss"
    lost = finding.facts["lost_in_full_sun_pct"]
    assert 0 < lost < 100 * (1 - 10.0 / 13.38)


def test_two_arrays_on_one_input_add_their_currents() -> None:
    both = (builders.array(), builders.array(name="right"))
    finding = one("short_circuit_current", answer(arrays=both, **inputs(max_short_circuit_current_a=40)))
    assert finding.measured == pytest.approx(2 * 14.1 * 1.25)


@pytest.mark.parametrize(
    ("strings", "fuse", "made"),
    [(2, 10, "does_not_fit"), (2, 15, None), (2, None, None), (3, 25, "does_not_fit"), (3, 30, "fits"),
     (3, None, "not_known"), (4, 30, "does_not_fit")],
)  # fmt: skip
def test_reverse_current_is_asked_from_three_strings_on_and_of_two_where_the_fuse_is_too_small(
    strings: int, fuse: float | None, made: str | None
) -> None:
    panel = builders.panel(max_series_fuse_a=fuse)
    compatibility = answer(arrays=(builders.array(panel=panel, count=strings, joined="parallel"),),
                           **inputs(max_short_circuit_current_a=99))  # fmt: skip
    verdicts = [f.verdict for f in compatibility.findings if f.code == "reverse_current"]
    assert verdicts == ([] if made is None else [made])


def test_a_strong_neighbour_is_refused_beside_one_weak_panel() -> None:
    weak = builders.panel(rated_power_w=110, open_circuit_voltage_v=39.0, short_circuit_current_a=3.6,
                          max_power_voltage_v=32.5, max_power_current_a=3.38, max_series_fuse_a=10)  # fmt: skip
    arrays = (builders.array(panel=weak), builders.array(name="strong"))
    compatibility = answer(arrays=arrays, **inputs(max_short_circuit_current_a=99))
    assert one("reverse_current", compatibility).measured == pytest.approx(14.1)


@pytest.mark.parametrize(("fuse", "verdict"), [(10, "does_not_fit"), (None, "not_known"), (15, None)])
def test_a_weak_panel_of_unknown_fuse_beside_a_stronger_one_is_asked_about(
    fuse: float | None, verdict: str | None
) -> None:
    weak = builders.panel(
        rated_power_w=220, short_circuit_current_a=7.0, max_power_current_a=6.7, max_series_fuse_a=fuse
    )
    arrays = (builders.array(panel=weak), builders.array(name="strong", panel=builders.panel(max_series_fuse_a=None)))
    compatibility = answer(arrays=arrays, **inputs(max_short_circuit_current_a=99))
    found = [f for f in compatibility.findings if f.code == "reverse_current"]
    assert [f.verdict for f in found] == ([] if verdict is None else [verdict])
    assert verdict != "not_known" or "ask_seller" in {r.code for r in found[0].remedies}


def test_that_code_counts_currents_by_a_quarter_more() -> None:
    three = (builders.array(panel=builders.panel(max_series_fuse_a=30), count=3, joined="parallel"),)
    limits = inputs(max_short_circuit_current_a=99)
    assert one("reverse_current", answer(arrays=three, **limits)).verdict == "fits"
    there = one("reverse_current", answer(arrays=three, site=builders.site(rule_area="US-UT"), **limits))
    assert (there.verdict, there.measured) == ("does_not_fit", pytest.approx(2 * 1.25 * 14.1))
    assert "690.9" in there.source


def test_light_on_the_rear_is_pushed_backwards_too() -> None:
    panel = builders.panel(max_series_fuse_a=29, bifaciality_share=0.8)
    three = (builders.array(panel=panel, count=3, joined="parallel", mount="ground_frame"),)
    finding = one("reverse_current", answer(arrays=three, **inputs(max_short_circuit_current_a=99)))
    assert finding.measured > 2 * 14.1 * 1.05
    assert finding.verdict == "does_not_fit"


def test_currents_that_contradict_each_other_are_not_known_to_fit() -> None:
    swapped = alone(max_power_current_a=14.1, short_circuit_current_a=13.38)
    compatibility = answer(**swapped, **inputs(max_short_circuit_current_a=17, max_current_a=15))
    finding = one("short_circuit_current", compatibility)
    assert (finding.verdict, finding.likely) == ("not_known", "does_not_fit")  # 1.25 x 14.1 A is above 17 A
    assert one("operating_current", compatibility).verdict == "not_known"


def test_a_rear_light_that_is_known_counts_instead_of_the_mount() -> None:
    two_sided = builders.panel(bifaciality_share=0.7, short_circuit_current_a=13.2)
    array = builders.array(mount="ground_frame", panel=two_sided, rear_light_share=0.05)
    finding = one("short_circuit_current", answer(arrays=(array,)))
    assert finding.measured == pytest.approx(1.25 * 13.2 * (1 + 0.7 * 0.05))


def test_a_panel_that_may_use_light_from_behind_is_not_known_where_that_would_be_too_much() -> None:
    stands = {"mount": "ground_frame"}
    asked = [
        Assumption(
            pointer=f"/arrays/{at}/panel/bifaciality_share", value=0.0, code="one_sided", source="", low=0.0, high=0.8
        )
        for at in (0, 1)
    ]
    two = tuple(
        builders.array(name=name, input=number, panel=builders.panel(glass="glass_glass"), **stands)
        for number, name in enumerate(("left", "right"), 1)
    )
    tight = inputs(max_short_circuit_current_a=17.7)  # 1.25 x 14.1 A is 17.63 A
    open_rear = one("short_circuit_current", answer(*asked, arrays=two, **tight))
    assert (open_rear.verdict, open_rear.likely) == ("not_known", "does_not_fit")
    assert one("short_circuit_current", answer(arrays=two, **tight)).verdict == "fits"
    roomy = inputs(max_short_circuit_current_a=25)
    assert one("short_circuit_current", answer(*asked, arrays=two, **roomy)).verdict == "fits"


@pytest.mark.parametrize("rear_untold", [False, True])
def test_a_current_that_nobody_told_is_likely_no_better_than_the_same_current_told(rear_untold: bool) -> None:
    """Else silence pays: who tells the current that silence is filled with must not stand behind who doesn't."""
    panel = builders.panel(glass="glass_glass")
    rear = [assumed("/arrays/0/panel/bifaciality_share", 0.0, 0.0, 0.8)] if rear_untold else []
    isc = assumed("/arrays/0/panel/short_circuit_current_a", 14.1, 14.0, 14.1)
    tight = inputs(max_short_circuit_current_a=17.7)  # 1.25 x 14.1 A is 17.63 A
    told, silent = (
        one("short_circuit_current", answer(*more, *rear, arrays=(builders.array(panel=panel),), **tight))
        for more in ([], [isc])
    )
    assert silent.verdict == "not_known"
    assert silent.likely == told.likely == ("does_not_fit" if rear_untold else "fits")
    assert ("bifaciality_share" in str(silent.facts["missing"])) is rear_untold


def of_strings(*arrays: Array, **more: Any) -> list[Finding]:
    compatibility = answer(arrays=arrays, **inputs(max_short_circuit_current_a=99), **more)
    return [f for f in compatibility.findings if f.code == "reverse_current"]


@pytest.mark.parametrize(
    ("panel_stands", "fuse", "area", "verdict", "variant"),
    [
        (25, 25, "DE", "fits", "fused"),  # 1.5 x 14.1 = 21.2 A, IEC 62548
        (25, 30, "DE", "does_not_fit", "fused"),
        (25, 20, "DE", "does_not_fit", "small_fuse"),
        (22, 22, "DE", "fits", "fused"),
        (22, 22, "US-UT", "does_not_fit", "small_fuse"),  # 1.5625 x 14.1 = 22.03 A, NEC 690.8 and 690.9
        (None, 25, "DE", "not_known", "fused"),
        (60, 25, "DE", "fits", None),  # the panel bears what the others push: no fuse is needed
        (60, 10, "DE", "does_not_fit", "small_fuse"),  # but one that opens in plain sun is none either
    ],
)
def test_a_fuse_in_the_string_lets_by_no_more_than_its_rating_and_holds_in_the_sun(
    panel_stands: float | None, fuse: float, area: str, verdict: str, variant: str | None
) -> None:
    panel = builders.panel(max_series_fuse_a=panel_stands)
    (finding,) = of_strings(builders.array(panel=panel, count=3, joined="parallel", string_fuse_a=fuse),
                            site=builders.site(rule_area=area))  # fmt: skip
    assert (finding.verdict, finding.facts.get("variant")) == (verdict, variant)


def test_where_nobody_told_of_the_rear_what_one_sided_panels_just_stand_is_not_known() -> None:
    panel = builders.panel(max_series_fuse_a=29, glass="glass_glass")  # 2 x 14.1 A = 28.2 A
    three = builders.array(panel=panel, count=3, joined="parallel", mount="ground_frame")
    rear = assumed("/arrays/0/panel/bifaciality_share", 0.0, 0.0, 0.8)
    finding = one("reverse_current", answer(rear, arrays=(three,), **inputs(max_short_circuit_current_a=99)))
    assert (finding.verdict, finding.likely) == ("not_known", "does_not_fit")
    assert "bifaciality_share" in str(finding.facts["missing"])


def test_panels_of_one_string_push_as_one_string() -> None:
    stands = builders.panel(max_series_fuse_a=30)
    mates = [builders.array(name=name, joined="one_string", panel=stands) for name in ("upper", "lower")]
    beside = builders.array(name="beside", count=2, joined="parallel", panel=stands)
    found = {str(f.facts["array"]): f.measured for f in of_strings(*mates, beside)}
    assert found == {name: pytest.approx(2 * 14.1) for name in ("upper", "lower", "beside")}


@pytest.mark.parametrize("count", [1, 2])
def test_a_fuse_that_opens_in_plain_sun_is_refused_however_few_strings_there_are(count: int) -> None:
    (finding,) = of_strings(builders.array(count=count, joined="parallel", string_fuse_a=2))
    assert (finding.verdict, finding.facts["variant"]) == ("does_not_fit", "small_fuse")


def test_a_fuse_in_the_string_bears_the_light_on_the_rear_too() -> None:
    panel = builders.panel(max_series_fuse_a=25, bifaciality_share=0.9)
    array = builders.array(panel=panel, count=3, joined="parallel", rear_light_share=0.3, string_fuse_a=22)
    (finding,) = of_strings(array)  # 1.5 x 14.1 x 1.27 = 26.9 A
    assert finding.verdict == "does_not_fit"
    assert finding.facts["least_fuse_a"] == pytest.approx(26.9, abs=0.05)


def test_a_fuse_that_just_holds_one_sided_panels_is_not_known_where_nobody_told_of_the_rear() -> None:
    panel = builders.panel(
        max_series_fuse_a=30, short_circuit_current_a=16.0, max_power_current_a=15.0, glass="glass_glass"
    )
    three = builders.array(panel=panel, count=3, joined="parallel", mount="ground_frame", string_fuse_a=25)
    rear = assumed("/arrays/0/panel/bifaciality_share", 0.0, 0.0, 0.8)
    finding = one("reverse_current", answer(rear, arrays=(three,), **inputs(max_short_circuit_current_a=99)))
    assert (finding.verdict, finding.likely) == ("not_known", "does_not_fit")


def test_an_input_that_refuses_by_both_figures_is_mended_by_one_that_stands_both() -> None:
    limits = {"max_short_circuit_current_a": 20, "max_panel_short_circuit_current_a": 16}
    alone = builders.inverter(input_count=1, inputs=(builders.one_input(**limits),))
    arrays = (builders.array(), builders.array(name="two"))  # 28.2 A on the label, 35.25 A in the brightest moments
    finding = one("short_circuit_current", answer(arrays=arrays, inverter=alone))
    (told,) = [r for r in finding.remedies if r.code == "other_inverter"]
    assert (told.verdict_then, [o.value for o in told.patch]) == ("fits", [36.0, 29.0])
