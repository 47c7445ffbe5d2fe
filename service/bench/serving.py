"""What does one appraisal cost a running server? Time until ready, CPU a request, memory a worker; Linux only.

The workload: a server of its own on a free loopback port, one worker; the appraisal of two arrays (the file that is
given), asked over one connection for another home each time, with other panels each time, and again to the byte,
beside `/version`, which costs next to nothing but the framework. The three differ by what the server keeps: of a set
its hours, of a question that comes again the whole answer, so that `asked again` is the cost of finding it and no
measure of what an answer costs; `other home` is. Of many panels each one's figures are kept, so 200 pairs are asked in
another order each time and with other panels. CPU is what the kernel booked on the server's process. On a busy machine
that is twice as much in one minute as in the next, so all are asked in turns. The wall clock appears only in the time
until ready.
"""

import argparse
import http.client
import json
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from dataclasses import asdict, dataclass
from itertools import count
from pathlib import Path
from statistics import median

REPEATS = 200
ROUNDS = 20
# After the first the caches are full, by the default settings.
PLACES = (100, 400)
# Twenty labels against ten inverters, no two alike.
_PAIRS = json.dumps(
    {
        "site": {"latitude_deg": 54.2, "longitude_deg": 12.3},
        "panels": [
            {
                "rated_power_w": 300 + 9 * n, "open_circuit_voltage_v": 38 + 0.6 * n,
                "short_circuit_current_a": 10 + 0.2 * n, "max_power_voltage_v": 31.5 + 0.5 * n,
                "max_power_current_a": (300 + 9 * n) / (31.5 + 0.5 * n), "voc_coefficient_pct_per_k": -0.26,
            }
            for n in range(20)
        ],
        "inverters": [
            {
                "ac_power_w": 600 + 20 * n,
                "inputs": [
                    {
                        "max_input_voltage_v": 50 + n, "tracking_min_v": 16 + n, "tracking_max_v": 40 + n,
                        "start_voltage_v": 20 + n, "max_current_a": 10 + n / 2, "max_short_circuit_current_a": 12 + n,
                    }
                ],
            }
            for n in range(10)
        ],
        "as_of": "2026-11-25",
    }
).encode()  # fmt: skip
READY_WITHIN_S = 30.0
_RATIOS = (
    "appraisal_to_version", "energy_to_version", "appraisal_to_hello", "same_energy_to_version",
    "same_appraisal_to_hello",
)  # fmt: skip
_HELLO = """
import sys, uvicorn
from fastapi import FastAPI

app = FastAPI()
app.get("/hello")(lambda: {"hello": "world"})
app.get("/health/ready")(lambda: {})
uvicorn.run(app, host=sys.argv[2], port=int(sys.argv[4]), access_log=False, log_level="warning")
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class ServingCost:
    """What was measured: seconds until ready, CPU milliseconds a request, peak resident memory in MB.

    ``resident_after_places_mb``: resident memory after the first and after all of ``PLACES`` distinct places, which
    were asked about last.
    """

    ready_after_s: float
    first_appraisal_cpu_ms: float
    same_appraisal_cpu_ms: float
    appraisal_cpu_ms: float
    other_set_cpu_ms: float
    same_energy_cpu_ms: float
    energy_cpu_ms: float
    version_cpu_ms: float
    hello_cpu_ms: float
    matrix_cpu_ms: float
    other_matrix_cpu_ms: float
    resident_mb: float
    resident_after_places_mb: tuple[float, float]

    @property
    def appraisal_to_version(self) -> float:
        """How many times the CPU of `/version` an appraisal costs, of a known set for another home."""
        return self.appraisal_cpu_ms / self.version_cpu_ms

    @property
    def energy_to_version(self) -> float:
        """How many times the CPU of `/version` a year's energy costs, of a known set for another home."""
        return self.energy_cpu_ms / self.version_cpu_ms

    @property
    def same_energy_to_version(self) -> float:
        """The same where the same question is asked again: what finding its kept answer costs."""
        return self.same_energy_cpu_ms / self.version_cpu_ms

    @property
    def same_appraisal_to_hello(self) -> float:
        """How many times the CPU of the framework's least answer the same appraisal costs when asked again."""
        return self.same_appraisal_cpu_ms / self.hello_cpu_ms

    @property
    def appraisal_to_hello(self) -> float:
        """How many times the CPU of the framework's least answer an appraisal costs."""
        return self.appraisal_cpu_ms / self.hello_cpu_ms


