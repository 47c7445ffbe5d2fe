"""Is a reading that the told light cannot make said to contradict it, and does it judge no panel?"""

import pytest

from service.core.pickup import Between, Light, Seen, light_indoors, light_not_known, panels_seen
from tests.core.pickup.door import codes, door, measured, one, reading, sky

NIGHT = Light(w_per_m2=Between.exactly(0.0), origin="sky")
OVERCAST = Light(w_per_m2=Between(low=54.0, likely=158.0, high=390.0), origin="sky")
DULL = (NIGHT, OVERCAST, light_indoors(), measured(0.0), measured(30.0), measured(150.0))


@pytest.mark.parametrize("light", DULL)
def test_amperes_of_full_sun_contradict_any_dull_light(light: Light) -> None:
    """9.5 A of a label of 9.85 take some 960 W/m2."""
    seen = one(door(light), reading(voc=38.9, isc=9.5))
    assert (seen.verdict, seen.worth.share) == (Seen.CANNOT_TELL, None)
    [told] = [why for why in seen.causes if why.code == "more_than_told_light" and why.facts["quantity"] == "current"]
    assert told.facts["shown"] == pytest.approx(965, abs=6)
    assert float(str(told.facts["most"])) <= 390


@pytest.mark.parametrize("light", [NIGHT, measured(0.0)])
def test_volts_of_sun_contradict_the_night_by_themselves(light: Light) -> None:
    assert "more_than_told_light" in codes(one(door(light, cell_c=15.0), reading(voc=39.5)))
    assert "more_than_told_light" not in codes(one(door(light, cell_c=15.0), reading(voc=31.0)))  # twilight, a lamp


@pytest.mark.parametrize("light", DULL)
def test_what_that_light_can_make_contradicts_nothing(light: Light) -> None:
    amperes = 9.85 * light.w_per_m2.high / 1000
    assert "more_than_told_light" not in codes(one(door(light), reading(voc=30.0, isc=amperes)))


def test_where_nobody_told_the_light_no_reading_contradicts_it() -> None:
    assert "more_than_told_light" not in codes(one(door(light_not_known()), reading(voc=38.9, isc=9.5)))


def test_a_whole_lot_above_what_was_measured_says_that_the_light_was_measured_wrong() -> None:
    """All give 9.5 A where 7.1 are likely: a light meter in the shade is likelier than four wrong labels."""
    for seen in panels_seen(door(), [reading(name, voc=38.9, isc=9.5) for name in "abcd"]):
        assert (seen.verdict, codes(seen)) == (Seen.CANNOT_TELL, ["more_than_told_light"])
    above_all = one(door(), reading(voc=38.9, isc=14.0))  # no sun makes that of 9.85 A
    assert (above_all.verdict, codes(above_all)) == (Seen.SUSPICIOUS, ["wrong_panel.current_high"])


def test_volts_that_are_high_in_the_told_light_are_not_in_the_light_that_the_current_shows() -> None:
    """At 60 W/m2 36.6 V are likely and 38 the most, in full sun 40."""
    dull = door(measured(60.0), cell_c=30.0)
    assert "wrong_panel.voltage_high" not in codes(one(dull, reading(voc=39.6, isc=9.5)))
    lost = one(door(OVERCAST), reading(voc=26.0, isc=9.5))
    assert lost.verdict is Seen.SUSPICIOUS  # a third of the volts is missing in any daylight
    assert "bypass_section_lost" in codes(lost)


def test_too_little_light_is_told_by_one_rule_in_any_of_it() -> None:
    lights = [measured(0.0), measured(20.0), measured(120.0), measured(199.7)]
    seen = [one(door(light), reading(voc=20.0, isc=0.1)) for light in lights]
    facts = [dict(why.facts) for panel in seen for why in panel.causes if why.code == "light_too_low"]
    assert [one["w_per_m2"] for one in facts] == [0, 20, 120, 199]
    assert {(one["least_for_gross_voltage"], one["least"]) for one in facts} == {(50, 200)}


def test_nobody_is_sent_to_read_the_others_who_has_read_them() -> None:
    wide = sky(720.0)
    [alone] = panels_seen(door(wide), [reading("a", voc=38.9, isc=5.5)])
    of_four = panels_seen(door(wide), [reading(name, voc=38.9, isc=5.5) for name in "abcd"])
    assert (codes(alone), "lot" in alone.causes[0].facts) == (["light_too_unsure"], False)
    for seen in of_four:
        assert (codes(seen), seen.causes[0].facts["lot"]) == (["light_too_unsure"], "read")
