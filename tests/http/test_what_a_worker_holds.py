"""What a worker loads and holds: no library that a question can do without, and caches that end."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from service.api.answers.shortlist import adverts_shortlist
from service.app import deps_of
from service.settings import Settings

EXAMPLES = Path(__file__).parents[2] / "examples"
REQUEST, SHORTLIST = EXAMPLES / "kranichwerft.json", EXAMPLES / "adverts" / "kranichwerft_shortlist.json"
ASKED = """
import json, sys
from service.api.answers.appraisal import appraisal
from service import app
from service.settings import Settings

made, read = [], app.deps_of
app.deps_of = lambda settings: made.append(read(settings)) or made[-1]  # the tables once, as a worker has them
app.create_app(Settings())
[deps], request = made, json.load(open(sys.argv[1]))
for number in range(int(sys.argv[2])):
    request["site"]["latitude_deg"] = 48 + number / 50
    appraisal(json.dumps(request).encode(), deps)
heavy = sorted({"pvlib", "pandas", "scipy", "matplotlib"} & set(sys.modules))
rooms = sorted({f"service.core.{name}" for name in ("logbook", "adverts", "shortlist", "pickup")} & set(sys.modules))
resident = next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmRSS"))
words = deps.read_advert_words.cache_info().currsize
print(json.dumps({"heavy": heavy, "rooms": rooms, "resident_mb": int(resident) / 1024, "words_of_adverts": words}))
"""


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
def test_a_worker_of_many_places_holds_less_than_200_mb_and_loads_no_heavy_library():
    # More places than the cache keeps: after them memory stays level.
    run = [sys.executable, "-c", ASKED, str(REQUEST), "40"]
    held = json.loads(subprocess.run(run, capture_output=True, check=True, text=True, timeout=120).stdout)
    assert held["heavy"] == []
    assert held["rooms"] == []  # a fifth of a start, for questions that were not asked
    assert held["words_of_adverts"] == 0  # half of the time of a start, and no question but the adverts' needs them
    assert held["resident_mb"] < 200


def test_of_homes_asked_about_once_shortlists_keep_few_years_and_few_sets() -> None:
    """Each home's year is 60 kB, the curves of each set 8 kB; kept among what is known of panels they had no end."""
    deps = deps_of(Settings(place_cache_size=2, panel_cache_size=12))
    request = json.loads(SHORTLIST.read_text())
    for number in range(5):
        request["site"]["latitude_deg"] = 50 + number / 5
        assert adverts_shortlist(json.dumps(request).encode(), deps).shortlist
    assert len(deps.listed_years) == 2
    assert len(deps.listed_sets) == 6
    large = {type(one).__name__ for one in deps.listed._kept.values()}
    assert large.isdisjoint({"GroupedYear", "ListedSet", "Curves"})


def test_what_a_worker_makes_later_is_collected_and_what_its_start_made_is_not_walked() -> None:
    told = (
        "import gc; gc.disable(); from service.app import from_env; app = from_env(); "
        "print(gc.isenabled(), gc.get_freeze_count() > 0)"
    )
    run = subprocess.run([sys.executable, "-c", told], capture_output=True, check=True, text=True, timeout=120)
    assert run.stdout.split() == ["True", "True"]
