"""What may the operator set? One table, read once from the environment, with the prefix SUNSILL_."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from typing import Any

PREFIX = "SUNSILL_"


class SettingsError(ValueError):
    """One or more settings of the environment make no sense; the message names them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The operator's choices; the defaults suit one person at a desk. ``TABLE`` describes each."""

    host: str = "127.0.0.1"
    port: int = 8080
    workers: int = 1
    allowed_hosts: tuple[str, ...] = ("localhost", "127.0.0.1", "[::1]")
    cors_origins: tuple[str, ...] = ()
    body_limit_bytes: int = 2 * 1024 * 1024
    log_limit_bytes: int = 8 * 1024 * 1024
    body_seconds: float = 10.0
    open_requests: int = 128
    computing_threads: int = 2
    waiting_computations: int = 64
    place_cache_size: int = 16
    set_cache_size: int = 8
    panel_cache_size: int = 512
    answer_cache_bytes: int = 4 * 1024 * 1024
    rule_cards_folder: str = ""
    weather_folder: str = ""
    log_level: str = "info"


@dataclass(frozen=True, slots=True)
class Setting:
    """One row of the table: the field, how its text is read, and what it does, for people."""

    field: str
    read: Callable[[str], Any]
    says: str

    @property
    def variable(self) -> str:
        """Name in the environment."""
        return PREFIX + self.field.upper()


def _number(low: float, high: float, kind: Callable[[str], Any] = int) -> Callable[[str], Any]:
    def read(text: str) -> Any:
        value = kind(text)
        if not low <= value <= high:
            message = f"must lie between {low:g} and {high:g}"
            raise ValueError(message)
        return value

    return read


def _one_of(*choices: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in choices:
            message = f"must be one of {', '.join(choices)}"
            raise ValueError(message)
        return text

    return read


def _matching(pattern: str, says: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if not re.fullmatch(pattern, text):
            raise ValueError(says)
        return text

    return read


def _each(read_one: Callable[[str], str]) -> Callable[[str], tuple[str, ...]]:
    def read(text: str) -> tuple[str, ...]:
        return tuple(read_one(part.strip()) for part in text.split(",") if part.strip())

    return read


_HOST = _matching(r"\*|[A-Za-z0-9._-]{1,253}|\[[0-9A-Fa-f:.]{2,45}\]", "must be a host name without port, or *")
_ORIGIN = _matching(
    r"\*|[a-z][a-z0-9+.-]{0,30}://[A-Za-z0-9._\[\]:-]{1,259}", "must be an origin such as https://example.org, or *"
)

TABLE: tuple[Setting, ...] = (
    Setting("host", _matching(r"[A-Za-z0-9._:-]{1,253}", "must be a host name or an address"), "Address to listen on."),
    Setting("port", _number(0, 65535), "Port to listen on; 0 takes a free one."),
    Setting("workers", _number(1, 64), "Processes that answer; each computes on its own."),
    Setting(
        "allowed_hosts",
        _each(_HOST),
        "Host names under which the service may be called, separated by commas; * for any. Health paths are exempt.",
    ),
    Setting(
        "cors_origins", _each(_ORIGIN), "Origins whose pages may call from a browser, separated by commas; * for any."
    ),
    Setting("body_limit_bytes", _number(1024, 64 * 1024 * 1024), "Largest request body."),
    Setting(
        "log_limit_bytes",
        _number(1024, 64 * 1024 * 1024),
        "Largest body of `/v1/logbook/review` and `/v1/adverts/...`.",
    ),
    Setting("body_seconds", _number(0.1, 600, float), "Time within which a request body must have arrived."),
    Setting("open_requests", _number(1, 100_000), "Requests in hand at once; above it the answer is 503."),
    Setting("computing_threads", _number(1, 64), "Computations at once in one process."),
    Setting("waiting_computations", _number(0, 100_000), "Computations that may wait; above it the answer is 503."),
    Setting("place_cache_size", _number(1, 10_000), "Places whose year of hours is kept in memory (some 0.7 MB each)."),
    Setting(
        "set_cache_size",
        _number(1, 10_000),
        "Sets whose hours are kept in memory (about 1 MB an array each, and half a MB), and of a quarter as many the "
        "tables for other planes (some 3 MB each).",
    ),
    Setting(
        "panel_cache_size",
        _number(1, 100_000),
        "Panels of many whose figures are kept in memory (about 70 kB each, with those of shortlists), "
        "and adverts whose readings are.",
    ),
    Setting(
        "answer_cache_bytes",
        _number(0, 1024 * 1024 * 1024),
        "Memory of a process for whole answers, told again where a question comes a third time that day; 0 keeps none.",
    ),
    Setting(
        "rule_cards_folder",
        _matching(r"[^\u0000]{0,4096}", "must be the path of a folder"),
        "Folder with rule cards of your own, one JSON file an area; they replace the packaged ones of that area.",
    ),
    Setting(
        "weather_folder",
        _matching(r"[^\u0000]{0,4096}", "must be the path of a folder"),
        "Folder with hourly weather files (EPW) that requests may name; at most 50, some 0.3 MB each in memory.",
    ),
    Setting("log_level", _one_of("debug", "info", "warning", "error"), "Least weighty line that is logged."),
)


def from_environment(environ: Mapping[str, str]) -> Settings:
    """The settings that the environment names, defaults for the rest.

    Raises:
        SettingsError: a value is out of range, or a variable with our prefix is not known.
    """
    known = {row.variable: row for row in TABLE}
    values: dict[str, Any] = {}
    faults = []
    for name, text in sorted(environ.items()):
        if not name.startswith(PREFIX):
            continue
        if name not in known:
            faults.append(f"{name} is not known; there are {', '.join(known)}")
            continue
        try:
            values[known[name].field] = known[name].read(text)
        except ValueError as error:
            faults.append(f"{name}: {error}")
    if faults:
        raise SettingsError("; ".join(faults))
    return Settings(**values)


def table_rows() -> list[tuple[str, str, str]]:
    """Variable, default as text, and what it does; for the documentation and its test."""
    defaults = {f.name: f.default for f in fields(Settings)}
    return [(row.variable, _as_text(defaults[row.field]), row.says) for row in TABLE]


def _as_text(value: Any) -> str:
    return ",".join(value) if isinstance(value, tuple) else f"{value}"
