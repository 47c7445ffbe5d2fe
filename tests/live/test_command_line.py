"""The command line, in a process of its own and over real sockets."""

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SERVICE = [sys.executable, "-m", "service"]


def run(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*SERVICE, *arguments], cwd=ROOT, capture_output=True, text=True, timeout=120, check=False,
        env={**os.environ, **environment},
    )  # fmt: skip


def test_try_prints_the_report_of_a_file_and_fails_with_the_reason_where_there_is_none() -> None:
    good = run("try", "examples/smallest.json")
    assert good.returncode == 0, good.stderr
    assert "What was checked" in good.stdout
    assert max(len(line) for line in good.stdout.splitlines()) <= 72
    assert good.stderr == ""


@pytest.mark.parametrize("file", ["README.md", "no_such_file.json"])
def test_try_fails_where_the_file_is_no_request(file: str) -> None:
    bad = run("try", file)
    assert bad.returncode == 1
    assert bad.stdout == ""
    assert bad.stderr
    assert "Traceback" not in bad.stderr


def test_a_wrong_setting_stops_the_start_and_is_named() -> None:
    bad = run("serve", SUNSILL_PORTS="1")
    assert bad.returncode == 2
    assert "SUNSILL_PORTS" in bad.stderr
    assert "Traceback" not in bad.stderr


@pytest.mark.parametrize("workers", ["1", "2"])
def test_a_bad_rule_card_stops_the_start_and_file_and_field_are_named(tmp_path: Path, workers: str) -> None:
    (tmp_path / "DE.json").write_text('[{"id": "DE"}]', encoding="utf-8")
    bad = run("serve", "--port", "0", "--workers", workers, SUNSILL_RULE_CARDS_FOLDER=str(tmp_path))
    assert bad.returncode == 2
    assert f"{tmp_path / 'DE.json'}: /0/country is missing" in bad.stderr
    assert "Traceback" not in bad.stderr


def test_the_server_starts_answers_and_stops_when_told() -> None:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    process = subprocess.Popen(
        [*SERVICE, "serve", "--port", str(port)], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    try:
        assert wait_until_ready(port)
        body = (ROOT / "examples" / "smallest.json").read_bytes()
        status, text = ask(port, "POST", "/v1/energy", body)
        assert status == 200
        assert b'"year_kwh"' in text
        status, _ = ask(port, "GET", "/v1/climate?latitude_deg=54.2&longitude_deg=12.3")
        assert status == 200
        process.send_signal(signal.SIGTERM)
        output, _ = process.communicate(timeout=10)
    finally:
        process.kill()
    assert process.returncode in {0, -signal.SIGTERM}
    assert "/v1/climate 200" in output
    assert "54.2" not in re.sub(r"\b[0-9.]+ms\b", "", output)  # a time may hold the same digits


@pytest.mark.skipif(not Path("/proc/self/task").is_dir(), reason="threads are counted as Linux lists them")
def test_linear_algebra_is_told_to_keep_to_one_thread_before_it_is_loaded() -> None:
    counted = "import os, service.__main__, service.command_line, numpy; print(len(os.listdir('/proc/self/task')))"
    untold = {name: value for name, value in os.environ.items() if not name.endswith("_NUM_THREADS")}
    done = subprocess.run([sys.executable, "-c", counted], cwd=ROOT, env=untold, capture_output=True, check=True)
    assert done.stdout.split() == [b"1"]


# In a container the service is the first process, to which a signal that it raises on itself is not delivered
# (pid_namespaces(7)): it then ends by itself, as it does here.
AS_FIRST_PROCESS = (
    "import signal, sys; signal.raise_signal = lambda number: None; from service.command_line import main; "
    "sys.exit(main(['serve', '--host', '0.0.0.0', '--port', sys.argv[1], '--workers', '1']))"
)


@pytest.mark.parametrize("command", [[*SERVICE[1:], "serve", "--port"], ["-c", AS_FIRST_PROCESS]])
@pytest.mark.parametrize("kept", [False, True])
def test_the_server_stops_within_a_second_even_with_a_connection_kept_open(command: list[str], kept: bool) -> None:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    process = subprocess.Popen(
        [sys.executable, *command, str(port)], cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=5)
    try:
        assert wait_until_ready(port)
        connection.request("GET", "/health/ready")
        connection.getresponse().read()
        if not kept:
            connection.close()
        began = time.monotonic()
        process.send_signal(signal.SIGTERM)
        process.wait(timeout=10)
        assert time.monotonic() - began < 1.0
    finally:
        connection.close()
        process.kill()
        process.wait()


def wait_until_ready(port: int) -> bool:
    for _ in range(300):
        try:
            return ask(port, "GET", "/health/ready")[0] == 200
        except OSError:
            time.sleep(0.1)
    return False


def ask(port: int, method: str, path: str, body: bytes | None = None) -> tuple[int, bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    try:
        connection.request(method, path, body, {"Content-Type": "application/json"} if body else {})
        answer = connection.getresponse()
        return answer.status, answer.read()
    finally:
        connection.close()
