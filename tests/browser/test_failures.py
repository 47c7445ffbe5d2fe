"""Is what goes wrong said gently on the page, with what to do about it?"""

import json
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pytest

from tests.browser.chromium import Chromium, Tab
from tests.browser.conftest import NOTICE, Kept, Page
from tests.browser.servers import Door, Reply


@contextmanager
def board(browser: Chromium, page_address: str) -> Iterator[Page]:
    with browser.opened(page_address) as tab:
        yield Page(tab)


def test_with_no_service_the_page_says_how_to_start_it_and_trying_again_works(
    browser: Chromium, page_address: str, settings: Kept, nobody: str
) -> None:
    settings.at_home(address=nobody)
    with board(browser, page_address) as page:
        said = page.notice()
        assert f"Nothing answers at {nobody}." in said
        assert "python -m service serve" in said
        assert page.facts() == [{}] * 12
        settings.at_home()
        page.tab.press("Tab")
        assert page.tab.script("document.activeElement.textContent") == "Try again"
        page.tab.press("Enter")
        page.tab.until(f"{NOTICE}.innerText.includes('read 12 adverts')")
        assert all(page.facts())
        assert page.tab.script("document.activeElement.className") == "sunsill sunsill-notice"


def test_without_an_address_the_settings_are_offered(
    browser: Chromium, page_address: str, settings: Kept, settings_page: Tab
) -> None:
    settings.keep()
    with board(browser, page_address) as page:
        assert "does not know yet whom to ask" in page.notice()
        page.tab.press("Tab", 2)
        assert page.tab.script("document.activeElement.textContent") == "Open the settings"
        assert settings_page.script("document.visibilityState") == "hidden"
        page.tab.press("Enter")
        settings_page.until("document.visibilityState === 'visible'")  # the one that is open already comes to the front


def test_without_a_place_prices_and_doubts_are_shown_and_no_shortlist_is_asked_for(
    browser: Chromium, page_address: str, settings: Kept, door: Door
) -> None:
    door.straight()
    settings.keep(address=door.address)
    with board(browser, page_address) as page:
        assert "Fit and payback need your place." in page.notice()
        facts = page.facts()
        assert facts[0] == {"per_watt": "EUR 0.114", "each": "EUR 45.00"}  # 45 / 395, as on the page
        assert [path for path, _ in door.asked] == ["/v1/adverts/reading"]


def test_settings_that_the_service_refuses_are_told_with_their_place(
    browser: Chromium, page_address: str, settings: Kept
) -> None:
    settings.at_home(latitude_deg=95)
    with board(browser, page_address) as page:
        said = page.notice()
        assert "did not take the question (422)" in said
        assert "/site/latitude_deg" in said
        assert "accepted: a number from -90 to 90" in said
        assert all(page.facts())  # what was read stays


def plain(status: int, body: bytes, **headers: str) -> Callable[[Reply], Reply]:
    return lambda _: (status, {name.replace("_", "-"): value for name, value in headers.items()}, body)


PROBLEM = json.dumps(
    {"status": 500, "code": "fault", "title": "x", "instance": "/v1/adverts/reading#5f2c", "errors": []}
)


@pytest.mark.parametrize(
    ("instead", "says"),
    [
        (plain(503, b"{}", Retry_After="7"), ["too much to do", "Try again in 7 s."]),
        (plain(500, PROBLEM.encode()), ["The service failed (500).", "#5f2c"]),
        (plain(502, b"<h1>Bad gateway</h1>"), ["The service failed (502)."]),
        (plain(200, b"<h1>Hello</h1>", Content_Type="text/html"), ["Something else than Sunsill"]),
        (plain(302, b"", Location="http://outside.invalid/"), ["Nothing answers"]),
        (plain(200, b'{"readings": [], "shortlist": []}'), ["was not understood"]),
    ],
)
def test_odd_answers_are_told_gently(
    browser: Chromium, page_address: str, settings: Kept, door: Door, instead: Callable[[Reply], Reply],
    says: list[str],
) -> None:  # fmt: skip
    settings.at_home()
    door.instead = instead
    with board(browser, page_address) as page:
        said = page.notice()
        assert [text for text in says if text not in said] == []
        assert "Try again" in said


def test_a_slow_service_is_waited_for_and_then_given_up(
    browser: Chromium, page_address: str, settings: Kept, door: Door
) -> None:
    settings.at_home(patience_s=4)
    door.instead = late
    with board(browser, page_address) as page:
        page.tab.until(f"{NOTICE}.innerText.includes('takes its time')")
        said = page.notice()
        assert f"No answer from {door.address} within 4 s." in said


def late(reply: Reply) -> Reply:
    time.sleep(4.5)
    return reply
