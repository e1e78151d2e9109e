"""Attacks on a program that listens on a port of this machine, and what is answered to each.

After "Fetch Metadata Request Headers" (W3C), RFC 9110 (421 for a name that is not served, 411, 413, 415), and the
description of DNS rebinding in Jackson et al., "Protecting browsers from DNS rebinding attacks" (CCS 2007)."""

from __future__ import annotations

import asyncio
from typing import Any

import pytest

from gesturesmith.live.guard import LARGEST_BODY, Guard

PORT, KEY = 8470, "k" * 43
HOST = f"127.0.0.1:{PORT}"
PASSED = 200


def asked(method: str, path: str, *headers: tuple[str, str]) -> tuple[int, dict[str, str]]:
    """The status of an answer, and its headers."""
    sent: list[dict[str, Any]] = []

    async def application(scope, receive, send) -> None:
        await send({"type": "http.response.start", "status": PASSED, "headers": [(b"content-type", b"text/plain")]})
        await send({"type": "http.response.body", "body": b"secret"})

    async def receive() -> dict[str, Any]:
        raise AssertionError("nothing is read before the guard has agreed")

    async def send(message: Any) -> None:
        sent.append(message)

    scope = {
        "type": "http",
        "method": method,
        "path": path,
        "headers": [(name.lower().encode(), value.encode()) for name, value in headers],
    }
    asyncio.run(Guard(application, port=PORT, key=KEY, nonce="n" * 16)(scope, receive, send))
    if sent[0]["status"] != PASSED:
        assert b"secret" not in sent[1]["body"]
    return sent[0]["status"], {name.decode(): value.decode() for name, value in sent[0]["headers"]}


GOOD = {
    "Host": HOST,
    "X-Gesturesmith-Key": KEY,
    "Content-Type": "application/json",
    "Content-Length": "2",
    "Origin": f"http://{HOST}",
    "Sec-Fetch-Site": "same-origin",
}


@pytest.mark.parametrize(
    ("other", "status"),
    [
        ({}, PASSED),
        ({"Origin": None, "Sec-Fetch-Site": None}, PASSED),  # a program that has the key
        ({"Host": f"localhost:{PORT}", "Origin": f"http://localhost:{PORT}"}, PASSED),
        ({"Content-Type": "application/json; charset=utf-8"}, PASSED),
        ({"Host": f"evil.example:{PORT}"}, 421),  # rebinding
        ({"Host": "evil.example"}, 421),
        ({"Host": "127.0.0.1"}, 421),
        ({"Host": f"127.0.0.1:{PORT}.evil.example"}, 421),
        ({"Host": f"127.0.0.1:{PORT + 1}"}, 421),
        ({"Host": None}, 421),
        ({"X-Gesturesmith-Key": None}, 401),
        ({"X-Gesturesmith-Key": ""}, 401),
        ({"X-Gesturesmith-Key": KEY[:-1]}, 401),
        ({"X-Gesturesmith-Key": KEY + "k"}, 401),
        ({"X-Gesturesmith-Key": "é" * 43}, 401),
        ({"Origin": "http://evil.example"}, 403),
        ({"Origin": "http://127.0.0.1:1"}, 403),  # another program's page on this machine
        ({"Origin": f"https://{HOST}"}, 403),
        ({"Origin": "null"}, 403),  # a sandboxed frame, a file
        ({"Origin": f"http://{HOST}.evil.example"}, 403),
        ({"Sec-Fetch-Site": "cross-site"}, 403),
        ({"Sec-Fetch-Site": "same-site"}, 403),  # another port is the same site
        ({"Sec-Fetch-Site": "none"}, 403),  # typed into the address bar
        ({"Content-Type": "text/plain"}, 415),  # what a form can send
        ({"Content-Type": "application/x-www-form-urlencoded"}, 415),
        ({"Content-Type": "multipart/form-data; boundary=x"}, 415),
        ({"Content-Type": None}, 415),
        ({"Content-Length": None}, 411),  # in pieces of unknown number
        ({"Content-Length": "-1"}, 411),
        ({"Content-Length": "1e9"}, 411),
        ({"Content-Length": str(LARGEST_BODY)}, PASSED),
        ({"Content-Length": str(LARGEST_BODY + 1)}, 413),
    ],
)
def test_what_is_asked_of_the_program(other, status):
    headers = [(name, value) for name, value in (GOOD | other).items() if value is not None]
    assert asked("POST", "/api/open", *headers)[0] == status


@pytest.mark.parametrize("name", ["Host", "Origin", "X-Gesturesmith-Key", "Content-Type", "Content-Length"])
@pytest.mark.parametrize("first", [True, False])
def test_a_header_that_is_there_twice_is_believed_in_neither_form(name, first):
    twice = {"Host": "evil.example", "Origin": "http://evil.example"}.get(name, "x")
    pair = [(name, twice), (name, GOOD[name])]
    headers = [(n, v) for n, v in GOOD.items() if n != name] + (pair if first else pair[::-1])
    assert asked("POST", "/api/open", *headers)[0] in (401, 403, 411, 415, 421)


@pytest.mark.parametrize("method", ["GET", "HEAD", "PUT", "DELETE", "PATCH", "TRACE", "OPTIONS"])
def test_only_post_asks(method):
    assert asked(method, "/api/open", *GOOD.items())[0] == 405


def test_a_preflight_is_answered_with_no_permission():
    wish = ("Access-Control-Request-Method", "POST")
    status, headers = asked("OPTIONS", "/api/open", ("Host", HOST), ("Origin", "http://evil.example"), wish)
    assert status == 403
    assert not [name for name in headers if name.startswith("access-control")]


@pytest.mark.parametrize(
    ("method", "headers", "status"),
    [
        ("GET", {}, PASSED),
        ("HEAD", {}, PASSED),
        ("POST", {}, 405),
        ("GET", {"Host": "evil.example"}, 421),
        ("GET", {"Origin": "http://evil.example"}, 403),
        ("GET", {"Sec-Fetch-Site": "none"}, PASSED),  # from the address bar: the page itself holds no secret
        ("GET", {"Sec-Fetch-Site": "cross-site"}, PASSED),  # a link; no frame may hold it
    ],
)
def test_who_may_look_at_the_page(method, headers, status):
    assert asked(method, "/", *({"Host": HOST} | headers).items())[0] == status


@pytest.mark.parametrize("path", ["/", "/api/open", "/api/none"])
def test_every_answer_binds_the_page(path):
    """No code but ours and no connection but here, in no frame, kept nowhere."""
    _, headers = asked("GET", path, ("Host", HOST))
    policy = headers["content-security-policy"].split("; ")
    assert "default-src 'none'" in policy
    assert "script-src 'self'" in policy
    assert "connect-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "require-trusted-types-for 'script'" in policy
    assert not [part for part in policy if "unsafe" in part or "*" in part or "http" in part]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cache-control"] == "no-store"


@pytest.mark.parametrize("kind", ["websocket", "lifespan"])
def test_there_is_nothing_but_http(kind):
    guard = Guard(None, port=PORT, key=KEY, nonce="")  # type: ignore[arg-type]
    with pytest.raises(RuntimeError, match=kind):
        asyncio.run(guard({"type": kind}, None, None))  # type: ignore[arg-type]