def main(arguments: Sequence[str]) -> int:
    """``bench serving [FILE] [--json]``: FILE is one appraisal's request, the Kranichwerft home by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench serving")
    parser.add_argument("file", nargs="?", type=Path, default=Path("examples/kranichwerft.json"))
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    cost = serving_cost(chosen.file)
    ratios = {name: getattr(cost, name) for name in _RATIOS}
    figures = {**asdict(cost), **ratios}
    print(json.dumps(figures) if chosen.json else report(cost))
    return 0


def serving_cost(request_file: Path, repeats: int = REPEATS, places: tuple[int, int] = PLACES) -> ServingCost:
    """Start a server, ask it, read what the kernel booked on its process.

    Args:
        request_file: JSON of one appraisal.
        repeats: how often each path is asked; those of longer answers a fifth of it.
        places: after how many distinct places the memory is read.

    Raises:
        RuntimeError: the server did not become ready, or refused the request.
    """
    body = request_file.read_bytes()
    with (
        _server("-c", _HELLO) as (hello_pid, hello_port, _),
        closing(http.client.HTTPConnection("127.0.0.1", hello_port, timeout=60)) as hello,
        _server() as (pid, port, ready_after_s),
        closing(http.client.HTTPConnection("127.0.0.1", port, timeout=60)) as connection,
    ):
        before = _cpu_s(pid)
        _ask(connection, "POST", "/v1/appraisal", body)
        first = _cpu_s(pid) - before
        homes, others, pairs, orders = _other_homes(body), _other_panels(body), _other_pairs(), _other_orders()
        costs = _by_turns(
            repeats,
            {
                "version": (pid, lambda: _ask(connection, "GET", "/version", None)),
                "energy": (pid, lambda: _ask(connection, "POST", "/v1/energy", next(homes))),
                "same_energy": (pid, lambda: _ask(connection, "POST", "/v1/energy", body)),
                "hello": (hello_pid, lambda: _ask(hello, "GET", "/hello", None)),
                "appraisal": (pid, lambda: _ask(connection, "POST", "/v1/appraisal", next(homes))),
                "same_appraisal": (pid, lambda: _ask(connection, "POST", "/v1/appraisal", body)),
            },
        )
        costs |= _by_turns(
            repeats // 5,
            {
                "other_set": (pid, lambda: _ask(connection, "POST", "/v1/appraisal", next(others))),
                "matrix": (pid, lambda: _ask(connection, "POST", "/v1/compatibility/matrix", next(orders))),
                "other_matrix": (pid, lambda: _ask(connection, "POST", "/v1/compatibility/matrix", next(pairs))),
            },
        )
        peak_mb = _resident_mb(pid)
        after_places_mb = resident_after_places_mb(pid, connection, body, places)
        return ServingCost(
            ready_after_s=ready_after_s,
            first_appraisal_cpu_ms=first * 1000,
            **{f"{name}_cpu_ms": cost * 1000 for name, cost in costs.items()},
            resident_mb=peak_mb,
            resident_after_places_mb=after_places_mb,
        )


def _by_turns(repeats: int, asks: Mapping[str, tuple[int, Callable[[], None]]]) -> dict[str, float]:
    """CPU seconds that each call costs its process, the median of ``ROUNDS`` in which all are asked.

    After a first call of each, which is not counted.
    """
    for _, ask in asks.values():
        ask()
    found: dict[str, list[float]] = {name: [] for name in asks}
    for _ in range(ROUNDS):
        for name, (pid, ask) in asks.items():
            found[name].append(_cpu_of(pid, max(repeats // ROUNDS, 1), ask))
    return {name: median(costs) for name, costs in found.items()}


def report(cost: ServingCost) -> str:
    """The figures as a small table, ratios first."""
    return "\n".join(
        (
            f"appraisal / version, CPU      {cost.appraisal_to_version:8.1f} x",
            f"appraisal / hello of the framework {cost.appraisal_to_hello:3.1f} x",
            f"energy / version, CPU         {cost.energy_to_version:8.1f} x",
            f"energy, asked again / version {cost.same_energy_to_version:8.1f} x",
            f"appraisal, asked again / hello{cost.same_appraisal_to_hello:8.1f} x",
            f"energy, asked again, CPU      {cost.same_energy_cpu_ms:8.2f} ms",
            f"energy, other home, CPU       {cost.energy_cpu_ms:8.1f} ms",
            f"appraisal, asked again, CPU   {cost.same_appraisal_cpu_ms:8.2f} ms",
            f"appraisal, other home, CPU    {cost.appraisal_cpu_ms:8.1f} ms",
            f"the same, other panels each time {cost.other_set_cpu_ms:5.1f} ms",
            f"appraisal, first at a place   {cost.first_appraisal_cpu_ms:8.1f} ms",
            f"200 known pairs / version, CPU{cost.matrix_cpu_ms / cost.version_cpu_ms:8.1f} x",
            f"200 known pairs, CPU          {cost.matrix_cpu_ms:8.1f} ms",
            f"the same, other panels each time {cost.other_matrix_cpu_ms:5.1f} ms",
            f"version, CPU                  {cost.version_cpu_ms:8.2f} ms",
            f"ready after                   {cost.ready_after_s:8.2f} s",
            f"resident memory, peak         {cost.resident_mb:8.0f} MB",
            f"resident after {PLACES[0]:3} places     {cost.resident_after_places_mb[0]:8.0f} MB",
            f"resident after {PLACES[1]:3} places     {cost.resident_after_places_mb[1]:8.0f} MB",
        )
    )


def resident_after_places_mb(
    pid: int, connection: http.client.HTTPConnection, body: bytes, places: tuple[int, int]
) -> tuple[float, float]:
    """Resident memory of a server, MB, after the first and after all of so many distinct places of Europe.

    Args:
        pid: the server's process.
        connection: to it.
        body: JSON of one appraisal, whose place is replaced.
        places: how many first, and how many in all.
    """
    request = json.loads(body)
    found = []
    for number in range(places[1]):
        request["site"] = {"latitude_deg": 46.0 + number // 20 * 0.4, "longitude_deg": 7.0 + number % 20 * 0.4}
        _ask(connection, "POST", "/v1/appraisal", json.dumps(request).encode())
        if number + 1 in places:
            found.append(_resident_mb(pid, "VmRSS"))
    return found[0], found[-1]


def _other_homes(body: bytes) -> Iterator[bytes]:
    """The same set in homes that use a little more each: its d.c. hours are at hand, its answer is not."""
    request = json.loads(body)
    for n in count(1):
        request["household"] = {**request.get("household", {}), "demand_kwh_per_year": 2000 + n}
        yield json.dumps(request).encode()


def _other_panels(body: bytes) -> Iterator[bytes]:
    """The same request with panels that grow older by a thousandth of a year: no set was asked about before."""
    request = json.loads(body)
    for n in count(1):
        for array in request["arrays"]:
            array["panel"]["age_years"] = 5 + n / 1000
        yield json.dumps(request).encode()


def _other_pairs() -> Iterator[bytes]:
    """The pairs with panels whose current differs by a milliampere: no panel was asked about before."""
    for n in count(1):
        request = json.loads(_PAIRS)
        for panel in request["panels"]:
            panel["short_circuit_current_a"] += n / 1000
        yield json.dumps(request).encode()


def _other_orders() -> Iterator[bytes]:
    """The pairs in another order: each panel and inverter was asked about before, the question was not."""
    request = json.loads(_PAIRS)
    for n in count():
        name = "panels" if n % 20 else "inverters"
        request[name] = request[name][1:] + request[name][:1]
        yield json.dumps(request).encode()


@contextmanager
def _server(*program: str) -> Iterator[tuple[int, int, float]]:
    """A server of one worker on a free loopback port: its process, its port, the seconds until ready."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    started = time.monotonic()
    command = [sys.executable, *(program or ("-m", "service", "serve")), "--host", "127.0.0.1", "--port", str(port)]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        _wait_until_ready(port, started + READY_WITHIN_S)
        yield process.pid, port, time.monotonic() - started
    finally:
        process.terminate()
        process.wait(timeout=10)


