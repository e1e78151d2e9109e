"""The web side of the page: what it may ask, and the answers. Everything else is in the other modules.

The page asks with POST and JSON and hears by one stream of events; there are no cookies and no web sockets. The
server keeps nothing that the page could not send again, so a page goes on with a server that was started anew.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import secrets
import socket
from collections.abc import AsyncIterator, Callable, Iterable
from dataclasses import asdict
from functools import partial
from pathlib import Path
from typing import Any
from urllib.parse import quote

import uvicorn
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response, StreamingResponse
from starlette.routing import Route

from gesturesmith import paths, writers
from gesturesmith.cache import Store, null_store
from gesturesmith.editing.complete import complete
from gesturesmith.editing.hover import hover
from gesturesmith.editing.tables import tables
from gesturesmith.explain.lookup import explained
from gesturesmith.lilypond import LilyPond, MissingLilyPond
from gesturesmith.live.checking import CheckedText, checked_quickly, checked_wholly
from gesturesmith.live.documents import Agreement, Document, TypedText, unwritable
from gesturesmith.live.engraver import Engraver, item_of
from gesturesmith.live.exports import export
from gesturesmith.live.guard import Guard
from gesturesmith.live.journal import Journal
from gesturesmith.live.view import view
from gesturesmith.source import Source
from gesturesmith.textfile import UnreadableFile
from gesturesmith.version import __version__

ASSETS = Path(__file__).parent / "assets"
_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
}
_LOOK_S = 0.4  # how often the files are looked at
_HEARTBEAT_S = 5.0
_MOST_SAVES = 20
_MOST_WINDOWS = 50  # whose last text is remembered


class PageServer:
    """The page of some files, for one session.

    state      folder in which a journal is kept; None for none
    profiles   folder of profiles; by default that of each file
    key        of the session: whoever has it may read and change the files
    """

    def __init__(
        self,
        files: Iterable[Path],
        lilypond: LilyPond | MissingLilyPond,
        *,
        store: Store | None = None,
        state: Path | None = None,
        profiles: Path | None = None,
    ) -> None:
        self.journal = Journal(state / "journal" if state is not None else None)
        self._problem = self.journal.problem
        if self._problem:
            self.journal = Journal(None)
        made = [Document(path, self.journal) for path in files]
        self._documents = {document.id: document for document in made}
        self._lilypond = lilypond
        self._profiles = profiles
        self._store = store or null_store()
        self._engraver = Engraver(lilypond, self._store)
        self.key = secrets.token_urlsafe(32)
        self._nonce = secrets.token_urlsafe(16)
        self._seen: dict[tuple[str, str], CheckedText] = {}
        self._newest: dict[tuple[str, str], object] = {}  # the last text or wish of each window
        self._heard: dict[str, asyncio.Queue[dict[str, Any]]] = {}
        self._closing = False

    def application(self, port: int) -> Guard:
        """The ASGI application behind its guard."""
        asked = {
            "open": self._open,
            "text": self._text,
            "whole": self._whole,
            "picture": self._picture,
            "save": self._save,
            "discard": self._discard,
            "words": self._words,
            "help": self._help,
            "explain": self._explain,
            "export": self._export,
            "events": self._events,
        }
        routes = [
            Route("/", self._page),
            Route("/assets/{name}", self._asset),
            *(Route(f"/api/{name}", _asked(work), methods=["POST"]) for name, work in asked.items()),
        ]
        return Guard(Starlette(routes=routes), port=port, key=self.key, nonce=self._nonce)

    async def look(self) -> None:
        """Look at the files for ever, and tell the pages when another program has changed one."""
        while True:
            await asyncio.sleep(_LOOK_S)
            for document in self._documents.values():
                if await run_in_threadpool(document.look):
                    self._tell({"changed": document.id})

    def close(self) -> None:
        """Tell the pages that the program ends, and end LilyPond."""
        self._closing = True
        self._tell({"ended": True})
        self._engraver.close()

    def _tell(self, event: dict[str, Any], but: str = "") -> None:
        for window, queue in self._heard.items():
            if window != but:
                queue.put_nowait(event)

    # --- the page ------------------------------------------------------------------------------------------

    async def _page(self, request: Request) -> Response:
        return _file("page.html")

    async def _asset(self, request: Request) -> Response:
        name = request.path_params["name"]
        if name not in {path.name for path in ASSETS.iterdir() if path.suffix in _TYPES}:
            raise HTTPException(404)
        return _file(name)

    # --- what it asks ----------------------------------------------------------------------------------------

    async def _open(self, asked: PageRequest) -> Response:
        files = [await run_in_threadpool(self._opened, document) for document in self._documents.values()]
        asyncio.get_running_loop().run_in_executor(None, self._ready)
        missing = self._lilypond.reason if isinstance(self._lilypond, MissingLilyPond) else ""
        formats = [
            {"key": key, "about": writers.get(key).about, "engraved": writers.get(key).engraved}
            for key in writers.names()
        ]
        return JSONResponse(
            {
                "version": __version__,
                "nonce": self._nonce,
                "files": files,
                "tables": asdict(tables()),
                "formats": formats,
                "lilypond": missing,
                "journal": self._problem,
                "starter": (paths.templates() / "starter.gesture").read_text("utf-8"),
            }
        )

    def _opened(self, document: Document) -> dict[str, Any]:
        there = document.there
        unread = isinstance(there, UnreadableFile)
        left = [
            {"window": entry.window, "base": entry.base, "text": entry.text}
            for entry in document.left()
            if entry.window not in self._heard
        ]
        return {
            "id": document.id,
            "name": document.name,
            "path": str(document.path),
            "text": there if isinstance(there, str) else None,
            "why": there.message if isinstance(there, UnreadableFile) else "",
            "left": [] if unread else left,
        }

    async def _text(self, asked: PageRequest) -> Response:
        """What was typed: kept aside, compared with its file, and checked."""
        document, typed = self._document(asked), _typed(asked)
        line = asked.number("line")
        known = self._seen.get((typed.window, document.id))
        problem = unwritable(typed.text)
        if problem:
            return JSONResponse({"kept": problem, "standing": "same", "base": typed.base})
        self._wish(typed.window, document)
        (agreement, kept), seen = await asyncio.gather(
            run_in_threadpool(_kept, document, typed),
            run_in_threadpool(checked_quickly, _source(document, typed.text), self._folder(document), line, known),
        )
        self._remember(typed.window, document, seen)
        shown = await run_in_threadpool(view, seen)
        return JSONResponse({"kept": kept, **_agreed(agreement), **shown})

    async def _whole(self, asked: PageRequest) -> Response:
        """The text with suggestions; null when a newer text came meanwhile, for which the trials were given up."""
        document, window = self._document(asked), asked.text("window")
        text, line = asked.text("text"), asked.number("line")
        wanted = self._wish(window, document)
        folder = self._folder(document)
        seen = await run_in_threadpool(checked_wholly, _source(document, text), folder, line, wanted)
        if seen is None:
            return JSONResponse(None)
        self._remember(window, document, seen)
        return JSONResponse(await run_in_threadpool(view, seen))

    async def _picture(self, asked: PageRequest) -> Response:
        document, window = self._document(asked), asked.text("window")
        wish = self._engraver.wish(window)
        found = await run_in_threadpool(self._pictured, document, window, wish, asked)
        asyncio.get_running_loop().run_in_executor(None, self._ready)
        return found

    def _ready(self) -> None:
        """Have LilyPond wait; where it cannot, the next picture says why."""
        with contextlib.suppress(OSError):
            self._engraver.ready()
            self._engraver.hasten()

    def _pictured(self, document: Document, window: str, wish: int, asked: PageRequest) -> Response:
        text, line = asked.text("text"), asked.number("line")
        source = _source(document, text)
        seen = self._seen.get((window, document.id))
        if seen is None or seen.source != source or seen.line != line:
            seen = checked_quickly(source, self._folder(document), line, seen)
        item = item_of(seen.checked, asked.text("name"), self._folder(document))
        if item is None:
            return Response(status_code=204)
        try:
            picture = self._engraver.picture(window, wish, item)
        except OSError as error:
            return JSONResponse({"error": f"LilyPond could not be started ({error.strerror or error})"}, 503)
        if picture is None:
            return Response(status_code=204)
        if picture.why:
            return JSONResponse({"error": picture.why}, 503)
        return Response(
            picture.svg, media_type="image/svg+xml", headers={"x-description": quote(picture.description)}
        )

    async def _save(self, asked: PageRequest) -> Response:
        document, typed = self._document(asked), _typed(asked)
        done = await run_in_threadpool(document.save, typed, over=asked.flag("over"))
        agreed = _agreed(done.agreement) if done.agreement is not None else {}
        if not done.why and not agreed:
            self._tell({"changed": document.id}, but=typed.window)
        return JSONResponse({"why": done.why, **agreed})

    async def _discard(self, asked: PageRequest) -> Response:
        await run_in_threadpool(self._document(asked).discard, asked.text("left"))
        return JSONResponse({})

    async def _words(self, asked: PageRequest) -> Response:
        """What may be written at the cursor."""
        source = Source("", asked.text("text"))
        found = await run_in_threadpool(complete, source, asked.number("line"), asked.number("column"))
        offers = [
            {"word": o.word, "kind": o.kind, "help": o.help, "insert": o.insert, "said": o.said}
            for o in found.offers
        ]
        return JSONResponse({"start": found.start, "offers": offers})

    async def _help(self, asked: PageRequest) -> Response:
        """What is said about the word at the cursor."""
        source = Source("", asked.text("text"))
        found = await run_in_threadpool(hover, source, asked.number("line"), asked.number("column"))
        if found is None:
            return JSONResponse(None)
        span = {"line": found.span.line, "column": found.span.column, "end_column": found.span.end_column}
        return JSONResponse({**span, "title": found.title, "text": found.text, "more": found.more})

    async def _explain(self, asked: PageRequest) -> Response:
        return JSONResponse({"text": await run_in_threadpool(explained, asked.text("name")) or ""})

    async def _export(self, asked: PageRequest) -> Response:
        document, text, key = self._document(asked), asked.text("text"), asked.text("format")
        if key not in writers.names():
            raise HTTPException(422, "no such format")
        made = await run_in_threadpool(
            partial(
                export,
                _source(document, text),
                folder=self._folder(document),
                stem=document.path.name.removesuffix(".gesture"),
                key=key,
                only=asked.text("only") or None,
                draft=asked.flag("draft"),
                lilypond=self._lilypond,
                store=self._store,
            )
        )
        if made.why:
            return JSONResponse({"error": made.why}, 409)
        return Response(made.data, media_type=made.media_type, headers={"x-name": quote(made.name)})

    async def _events(self, asked: PageRequest) -> Response:
        """What happens to the files, until the page goes."""
        window = asked.text("window")
        queue: asyncio.Queue[dict[str, Any]] = asyncio.Queue()
        self._heard[window] = queue

        async def stream() -> AsyncIterator[bytes]:
            try:
                yield b": here\n\n"
                while not self._closing:
                    try:
                        event = await asyncio.wait_for(queue.get(), _HEARTBEAT_S)
                        yield f"data: {json.dumps(event)}\n\n".encode()
                    except TimeoutError:
                        yield b": still here\n\n"
            finally:
                if self._heard.get(window) is queue:
                    del self._heard[window]

        return StreamingResponse(stream(), media_type="text/event-stream")

    def _document(self, asked: PageRequest) -> Document:
        document = self._documents.get(asked.text("file"))
        if document is None:
            raise HTTPException(404, "this program does not have that file open")
        return document

    def _folder(self, document: Document) -> Path:
        """Where its profiles are."""
        return self._profiles or document.path.parent

    def _wish(self, window: str, document: Document) -> Callable[[], bool]:
        """A new wish of a window; says whether it is still the newest and the program goes on."""
        mine = object()
        self._newest.pop((window, document.id), None)
        self._newest[window, document.id] = mine
        while len(self._newest) > _MOST_WINDOWS:
            del self._newest[next(iter(self._newest))]
        return lambda: self._newest.get((window, document.id)) is mine and not self._closing

    def _remember(self, window: str, document: Document, seen: CheckedText) -> None:
        self._seen.pop((window, document.id), None)
        self._seen[window, document.id] = seen
        while len(self._seen) > _MOST_WINDOWS:
            del self._seen[next(iter(self._seen))]


class PageRequest:
    """The JSON object of a request; a value of another type than asked for is refused."""

    def __init__(self, said: object) -> None:
        if not isinstance(said, dict):
            raise HTTPException(422, "not an object")
        self._said = said

    def text(self, name: str) -> str:
        found = self._said.get(name, "")
        if not isinstance(found, str):
            raise HTTPException(422, f"{name} is not a text")
        return found

    def number(self, name: str) -> int:
        found = self._said.get(name, 1)
        if not isinstance(found, int) or isinstance(found, bool) or not 0 < found < 10_000_000:
            raise HTTPException(422, f"{name} is not a number")
        return found

    def flag(self, name: str) -> bool:
        return self._said.get(name) is True

    def base(self) -> str | None:
        return None if self._said.get("base") is None else self.text("base")

    def saves(self) -> tuple[str, ...]:
        found = self._said.get("saves", [])
        if not isinstance(found, list) or not all(isinstance(one, str) for one in found):
            raise HTTPException(422, "saves is not a list of texts")
        return tuple(found[-_MOST_SAVES:])


def _asked(work: Callable[[PageRequest], Any]) -> Callable[[Request], Any]:
    """A view that reads its request as JSON."""

    async def answered(request: Request) -> Response:
        try:
            said = json.loads(await request.body())
        except (ValueError, RecursionError):
            raise HTTPException(422, "not JSON") from None
        try:
            made: Response = await work(PageRequest(said))
        except asyncio.CancelledError:  # the program ends, and waits no longer
            return JSONResponse({"error": "the program ends"}, 503)
        except HTTPException as refused:
            return JSONResponse({"error": refused.detail}, refused.status_code)
        except ValueError as error:
            return JSONResponse({"error": str(error)}, 422)
        return made

    return answered


def _typed(asked: PageRequest) -> TypedText:
    return TypedText(window=asked.text("window"), text=asked.text("text"), base=asked.base(), saves=asked.saves())


def _kept(document: Document, typed: TypedText) -> tuple[Agreement, str]:
    """What the file holds, and why the text could not be kept aside."""
    try:
        return document.typed(typed), ""
    except OSError as error:
        return document.compare(typed), error.strerror or str(error)


def _agreed(agreement: Agreement) -> dict[str, Any]:
    return {
        "standing": agreement.standing,
        "base": agreement.base,
        "text": agreement.text if agreement.standing == "joined" else None,
        "because": agreement.why,
    }


def _source(document: Document, text: str) -> Source:
    return Source(document.name, text)


def _file(name: str) -> Response:
    return Response((ASSETS / name).read_bytes(), media_type=_TYPES[Path(name).suffix])


def bound(port: int) -> socket.socket:
    """A socket that only this machine reaches: at this port, or at any if another program has it."""
    for wanted in (port, 0):
        # With the protocol named, small answers are not held back: 1 ms instead of 45.
        one = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        try:
            if hasattr(socket, "SO_REUSEPORT"):  # not on Windows, where the other option means something else
                one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            one.bind(("127.0.0.1", wanted))
            one.listen(64)
        except OSError:
            one.close()
            if not wanted:
                raise
        else:
            return one
    raise AssertionError("unreachable")


def serve(server: PageServer, listening: socket.socket, started: Callable[[Callable[[], None]], None]) -> None:
    """Serve until interrupted. `started` is called once the page can be opened, with what ends it from another
    thread."""
    port = listening.getsockname()[1]
    config = uvicorn.Config(
        server.application(port),
        http="h11",
        loop="asyncio",
        ws="none",
        lifespan="off",
        access_log=False,
        log_config=None,
        server_header=False,
        date_header=False,
        proxy_headers=False,
        limit_concurrency=200,
        timeout_keep_alive=30,
        timeout_graceful_shutdown=1,
    )
    running = _Server(config, server.close)

    async def everything() -> None:
        looking = asyncio.create_task(server.look())
        asyncio.get_running_loop().call_soon(started, partial(setattr, running, "should_exit", True))
        try:
            await running.serve([listening])
        finally:
            looking.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await looking
            server.close()

    asyncio.run(everything())


class _Server(uvicorn.Server):
    """Ends the streams of events before it waits for its connections."""

    def __init__(self, config: uvicorn.Config, closing: Callable[[], None]) -> None:
        super().__init__(config)
        self._closing = closing

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        self._closing()
        await super().shutdown(sockets)
