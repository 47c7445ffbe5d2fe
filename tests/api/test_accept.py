import pytest

from service.api.render.accept import chosen
from service.api.schemas.rounding import for_people
from service.api.words import say, template_of

BOTH = ("application/json", "text/plain")


@pytest.mark.parametrize(
    ("accept", "media"),
    [
        ("", "application/json"),
        ("*/*", "application/json"),
        ("TEXT/Plain", "text/plain"),
        ("text/plain; q=0.2, application/json; q=0.1", "text/plain"),
        ("*/*;q=0.5, application/json;q=0.1", "text/plain"),
        ("text/plain;charset=utf-8", "text/plain"),
        ("application/json;q=0", None),
        ("text/html", None),
        ("garbage", None),
        ("text/plain;q=abc", None),
        (",,,", None),
        ("application/json" * 1000, None),
    ],
)
def test_the_best_liked_format_is_chosen(accept: str, media: str | None) -> None:
    assert chosen(accept, BOTH) == media


def test_figures_for_people_have_the_digits_that_their_spread_allows() -> None:
    assert for_people(643.21, 560.0, 725.0) == "640"
    assert for_people(3.274, 2.9, 4.1) == "3.3"
    assert for_people(12345.6, 12345.6, 12345.6) == "12346"
    assert for_people(-0.001) == "0"


def test_an_amount_not_to_be_exceeded_is_cut_to_two_digits_and_never_rounded_up() -> None:
    for amount, cut in ((1437.86, "1400"), (572.8, "570"), (99.9, "99"), (7.98, "7.9"), (0.857, "0.85"), (0.0, "0")):
        assert f" {cut} EUR" in say("decisions", "condition.pay_at_most", {"amount": amount, "currency": "EUR"})


def test_a_sentence_falls_back_to_a_shorter_key_and_then_to_the_code() -> None:
    assert template_of("problems", "title.not_found.in_the_cellar") == template_of("problems", "title.not_found")
    assert say("problems", "no.such_key") == "no: such key"
    assert say("no_such_noun", "some_code") == "some code"


def test_a_sentence_never_fails_for_want_of_a_fact() -> None:
    assert say("problems", "detail.unknown_area") == "detail: unknown area"


def test_what_a_caller_wrote_is_no_template() -> None:
    assert "{0.__class__}" in say("problems", "detail.unknown_area", {"area": "{0.__class__}"})
