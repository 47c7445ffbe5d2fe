"""One service, one notice board and one headless Chromium for all tests of the extension."""

import json
import os
import shutil
import socket
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import uvicorn

from service.api.middleware import wire
from service.app import create_app
from service.settings import Settings
from tests.browser.chromium import Chromium, Tab
from tests.browser.servers import Door, board, door_handler, outside_handler, served

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "examples" / "advert-extension"
PROGRAMS = ("chromium", "chromium-browser")
HOME: dict[str, Any] = {
    "latitude_deg": 54.2,
    "longitude_deg": 12.3,
    "rail": {"azimuth_deg": 150, "count": 2},
    "brackets_amount": 60,
    "inverter": {
        "ac_power_w": 800,
        "input_count": 2,
        "inputs": [
            {
                "max_input_voltage_v": 60, "tracking_min_v": 16, "tracking_max_v": 55, "start_voltage_v": 22,
                "max_current_a": 14, "max_short_circuit_current_a": 18,
            }
        ],
    },
}  # fmt: skip


@pytest.fixture(scope="session")
def program() -> str:
    """The browser. Where it is missing the tests are skipped, or fail where TESTS_NEED_BROWSER says so."""
    found = next(filter(None, map(shutil.which, PROGRAMS)), None)
    if found is None:
        reason = "Chromium is not installed (Debian: apt-get install chromium): the extension was tried in no browser"
        if os.environ.get("TESTS_NEED_BROWSER") == "1":
            pytest.fail(reason)
        pytest.skip(reason)
    return found


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    return port


@pytest.fixture(scope="session")
def service(program: str) -> Iterator[str]:
    """The service, on a free port of loopback and in this process, which has most of it in memory already."""
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        listener.listen()
        config = uvicorn.Config(create_app(Settings()), http=wire.Wire, ws="none", log_level="critical")
        server = uvicorn.Server(config)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{listener.getsockname()[1]}"
        server.should_exit = True
        thread.join(timeout=10)


@pytest.fixture(scope="session")
def door(service: str) -> Iterator[Door]:
    """The service, behind a door that notes what it is asked."""
    found = Door(service=service)
    with served(door_handler(found)) as found.address:
        yield found


@pytest.fixture(scope="session")
def page_address(program: str) -> Iterator[str]:
    """The notice board."""
    with served(board(EXAMPLE / "page")) as address:
        yield f"{address}/"


@pytest.fixture(scope="session")
def nobody() -> str:
    """An address at which nothing listens."""
    return f"http://127.0.0.1:{free_port()}"


@pytest.fixture(scope="session")
def outside(program: str) -> Iterator[tuple[str, list[str]]]:
    """The only way to other hosts than loopback: its address, and what was asked for there."""
    seen: list[str] = []
    with served(outside_handler(seen)) as address:
        yield address, seen


@pytest.fixture(scope="session")
def browser(
    program: str, door: Door, nobody: str, outside: tuple[str, list[str]], tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Chromium]:
    """A browser with a copy of the extension that has its permission already.

    Nobody can press the browser's own question in headless mode. So the copy's manifest names the tests' two addresses
    under ``host_permissions``; all else is the extension as it stands. ``test_permission.py`` loads it unchanged.
    """
    folder = tmp_path_factory.mktemp("browser")
    shutil.copytree(EXAMPLE / "extension", folder / "extension")
    manifest = json.loads((folder / "extension" / "manifest.json").read_text(encoding="utf-8"))
    manifest["host_permissions"] = [f"{door.address}/*", f"{nobody}/*"]
    (folder / "extension" / "manifest.json").write_text(json.dumps(manifest), encoding="utf-8")
    running = Chromium(program, folder, folder / "extension", outside[0])
    try:
        yield running
    finally:
        running.close()
    assert outside[1] == []  # whatever was tried, nothing went to another host


@pytest.fixture(scope="session")
def settings_address(browser: Chromium) -> str:
    """The extension's settings page."""
    return browser.extension() + "settings/settings.html"


@pytest.fixture(scope="session")
def settings_page(browser: Chromium, settings_address: str) -> Iterator[Tab]:
    """A tab with the settings page, through which the tests also write settings."""
    with browser.opened(settings_address) as tab:
        yield tab


class Kept:
    """What the extension keeps of its settings."""

    def __init__(self, tab: Tab, door: Door) -> None:
        """Reached through a page of the extension."""
        self._tab, self._door = tab, door

    def at_home(self, **others: Any) -> None:
        """The home of the examples, asking at the door; the door notes anew."""
        self._door.straight()
        self.keep(**{"address": self._door.address, "patience_s": 20, **HOME, **others})

    def keep(self, **settings: Any) -> None:
        """Set all of it."""
        self.put(settings)

    def put(self, anything: object) -> None:
        """Set it to what no version of the page would write."""
        self._tab.script(f"chrome.storage.local.set({json.dumps({'settings': anything})})")

    def kept(self) -> dict[str, Any]:
        """All of it."""
        found = self._tab.script("chrome.storage.local.get('settings')")
        return dict(found.get("settings", {}))


@pytest.fixture(scope="session")
def settings(settings_page: Tab, door: Door) -> Kept:
    """What the extension keeps."""
    return Kept(settings_page, door)


class Page:
    """The notice board in a tab, with what the extension wrote on it."""

    def __init__(self, tab: Tab) -> None:
        """A board that was opened."""
        self.tab = tab
        self.asked: list[tuple[str, Any]] = []

    def notice(self) -> str:
        """What is said above the adverts, once that is final."""
        self.tab.until(f"{NOTICE}?.querySelector('button') || {NOTICE}?.innerText.includes(' read ')")
        return str(self.tab.script(f"{NOTICE}.innerText"))

    def facts(self) -> list[dict[str, str]]:
        """The facts beside each advert, by name."""
        rows = "[...one.querySelectorAll('.sunsill-facts dd')].map(dd => [dd.dataset.fact, dd.innerText])"
        found: list[list[list[str]]] = self.tab.script(f"{ADVERTS}.map(one => {rows})")
        return [dict(rows) for rows in found]

    def texts(self, selector: str) -> list[list[str]]:
        """The texts of what a selector finds within each advert."""
        one = f"[...one.querySelectorAll({json.dumps(selector)})].map(part => part.textContent)"
        found: list[list[str]] = self.tab.script(f"{ADVERTS}.map(one => {one})")
        return found


NOTICE = "document.querySelector('.sunsill-notice')"
ADVERTS = "[...document.querySelectorAll('article')]"


@pytest.fixture
def fresh_page(browser: Chromium, page_address: str, settings: Kept) -> Iterator[Page]:
    """The notice board with the settings of the home of the examples."""
    settings.at_home()
    with browser.opened(page_address) as tab:
        found = Page(tab)
        found.notice()
        yield found


@pytest.fixture(scope="module")
def page(browser: Chromium, page_address: str, settings: Kept, door: Door) -> Iterator[Page]:
    """The same, opened once for all tests of a file, with what was asked for it."""
    settings.at_home()
    with browser.opened(page_address) as tab:
        found = Page(tab)
        found.notice()
        found.asked = list(door.asked)
        yield found
