"""Who may ask: only the page that this program gave out, under its own name, on this machine.

Any page that a browser has open can send requests to a port of this machine, and any program of any user can; a
name of somebody else's can lead here (DNS rebinding). So whatever reads or changes something needs the key of the
session, in a header that only this page knows; `Host` and `Origin` must be exactly ours; and the page has no other
source of code, pictures or connections than this program.
"""

from __future__ import annotations

import hmac
import json
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

type Scope = MutableMapping[str, Any]
type Message = MutableMapping[str, Any]
type Receive = Callable[[], Awaitable[Message]]
type Send = Callable[[Message], Awaitable[None]]
type Application = Callable[[Scope, Receive, Send], Awaitable[None]]

LARGEST_BODY = 12_000_000  # a text of the largest size and its base, escaped as JSON
KEY_HEADER = b"x-gesturesmith-key"
API = "/api/"
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'nonce-{nonce}'; img-src 'self' blob: data:; "
    "media-src blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; "
    "require-trusted-types-for 'script'; trusted-types pictures"
)


class Guard:
    """Around the application: what it refuses never reaches it, and each answer has the headers that bind the page.

    port    the port that the page was served from
    key     that of the session
    nonce   for the editor's own styles
    """

    def __init__(self, application: Application, *, port: int, key: str, nonce: str) -> None:
        self._application = application
        self._key = key.encode()
        self._hosts = {f"{name}:{port}".encode() for name in ("127.0.0.1", "localhost")}
        self._origins = {b"http://" + host for host in self._hosts}
        self._headers = (
            (b"content-security-policy", _POLICY.format(nonce=nonce).encode()),
            (b"x-content-type-options", b"nosniff"),
            (b"referrer-policy", b"no-referrer"),
            (b"cross-origin-opener-policy", b"same-origin"),
            (b"cross-origin-resource-policy", b"same-origin"),
            (b"cross-origin-embedder-policy", b"require-corp"),
            (b"permissions-policy", b"camera=(), microphone=(), geolocation=()"),
            (b"cache-control", b"no-store"),
        )

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            raise RuntimeError(f"no {scope['type']} here")
        refused = self.objection(scope)
        if refused is not None:
            await self._refuse(send, *refused)
            return

        async def answer(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message["headers"], *self._headers]
            await send(message)

        await self._application(scope, receive, answer)

    def objection(self, scope: Scope) -> tuple[int, str] | None:
        """The status and reason with which a request is refused; None if it may pass."""
        headers: dict[bytes, list[bytes]] = {}
        for name, value in scope["headers"]:
            headers.setdefault(name.lower(), []).append(value)

        def one(name: bytes, missing: bytes = b"") -> bytes:
            """The value of a header; one that is there twice counts as none of ours."""
            values = headers.get(name, [missing])
            return values[0] if len(values) == 1 else b"twice"

        if one(b"host") not in self._hosts:
            return 421, "this program has another name"
        if b"origin" in headers and one(b"origin") not in self._origins:
            return 403, "another page asks"
        if not scope["path"].startswith(API):
            return None if scope["method"] in ("GET", "HEAD") else (405, "only to be looked at")
        if one(b"sec-fetch-site", b"same-origin") != b"same-origin":
            return 403, "another page asks"
        if not hmac.compare_digest(one(KEY_HEADER), self._key):
            return 401, "the key of this session is missing"
        if scope["method"] != "POST":
            return 405, "only to be asked"
        if one(b"content-type").partition(b";")[0].strip().lower() != b"application/json":
            return 415, "only JSON"
        length = one(b"content-length")
        if not length.isdigit():
            return 411, "of unknown length"
        return (413, "too long") if int(length) > LARGEST_BODY else None

    async def _refuse(self, send: Send, status: int, why: str) -> None:
        body = json.dumps({"error": why}).encode()
        head = [(b"content-type", b"application/json"), (b"content-length", b"%d" % len(body)), *self._headers]
        await send({"type": "http.response.start", "status": status, "headers": head})
        await send({"type": "http.response.body", "body": body})