def _wait_until_ready(port: int, deadline: float) -> None:
    while time.monotonic() < deadline:
        try:
            with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=1)) as connection:
                _ask(connection, "GET", "/health/ready", None)
        except (OSError, RuntimeError):
            time.sleep(0.02)
        else:
            return
    message = f"no ready server after {READY_WITHIN_S} s"
    raise RuntimeError(message)


def _ask(connection: http.client.HTTPConnection, method: str, path: str, body: bytes | None) -> None:
    connection.request(method, path, body, {"Content-Type": "application/json"} if body else {})
    answer = connection.getresponse()
    text = answer.read()
    if answer.status != http.client.OK:
        message = f"{path}: {answer.status} {text[:300]!r}"
        raise RuntimeError(message)


def _cpu_of(pid: int, repeats: int, ask: Callable[[], None]) -> float:
    """CPU seconds that the process spent on one call, as a mean over ``repeats``."""
    before = _cpu_s(pid)
    for _ in range(repeats):
        ask()
    return (_cpu_s(pid) - before) / repeats


def _cpu_s(pid: int) -> float:
    """User and system CPU seconds of a process, to the nanosecond: the clock that clock_getcpuclockid(3) names."""
    return time.clock_gettime((~pid << 3) | 2)


def _resident_mb(pid: int, which: str = "VmHWM") -> float:
    """Peak resident memory (VmHWM of /proc/PID/status, proc(5)), or what is resident now (VmRSS)."""
    for line in Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith(f"{which}:"):
            return int(line.split()[1]) / 1024
    return float("nan")
