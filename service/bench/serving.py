"""What does one appraisal cost a running server? Time until ready, CPU a request, memory a worker; Linux only.

The workload: a server of its own on a free loopback port, one worker; the appraisal of two arrays (the file that is
given), asked again and again over one connection, as it is and with other panels each time, beside `/version`, which
costs next to nothing but the framework. The server keeps a set's d.c. hours, so that the two differ; of many panels it
keeps each one's figures, and 200 pairs are asked both ways too. CPU is what the kernel booked on the server's process,
so that a busy machine changes it little; the wall clock appears only in the time until ready.
"""

import argparse
import http.client
import json
import os
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path

REPEATS = 40
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


@dataclass(frozen=True, slots=True, kw_only=True)
class ServingCost:
    """What was measured: seconds until ready, CPU milliseconds a request, peak resident memory in MB."""

    ready_after_s: float
    first_appraisal_cpu_ms: float
    appraisal_cpu_ms: float
    other_set_cpu_ms: float
    version_cpu_ms: float
    matrix_cpu_ms: float
    other_matrix_cpu_ms: float
    resident_mb: float

    @property
    def appraisal_to_version(self) -> float:
        """How many times the CPU of `/version` an appraisal costs."""
        return self.appraisal_cpu_ms / self.version_cpu_ms


def main(arguments: Sequence[str]) -> int:
    """``bench serving [FILE] [--json]``: FILE is one appraisal's request, the Kranichwerft home by default."""
    parser = argparse.ArgumentParser(prog="python -m service bench serving")
    parser.add_argument("file", nargs="?", type=Path, default=Path("examples/kranichwerft.json"))
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    chosen = parser.parse_args(arguments)
    cost = serving_cost(chosen.file)
    figures = {**asdict(cost), "appraisal_to_version": cost.appraisal_to_version}
    print(json.dumps(figures) if chosen.json else report(cost))
    return 0


def serving_cost(request_file: Path, repeats: int = REPEATS) -> ServingCost:
    """Start a server, ask it, read what the kernel booked on its process.

    Args:
        request_file: JSON of one appraisal.
        repeats: how often each path is asked; `/version` ten times as often, for the clock ticks are coarse.

    Raises:
        RuntimeError: the server did not become ready, or refused the request.
    """
    body = request_file.read_bytes()
    with _server() as (pid, port, ready_after_s):
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
        before = _cpu_s(pid)
        _ask(connection, "POST", "/v1/appraisal", body)
        first = _cpu_s(pid) - before
        appraisal = _cpu_of(pid, repeats, lambda: _ask(connection, "POST", "/v1/appraisal", body))
        others = iter(_other_panels(body, repeats))
        other_set = _cpu_of(pid, repeats, lambda: _ask(connection, "POST", "/v1/appraisal", next(others)))
        _ask(connection, "POST", "/v1/compatibility/matrix", _PAIRS)
        matrix = _cpu_of(pid, repeats, lambda: _ask(connection, "POST", "/v1/compatibility/matrix", _PAIRS))
        pairs = iter(_other_pairs(repeats))
        other_matrix = _cpu_of(pid, repeats, lambda: _ask(connection, "POST", "/v1/compatibility/matrix", next(pairs)))
        version = _cpu_of(pid, repeats * 10, lambda: _ask(connection, "GET", "/version", None))
        return ServingCost(
            ready_after_s=ready_after_s,
            first_appraisal_cpu_ms=first * 1000,
            appraisal_cpu_ms=appraisal * 1000,
            other_set_cpu_ms=other_set * 1000,
            version_cpu_ms=version * 1000,
            matrix_cpu_ms=matrix * 1000,
            other_matrix_cpu_ms=other_matrix * 1000,
            resident_mb=_resident_mb(pid),
        )


def report(cost: ServingCost) -> str:
    """The figures as a small table, ratios first."""
    return "\n".join(
        (
            f"appraisal / version, CPU      {cost.appraisal_to_version:8.1f} x",
            f"appraisal, warm, CPU          {cost.appraisal_cpu_ms:8.1f} ms",
            f"the same, other panels each time {cost.other_set_cpu_ms:5.1f} ms",
            f"appraisal, first at a place   {cost.first_appraisal_cpu_ms:8.1f} ms",
            f"200 pairs / version, CPU      {cost.matrix_cpu_ms / cost.version_cpu_ms:8.1f} x",
            f"200 pairs, warm, CPU          {cost.matrix_cpu_ms:8.1f} ms",
            f"the same, other panels each time {cost.other_matrix_cpu_ms:5.1f} ms",
            f"version, CPU                  {cost.version_cpu_ms:8.2f} ms",
            f"ready after                   {cost.ready_after_s:8.2f} s",
            f"resident memory, peak         {cost.resident_mb:8.0f} MB",
        )
    )


def _other_panels(body: bytes, repeats: int) -> Iterator[bytes]:
    """The same request with panels that grow older by a thousandth of a year: no set was asked about before."""
    request = json.loads(body)
    for n in range(1, repeats + 1):
        for array in request["arrays"]:
            array["panel"]["age_years"] = 5 + n / 1000
        yield json.dumps(request).encode()


def _other_pairs(repeats: int) -> Iterator[bytes]:
    """The pairs with panels whose current differs by a milliampere: no panel was asked about before."""
    for n in range(1, repeats + 1):
        request = json.loads(_PAIRS)
        for panel in request["panels"]:
            panel["short_circuit_current_a"] += n / 1000
        yield json.dumps(request).encode()


@contextmanager
def _server() -> Iterator[tuple[int, int, float]]:
    """A server of one worker on a free loopback port: its process, its port, the seconds until ready."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    started = time.monotonic()
    command = [sys.executable, "-m", "service", "serve", "--host", "127.0.0.1", "--port", str(port)]
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
            _ask(http.client.HTTPConnection("127.0.0.1", port, timeout=1), "GET", "/health/ready", None)
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
    """User and system CPU seconds of a process (fields 14 and 15 of /proc/PID/stat, proc(5))."""
    fields = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def _resident_mb(pid: int) -> float:
    """Peak resident memory (VmHWM of /proc/PID/status)."""
    for line in Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith("VmHWM"):
            return int(line.split()[1]) / 1024
    return float("nan")
