"""What is noted beside the forces: capacity, ballast, glass over people, railing, carrying. Never a verdict."""

import re

import pytest

from service.api.words import say, template_of
from service.api.words.english.fixing import TEXTS
from service.core.fixing.notes import ballast_note, capacity_note, notes_of
from service.core.model.band import Band
from service.core.model.fixing import Fixing
from tests import builders


def notes(array=None, site=None, fixing=None, *, said=True):
    found = notes_of(array or builders.array(), site or builders.site(), fixing or Fixing(), railing_said=said)
    return {note.code: note.facts for note in found}


def test_glass_over_people_is_noted_on_a_building_and_only_where_people_pass():
    facts = notes()["glass_over_people"]
    assert facts["arrives_km_per_h"] == pytest.approx(53, abs=0.5)  # sqrt(2 g 11 m) = 14.7 m/s
    assert "glass_over_people" not in notes(site=builders.site(people_below=False))
    assert "glass_over_people" not in notes(site=builders.site(people_below=None))
    assert "glass_over_people" not in notes(array=builders.array(mount="ground_frame"))


@pytest.mark.parametrize(("orientation", "railing_m", "past_m"), [("upright", 1.1, 0.62), ("lengthwise", 1.1, 0.03),
                                                                  ("lengthwise", 1.2, None)])  # fmt: skip
def test_a_panel_that_reaches_past_the_railing_is_noted_with_how_far(orientation, railing_m, past_m):
    found = notes(array=builders.array(orientation=orientation), fixing=Fixing(railing_height_m=railing_m))
    assert found.get("reaches_past_railing", {}).get("past_m") == past_m


def test_a_tilted_panel_is_less_tall():
    leaning = builders.array(plane=builders.Plane(tilt_deg=30, azimuth_deg=150))
    assert "reaches_past_railing" not in notes(array=leaning, fixing=Fixing(railing_height_m=1.1))


def test_panels_wider_than_the_railing_are_noted():
    two = builders.array(count=2)
    assert notes(array=two, fixing=Fixing(railing_length_m=2.0))["wider_than_railing"]["wide_m"] == 2.27
    assert "wider_than_railing" not in notes(array=two, fixing=Fixing(railing_length_m=2.3))
    assert "wider_than_railing" not in notes(array=builders.array(mount="wall", count=2),
                                             fixing=Fixing(railing_length_m=1.0))  # fmt: skip


def test_from_eighteen_kilograms_on_two_people_carry():
    for weight_kg, variant in ((17.9, ""), (18.0, "two")):
        panel = builders.panel(weight_kg=weight_kg)
        assert notes(array=builders.array(panel=panel))["carrying"]["variant"] == variant


@pytest.mark.parametrize(("used", "code"), [
    (Band(1.5, 1.01, 0.5), "capacity_under_load"), (Band(1.2, 0.9, 0.5), "capacity_within_spread"),
    (Band(0.8, 0.5, 0.3), "capacity_within_spread"), (Band(0.6, 0.4, 0.3), "capacity_above_load"),
])  # fmt: skip
def test_a_capacity_counts_as_above_the_load_only_with_the_design_factor_on_top(used, code):
    assert capacity_note(used, 2000.0).code == code


@pytest.mark.parametrize(("given_kg", "code"), [(30, "ballast_short"), (60, "ballast_within_spread"),
                                                (130, "ballast_above")])  # fmt: skip
def test_ballast_is_set_beside_what_would_be_needed(given_kg, code):
    assert ballast_note(Band(120.0, 50.0, 10.0), given_kg).code == code


def test_every_note_has_a_sentence_that_its_facts_fill():
    bands = (Band(1.5, 1.1, 0.5), Band(1.2, 0.9, 0.5), Band(0.6, 0.4, 0.3))
    made = [capacity_note(band, 2000.0) for band in bands]
    made += [ballast_note(Band(120.0, 50.0, 10.0), kg) for kg in (30.0, 60.0, 130.0)]
    for glass in ("glass_foil", "glass_glass"):
        for count in (1, 2):
            panel = builders.panel(glass=glass, weight_kg=17.0 + count)
            array = builders.array(count=count, panel=panel)
            fixing = Fixing(railing_height_m=1.0, railing_length_m=1.0)
            made += notes_of(array, builders.site(), fixing, railing_said=count == 1)
    for note in made:
        key = f"{note.code}.{note.facts.get('variant', '')}"
        assert template_of("fixing", key)
        sentence = say("fixing", key, note.facts)
        assert sentence.endswith(".")
        assert "{" not in sentence
    told = {note.code for note in made}
    assert {key.split(".")[0] for key in TEXTS} - told == {"forces", "caution"}


@pytest.mark.parametrize("text", TEXTS.values())
def test_no_sentence_says_that_something_holds(text):
    assert not re.search(r"(?i)\b(safe|safely|legal|allowed|sufficient|enough|will hold|fits)\b", text)
