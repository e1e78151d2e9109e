"""The page's server in this process, and what a page asks of it."""

from __future__ import annotations

import http.client
import json
import queue
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import timing
from live.conftest import WINDOW

from gesturesmith.lilypond import LilyPond, MissingLilyPond
from gesturesmith.live.server import PageServer, bound, serve

NO_LILYPOND = MissingLilyPond("LilyPond was not found")


class Served:
    """A server that is asked as its page asks it."""

    def __init__(self, server: PageServer, port: int) -> None:
        self.server = server
        self.port = port

    def send(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[int, bytes, dict[str, str]]:
        """The status, body and headers of an answer; `headers` with underscores for hyphens."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=timing.PATIENCE_S)
        try:
            named = {name.replace("_", "-"): value for name, value in headers.items()}
            connection.request(method, path, body, named)
            answer = connection.getresponse()
            return answer.status, answer.read(), {k.lower(): v for k, v in answer.getheaders()}
        finally:
            connection.close()

    def raw(self, what: str, said: object) -> tuple[int, bytes, dict[str, str]]:
        body = said if isinstance(said, bytes) else json.dumps(said).encode()
        key = self.server.key
        return self.send("POST", f"/api/{what}", body, Content_Type="application/json", X_Gesturesmith_Key=key)

    def ask(self, what: str, **said: Any) -> Any:
        """The answer as JSON."""
        status, body, _ = self.raw(what, {"window": WINDOW, **said})
        assert status == 200, (status, body)
        return json.loads(body)


@contextmanager
def served(
    *files: Path, lilypond: LilyPond | MissingLilyPond = NO_LILYPOND, state: Path | None = None
) -> Iterator[Served]:
    """A server of these files, ended afterwards."""
    server = PageServer(files, lilypond, state=state)
    listening = bound(0)
    started: queue.Queue[Callable[[], None]] = queue.Queue()
    thread = threading.Thread(target=serve, args=(server, listening, started.put))
    thread.start()
    stop = started.get(timeout=timing.PATIENCE_S)
    try:
        yield Served(server, listening.getsockname()[1])
    finally:
        stop()
        thread.join(timing.PATIENCE_S)
        listening.close()
        assert not thread.is_alive()
