"""What mends unlike strings on one input: as few changes as will do."""

from tests import builders
from tests.core.compatibility.ask import answer, assumed, one
from tests.core.compatibility.test_parallel import WIDE, of

ONE_INPUT = builders.inverter(input_count=1, inputs=(builders.one_input(**WIDE),))


def test_like_panels_keep_how_many_there_are_where_strings_are_as_long() -> None:
    arrays = (of(39.4, "two", count=2, joined="parallel"), of(33.0, "one"))
    found = one("unlike_panels", answer(arrays=arrays, inverter=ONE_INPUT))
    (told,) = [r for r in found.remedies if r.code == "like_panels"]
    assert [(o.op, o.path) for o in told.patch] == [("copy", "/arrays/1/panel")]
    assert (told.facts["panels"], told.facts["variant"]) == (3, "")


def test_like_panels_take_the_shortest_string_whichever_stands_first() -> None:
    single, three = of(37.5, "single"), of(37.5, "three", count=3, joined="series")
    for arrays in ((single, three), (three, single)):
        found = one("unlike_panels", answer(arrays=arrays, inverter=ONE_INPUT))
        (told,) = [r for r in found.remedies if r.code == "like_panels"]
        assert (told.facts["array"], told.facts["panels"], told.verdict_then) == ("single", 2, "fits")


def test_alike_panels_of_assumed_volts_raise_no_question_of_their_volts() -> None:
    guesses = [assumed(f"/arrays/{at}/panel/open_circuit_voltage_v", 37.6, 35.0, 40.0) for at in (0, 1)]
    found = one("unlike_panels", answer(*guesses, arrays=(of(37.6, "a"), of(37.6, "b")), inverter=ONE_INPUT))
    assert found.facts["variant"] == "alike"


def test_a_string_cut_down_to_one_panel_is_in_series_with_nothing() -> None:
    arrays = (of(37.5, "single"), of(37.5, "pair", count=2, joined="series"))
    (told,) = [
        r for r in one("unlike_panels", answer(arrays=arrays, inverter=ONE_INPUT)).remedies if r.code == "like_panels"
    ]
    assert [(o.path, o.value) for o in told.patch[1:]] == [("/arrays/1/count", 1), ("/arrays/1/joined", "parallel")]
