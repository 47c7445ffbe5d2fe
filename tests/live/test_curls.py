"""Does the shell script of curls get an answer to each of its questions from a running service?"""

import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def address() -> Iterator[str]:
    """A running service on a free loopback port."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    command = [sys.executable, "-m", "service", "serve", "--port", str(port)]
    process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=os.environ)
    base = f"http://127.0.0.1:{port}"
    try:
        for _ in range(600):
            try:
                urllib.request.urlopen(f"{base}/health/ready", timeout=1).close()
                break
            except OSError:
                time.sleep(0.05)
        yield base
    finally:
        process.send_signal(signal.SIGTERM)
        process.wait(timeout=15)


@pytest.mark.skipif(shutil.which("curl") is None, reason="curl is not installed")
def test_every_curl_of_the_examples_is_answered(address: str) -> None:
    done = subprocess.run(
        [str(ROOT / "examples" / "curls.sh"), address], capture_output=True, text=True, timeout=120, check=False
    )
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr
    assert "What was checked" in done.stdout
    assert "Which panel it can be" in done.stdout
    assert '"found_in":"label"' in done.stdout
    assert '"problem"' not in done.stdout
