"""The command line: ``python -m service serve | try FILE | openapi [--check] | compile INTO | bench NAME``."""

import argparse
import gc
import http.client
import os
import socket
import sys
import threading
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path

import uvicorn

from service.data.local_rules import CardError, own_cards
from service.data.weather_files import WeatherFileError, weather_files
from service.memory import keep_freed_memory
from service.settings import Settings, SettingsError, from_environment

BENCHES = (
    "adverts", "climate", "energy", "identity", "logbook", "logbook_speed", "measured", "payback", "serving",
    "shortlist", "tilt",
)  # fmt: skip


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 if it went well, 1 if not, 2 if it was called wrongly."""
    parser = argparse.ArgumentParser(prog="python -m service", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    serve = commands.add_parser("serve", help="answer over HTTP until told to stop")
    serve.add_argument("--host", help="address to listen on")
    serve.add_argument("--port", type=int, help="port to listen on; 0 takes a free one")
    serve.add_argument("--workers", type=int, help="processes that answer")
    serve.set_defaults(run=_serve)
    trying = commands.add_parser("try", help="serve on a free loopback port, post one appraisal, print the report")
    trying.add_argument("file", type=Path, help="the request, as JSON")
    trying.set_defaults(run=_try)
    document = commands.add_parser("openapi", help="write openapi/openapi.json")
    document.add_argument("--check", action="store_true", help="only compare it with what is served")
    document.set_defaults(run=_openapi)
    compiling = commands.add_parser("compile", help="write a copy whose reading of adverts is machine code")
    compiling.add_argument("into", type=Path, help="folder that the copy is put into, and run from")
    compiling.set_defaults(run=_compile)
    bench = commands.add_parser("bench", help="measure; workloads are in the docstrings of service/bench")
    bench.add_argument("name", choices=BENCHES)
    bench.add_argument("rest", nargs=argparse.REMAINDER, help="passed on to the bench")
    bench.set_defaults(run=_bench)
    chosen = parser.parse_args(arguments)
    keep_freed_memory()
    run: Callable[[argparse.Namespace], int] = chosen.run
    try:
        return run(chosen)
    except (SettingsError, CardError, WeatherFileError) as error:
        print(error, file=sys.stderr)
        return 2


def _serve(chosen: argparse.Namespace) -> int:
    settings = from_environment(os.environ)
    own_cards(settings.rule_cards_folder)  # a bad card or file stops the start here, before any worker is born
    weather_files(settings.weather_folder)
    host = chosen.host or settings.host
    gc.disable()  # what a start makes stays: collecting on the way took a sixth of it; ``from_env`` turns it on again
    uvicorn.run(
        "service.app:from_env",
        factory=True,
        host=host,
        port=settings.port if chosen.port is None else chosen.port,
        workers=chosen.workers or settings.workers,
        log_level=settings.log_level,
        http="service.api.middleware.wire:Wire",  # by name: workers import it themselves
        ws="none",
        access_log=False,  # its lines would hold coordinates; service.api.middleware.identity writes its own
        server_header=False,
        timeout_keep_alive=5,
        timeout_graceful_shutdown=5,  # a container is killed 10 s after SIGTERM; what is computed is done long before
    )
    return 0


def _try(chosen: argparse.Namespace) -> int:
    try:
        body = chosen.file.read_bytes()
    except OSError as error:
        print(f"{chosen.file}: {error.strerror}", file=sys.stderr)
        return 1
    from service.api.middleware.wire import Wire  # noqa: PLC0415 - the other commands do without
    from service.app import create_app  # noqa: PLC0415

    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        listener.listen()
        config = uvicorn.Config(
            create_app(Settings()), http=Wire, ws="none", log_level="warning", access_log=False, server_header=False
        )
        server = uvicorn.Server(config)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
        thread.start()
        status, text = _post(listener.getsockname()[1], body)
        server.should_exit = True
        thread.join(timeout=10)
    print(text, end="", file=sys.stdout if status == http.client.OK else sys.stderr)
    return 0 if status == http.client.OK else 1


def _post(port: int, body: bytes) -> tuple[int, str]:
    """Ask over HTTP; the socket listens already, so the request waits until the server takes it."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    try:
        connection.request("POST", "/v1/appraisal", body, {"Content-Type": "application/json", "Accept": "text/plain"})
        answer = connection.getresponse()
        return answer.status, answer.read().decode()
    finally:
        connection.close()


def _openapi(chosen: argparse.Namespace) -> int:
    from service import openapi  # noqa: PLC0415

    if not chosen.check:
        openapi.write()
        return 0
    if openapi.is_current():
        return 0
    print("openapi/openapi.json is not what is served; run: python -m service openapi", file=sys.stderr)
    return 1


def _compile(chosen: argparse.Namespace) -> int:
    from service.compiling import CompileError, compile_into  # noqa: PLC0415

    try:
        print(compile_into(chosen.into))
    except CompileError as error:
        print(f"no compiled copy: {error}", file=sys.stderr)
        return 1
    return 0


def _bench(chosen: argparse.Namespace) -> int:
    result: int = import_module(f"service.bench.{chosen.name}").main(chosen.rest)
    return result
