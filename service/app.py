"""How are the parts put together? ``create_app`` alone knows core, data and api; nothing runs at import."""

import gc
import json
import logging
import os
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from functools import cache
from typing import TYPE_CHECKING, Any

from fastapi import FastAPI

from service import __version__
from service.api.deps import Deps, today
from service.api.middleware import layers
from service.api.problems import install
from service.api.routes.desk import Desk
from service.api.routes.document import document
from service.api.routes.meta import meta_routes
from service.api.routes.pages import page_routes
from service.api.routes.plain import PlainRoute
from service.api.routes.rooms import Rooms
from service.api.routes.workshop import Workshop
from service.core.appraisal import CautionTable
from service.core.compatibility import Curves
from service.core.completion import DefaultTables
from service.core.model.memo import Memo, QuickMemo
from service.data.advert_words import load_advert_words
from service.data.cautions import load_cautions
from service.data.climate import load_climate
from service.data.grid_carbon import load_grid_carbon
from service.data.households import load_demand_shape
from service.data.local_rules import load_rule_cards, own_cards, with_own
from service.data.log_causes import load_cause_weights
from service.data.panel_list import load_panel_list
from service.data.places import TimeZones
from service.data.prices import load_prices
from service.data.seller_questions import load_seller_questions
from service.data.version import data_version
from service.data.weather_files import weather_files
from service.memory import keep_freed_memory
from service.settings import Settings, from_environment

if TYPE_CHECKING:
    from service.core.adverts import Vocabulary

# For each panel that is kept: what shortlists keep of it, six parts of some 4 kB (sheet, model, ways to hang it). For
# each set that is kept: the d.c. hours of those on a list beside it. For two panels that are kept: a set looked
# at closely, or its curves, some 10 kB. Among the parts of panels 200 homes asked about once held 15 MB of these.
_LISTED_PARTS, _LISTED_SETS, _PANELS_A_LISTED_SET = 6, 3, 2
# A set whose planes were asked about keeps the tables of all of them, some 3 MB: one for each four of the others.
_SETS_A_MOVABLE_ONE = 4
# A set is asked about as it is and as demanded remedies make it: some 0.1 MB in all, words in.
_FITS_A_SET = 2
# Of a panel: its model, in the heat, in the cool, in the morning, under a limit, what is doubtful; each some 0.5 kB.
_CURVE_FIGURES = 6


def create_app(settings: Settings | None = None) -> FastAPI:
    """The service, tables read and ready to answer.

    Args:
        settings: the operator's choices; the defaults where absent. The environment is not read here.
    """
    chosen = settings or Settings()
    workshop = Workshop(chosen.computing_threads, chosen.waiting_computations)

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        yield
        workshop.close()

    app = FastAPI(
        title="Sunsill",
        version=__version__,
        openapi_url=None,
        docs_url=None,
        redoc_url=None,
        redirect_slashes=False,
        lifespan=lifespan,
        middleware=layers(
            allowed_hosts=chosen.allowed_hosts, cors_origins=chosen.cors_origins, open_requests=chosen.open_requests
        ),
    )
    install(app)
    deps = deps_of(chosen)
    desk = Desk(
        deps,
        workshop,
        chosen.body_limit_bytes,
        chosen.body_seconds,
        chosen.log_limit_bytes,
        chosen.answer_cache_bytes,
    )

    @cache
    def described() -> dict[str, Any]:
        return document([*rooms.served(), *always], __version__)

    rooms = Rooms(desk)
    always = [*meta_routes(deps), *page_routes(described, cache(lambda: document_bytes(described())))]
    for method, path, handle in (*rooms.doors(), *((one.method, one.path, one.handle) for one in always)):
        app.router.routes.append(PlainRoute(path, handle, methods=[method], include_in_schema=False))
    app.openapi = described  # type: ignore[method-assign]
    return app


def document_bytes(described: dict[str, Any]) -> bytes:
    """The interface document as it is served and as it is kept in the repository."""
    return (json.dumps(described, indent=1, ensure_ascii=False) + "\n").encode()


def from_env() -> FastAPI:
    """The service as the environment wants it; what each worker process calls."""
    settings = from_environment(os.environ)
    keep_freed_memory()
    logging.basicConfig(level=settings.log_level.upper(), format="%(asctime)s %(levelname)s %(name)s %(message)s")
    app = create_app(settings)
    # Modules and tables live as long as the process: no collection need walk them, the last one at exit neither (where
    # the service is the first process of a container, that one took more than a second after SIGTERM).
    gc.collect()
    gc.freeze()
    gc.enable()
    return app


def deps_of(settings: Settings) -> Deps:
    """Read every table, once.

    Raises:
        CardError, WeatherFileError: a rule card or weather file of the operator's makes no sense.
    """
    own, hours = own_cards(settings.rule_cards_folder), weather_files(settings.weather_folder)
    rule_cards = with_own(load_rule_cards(), own)
    added = repr([sorted(own.items()), *((name, hours[name].digest) for name in hours)]) if own or hours else ""
    return Deps(
        service_version=__version__,
        data_version=data_version(added.encode()),
        today=today,
        climate=load_climate(),
        default_tables=DefaultTables(prices=load_prices(), rule_cards=rule_cards, panels=load_panel_list()),
        grid_carbon=load_grid_carbon(),
        read_advert_words=cache(_advert_words),
        seller_questions=load_seller_questions(),
        demand_shape=load_demand_shape(),
        rule_cards=rule_cards,
        own_areas=frozenset(own),
        weather_files=hours,
        cautions=CautionTable.of(load_cautions()),
        known_time_zones=TimeZones(),
        read_cause_weights=cache(load_cause_weights),
        places=Memo(settings.place_cache_size),
        stands=Memo(settings.place_cache_size),
        sets=Memo(settings.set_cache_size),
        terms=QuickMemo(settings.set_cache_size),
        directs=Memo(settings.set_cache_size),
        years=Memo(settings.set_cache_size),
        told_years=Memo(settings.set_cache_size),
        fits=Memo(_FITS_A_SET * settings.set_cache_size),
        priced_fits=Memo(settings.set_cache_size),
        told_fits=Memo(settings.set_cache_size),
        fixings=Memo(_FITS_A_SET * settings.set_cache_size),
        told_fixings=Memo(settings.set_cache_size),
        curves=Curves(Memo(_CURVE_FIGURES * settings.panel_cache_size)),
        movable=Memo(max(settings.set_cache_size // _SETS_A_MOVABLE_ONE, 1)),
        rows=Memo(settings.panel_cache_size),
        columns=Memo(settings.panel_cache_size),
        listed=Memo(_LISTED_PARTS * settings.panel_cache_size),
        listed_years=Memo(settings.place_cache_size),
        listed_sets=Memo(max(settings.panel_cache_size // _PANELS_A_LISTED_SET, 1)),
        listed_directs=Memo(_LISTED_SETS * settings.set_cache_size),
        readings=Memo(settings.panel_cache_size),
    )


def _advert_words() -> "Vocabulary":
    from service.core.adverts import vocabulary_of  # noqa: PLC0415 - a room of its own, which most questions do without

    return vocabulary_of(load_advert_words())
