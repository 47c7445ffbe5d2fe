"""What comes over a raw socket, and is no request at all."""

import http.client
import json
import socket
import threading
import time
from collections.abc import Iterator

import pytest
import uvicorn

from service.api.middleware import wire
from service.app import create_app
from service.settings import Settings
from tests.http.client import SMALLEST


@pytest.fixture(scope="module")
def port() -> Iterator[int]:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        listener.listen()
        config = uvicorn.Config(create_app(Settings()), http=wire.Wire, ws="none", log_level="critical")
        server = uvicorn.Server(config)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
        thread.start()
        yield listener.getsockname()[1]
        server.should_exit = True
        thread.join(timeout=10)


def told(port: int, *pieces: bytes, pause_s: float = 0.0) -> bytes:
    with socket.create_connection(("127.0.0.1", port), timeout=20) as connection:
        try:
            for piece in pieces:
                connection.sendall(piece)
                time.sleep(pause_s)
        except (BrokenPipeError, ConnectionResetError):
            pass  # refused before all was sent
        answer = b""
        try:
            while piece := connection.recv(65536):
                answer += piece
        except ConnectionResetError:
            pass
        return answer


def problem(answer: bytes) -> dict[str, object]:
    head, _, body = answer.partition(b"\r\n\r\n")
    assert b"application/problem+json" in head
    return dict(json.loads(body))


@pytest.mark.parametrize(
    "nonsense",
    [
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
        b"HELLO\r\n\r\n",
        b"GET / HTTP/9.9\r\n\r\n",
        b"GET /version HTTP/1.1\r\nHost localhost\r\n\r\n",
        b"POST /v1/energy HTTP/1.1\r\nHost: localhost\r\nContent-Length: -5\r\n\r\n",
        b"POST /v1/energy HTTP/1.1\r\nHost: localhost\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\nhello",
        b"CONNECT localhost:80 HTTP/1.1\r\nHost: localhost\r\n\r\n",
    ],
)
def test_nonsense_is_refused_as_a_problem(port: int, nonsense: bytes) -> None:
    answer = problem(told(port, nonsense))
    assert answer["code"] == "malformed_request"


def test_an_endless_head_is_refused(port: int) -> None:
    pieces = [b"x-%d: %s\r\n" % (n, b"a" * 8000) for n in range(40)]
    answer = told(port, b"GET /version HTTP/1.1\r\nHost: localhost\r\n", *pieces)
    assert answer == b"" or problem(answer)["code"] == "header_too_large"
    assert b"200 OK" not in answer


def test_a_long_body_that_comes_with_its_head_in_one_piece_is_no_long_head(port: int) -> None:
    body = json.dumps({**SMALLEST, "household": {"demand": {"values_w": [100.125] * 8760}}}).encode()
    assert len(body) > wire.MOST_HEAD_BYTES
    head = b"POST /v1/energy HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nConnection: close\r\n"
    head += b"Content-Length: %d\r\n\r\n" % len(body)
    assert told(port, head + body).startswith(b"HTTP/1.1 200 OK")
    for cut in range(1, 5):  # the empty line that ends the head, parted
        assert told(port, head[:-cut], head[-cut:] + body, pause_s=0.1).startswith(b"HTTP/1.1 200 OK")


@pytest.mark.parametrize("chunked", [False, True])
def test_who_sends_all_of_a_large_body_before_reading_is_told_why_it_was_refused(port: int, chunked: bool) -> None:
    client = http.client.HTTPConnection("127.0.0.1", port, timeout=20)  # fails where it cannot send all
    body = [b" " * 1_000_000] * 10
    kind = {"Content-Type": "application/json"}
    client.request("POST", "/v1/energy", iter(body) if chunked else b"".join(body), kind, encode_chunked=chunked)
    answer = client.getresponse()
    assert answer.status == 413
    assert json.loads(answer.read())["code"] == "body_too_large"
    client.close()


def test_a_head_that_never_ends_is_cut(port: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(wire, "HEAD_SECONDS", 0.3)
    began = time.monotonic()
    assert told(port, b"GET /version HTTP/1.1\r\nHost: local") == b""
    assert time.monotonic() - began < 5


def test_after_all_of_this_a_plain_request_is_answered(port: int) -> None:
    answer = told(port, b"GET /version HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
    assert answer.startswith(b"HTTP/1.1 200 OK")
