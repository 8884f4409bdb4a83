"""The desk's server: a few answers to the page, on the loopback interface alone."""
from __future__ import annotations

import asyncio
import difflib
import gc
import json
import secrets
import socket
from collections.abc import AsyncIterator, Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response, StreamingResponse
from starlette.routing import BaseRoute, Mount, Route

from notation.bounds import FILE_BYTES
from notation.dance.checks.places import floor_of
from notation.dance.finding import Severity
from notation.desk.files import face, faces_style, static
from notation.desk.folder import Changed, Folder, Refused, Writer, digest
from notation.desk.guard import Guard
from notation.desk.inwords import sheet_in_words
from notation.desk.setting import Setter, Wanted
from notation.desk.stage import bar_on_floor
from notation.desk.words import completions
from notation.installed import data_folder
from notation.page.fault import LayoutError
from notation.page.frame import Attachment
from notation.page.textsvg import paint_text_svg
from notation.reading.knowledge import knowledge_beside
from notation.reading.layout import PAPERS, layout_names, load_layout
from notation.sheet.figurewords import figure_speaker
from notation.sheet.templates import TemplateFault

LOOPBACK = "127.0.0.1"
USUAL_PORT, PORTS = 8437, 20
AT_REST = 0.6
"""Seconds without a new text after which the size of the type is sought anew."""
BODY_BYTES = 2 * FILE_BYTES.most + 100_000
"""Most bytes of a request: a file, its escapes, and what goes with it."""

Starter = Callable[[str, str], tuple[str, str]]
"""From a title and a rhythm to the name and text of a new file. Raises ValueError with words for the writer."""


Answer = Callable[["Desk", dict[str, Any]], Any]


@dataclass(slots=True)
class Desk:
    """What the answers share. newest: number of the last request to set a page; older ones are given up."""

    folder: Folder
    starter: Starter
    setter: Setter
    worker: ThreadPoolExecutor = field(default_factory=lambda: ThreadPoolExecutor(1, "setting"))
    clerks: ThreadPoolExecutor = field(default_factory=lambda: ThreadPoolExecutor(2, "answers"))
    newest: int = 0

    def wanted(self, said: dict[str, Any]) -> Wanted:
        """Raises Refused where the name or a size is none."""
        name, text = str(said.get("name", "")), str(said.get("text", ""))
        self.folder.path(name)
        if len(text.encode("utf-8", "replace")) > FILE_BYTES.most:
            raise Refused(FILE_BYTES.words, 413)
        text = text.encode("utf-8", "replace").decode()
        lying = said.get("landscape")
        has = frozenset(str(key) for key in list(said.get("has") or ())[:200])
        return Wanted(name, text, str(said.get("layout") or "script"), str(said.get("paper") or ""),
                      lying if isinstance(lying, bool) else None, has)

    async def setting(self, parts: Iterator[dict[str, Any]]) -> dict[str, Any] | None:
        """The next part, made by the one worker that sets pages."""
        return await asyncio.get_running_loop().run_in_executor(self.worker, next, parts, None)

    async def answer(self, answer: Answer, said: dict[str, Any]) -> Any:
        return await asyncio.get_running_loop().run_in_executor(self.clerks, answer, self, said)


async def said_in(request: Request) -> dict[str, Any]:
    """The JSON object of a request. Raises Refused."""
    data = b""
    async for piece in request.stream():
        data += piece
        if len(data) > BODY_BYTES:
            raise Refused(FILE_BYTES.words, 413)
    try:
        said = json.loads(data)
    except (ValueError, RecursionError):
        said = None
    if not isinstance(said, dict):
        raise Refused("this is no request of the desk's page", 400)
    return said


def differences(old: str, new: str) -> list[str]:
    """Lines that differ, as `diff -u` shows them."""
    return list(difflib.unified_diff(old.splitlines(), new.splitlines(), "on disk", "yours", lineterm="", n=1))[2:]


def dances(desk: Desk, said: dict[str, Any]) -> Any:
    shipped = [[name, load_layout(name).summary] for name in layout_names()]
    own = [[name, "your own"] for name in desk.folder.layouts()]
    return {"folder": desk.folder.root.name or "/", "place": digest(str(desk.folder.root.resolve()).encode())[:16],
            "dances": desk.folder.dances(), "layouts": [*shipped, *own], "papers": list(PAPERS),
            "unlisted": " ".join(sorted(bound.words.capitalize() + "." for bound in desk.folder.met))}


def opened(desk: Desk, said: dict[str, Any]) -> Any:
    name = str(said.get("name", ""))
    data = desk.folder.read(name)
    text, draft = data.decode("utf-8", "replace"), desk.folder.draft(name)
    return {"text": text, "digest": digest(data), "draft": draft,
            "whole": data == text.encode(), "differences": differences(text, draft["text"]) if draft else []}


def words(desk: Desk, said: dict[str, Any]) -> Any:
    path = desk.folder.path(str(said.get("name", "")))
    return completions(knowledge_beside(path.parent))


def save(desk: Desk, said: dict[str, Any]) -> Any:
    wanted = desk.wanted(said)
    try:
        made = desk.folder.save(wanted.name, wanted.text.encode(), str(said.get("base", "")), bool(said.get("over")))
    except Changed as changed:
        old = changed.data.decode("utf-8", "replace")
        return JSONResponse({"text": old, "digest": digest(changed.data),
                             "differences": differences(old, wanted.text)}, 409)
    return {"digest": made}


def draft(desk: Desk, said: dict[str, Any]) -> Any:
    wanted, when = desk.wanted(said), said.get("when")
    if said.get("drop"):
        desk.folder.drop_draft(wanted.name)
    else:
        stamp = float(when) if isinstance(when, int | float) else 0.0
        desk.folder.keep_draft(wanted.name, wanted.text, str(said.get("base", "")), stamp)
    return {}


def aside(desk: Desk, said: dict[str, Any]) -> Any:
    wanted = desk.wanted(said)
    desk.folder.set_aside(wanted.name, wanted.text.encode())
    return {}


def words_of_sheet(desk: Desk, said: dict[str, Any]) -> Any:
    return {"html": sheet_in_words(desk.setter, desk.wanted(said))}


def new(desk: Desk, said: dict[str, Any]) -> Any:
    try:
        name, text = desk.starter(str(said.get("title", "")), str(said.get("rhythm", "")))
    except ValueError as fault:
        raise Refused(str(fault), 422) from None
    if desk.folder.path(name).exists():
        raise Refused(f"'{name}' exists already; choose another title", 409)
    desk.folder.save(name, text.encode(), "")
    return {"name": name}


def floor(desk: Desk, said: dict[str, Any]) -> Any:
    wanted, bar = desk.wanted(said), said.get("bar")
    known = desk.setter.known(wanted.name, wanted.text)
    if known.worked is None or not isinstance(bar, int):
        return {}
    says = figure_speaker(known.knowledge.vocabulary, False)
    return bar_on_floor(floor_of(known.worked, known.knowledge), bar, says) or {}


def pdf(desk: Desk, said: dict[str, Any]) -> Any:
    from notation.page.pdf import paint_pdf

    wanted = desk.wanted(said)
    known = desk.setter.known(wanted.name, wanted.text)
    if known.worked is None:
        raise Refused("no sheet can be set from this text yet; mend the errors first", 422)
    errors = sum(f.severity is Severity.ERROR for f in desk.setter.found(known))
    if errors and not said.get("draft"):
        return JSONResponse({"errors": errors}, 409)
    document = desk.setter.document(known, wanted, Attachment(Path(wanted.name).name, wanted.text.encode()))
    return Response(paint_pdf(document, data_folder("fonts")), media_type="application/pdf")


ANSWERS: dict[str, Answer] = {
    "dances": dances, "open": opened, "words": words, "save": save, "draft": draft, "new": new, "floor": floor,
    "pdf": pdf, "aside": aside, "words-of-sheet": words_of_sheet,
}


def answering(desk: Desk, answer: Answer) -> Callable[[Request], Any]:
    async def endpoint(request: Request) -> Response:
        try:
            made = await desk.answer(answer, await said_in(request))
        except Refused as fault:
            return JSONResponse({"why": str(fault)}, fault.status)
        except (LayoutError, TemplateFault) as fault:
            return JSONResponse({"why": str(fault)}, 422)
        except OSError as fault:
            return JSONResponse({"why": f"the file cannot be used: {fault.strerror or fault}"}, 500)
        return made if isinstance(made, Response) else JSONResponse(made)

    return endpoint


def setting(desk: Desk) -> Callable[[Request], Any]:
    """Pages and findings, a line of JSON each, as they are made; a newer request ends an older one."""

    async def endpoint(request: Request) -> Response:
        try:
            wanted = desk.wanted(await said_in(request))
        except Refused as fault:
            return JSONResponse({"why": str(fault)}, fault.status)
        desk.newest += 1
        mine = desk.newest
        parts = desk.setter.parts(wanted, lambda: desk.newest != mine)

        async def lines() -> AsyncIterator[str]:
            while desk.newest == mine:
                part = await desk.setting(parts)
                if part is None:
                    break
                if part["kind"] == "rest":
                    await asyncio.sleep(AT_REST)
                    continue
                yield json.dumps(part, ensure_ascii=False) + "\n"
            yield json.dumps({"kind": "done" if desk.newest == mine else "stale"}) + "\n"

        return StreamingResponse(lines(), media_type="application/x-ndjson")

    return endpoint


def application(folder: Path, write: Writer, starter: Starter, token: str, port: int) -> Guard:
    """The desk as an ASGI application. folder: the one that it reads and writes."""
    kept = Folder(folder, write)
    desk = Desk(kept, starter, Setter(folder, kept.read))
    routes: list[BaseRoute] = [Route(f"/do/{n}", answering(desk, a), methods=["POST"]) for n, a in ANSWERS.items()]
    routes += [Route("/do/set", setting(desk), methods=["POST"]), Route("/faces.css", faces_style),
               Route("/fonts/{file}", face), Route("/", static), Route("/{file}", static)]
    desk.worker.submit(warm, desk.setter)
    return Guard(Starlette(routes=[Mount(f"/{token}", routes=routes)]), token, port)


def warm(setter: Setter) -> None:
    """Load what the first page needs: words, faces, the painter. What is loaded stays, so the garbage collector need
    not look at it between two keys."""
    text = "format: 1\ntitle: x\nrhythm: waltz\nlength: 1\nsequence:\n  - bars: 1\n    gent: |\n      1  LF fwd, T\n"
    wanted = Wanted("warm.yaml", text)
    known = setter.known(wanted.name, text)
    setter.found(known)
    paint_text_svg(setter.document(known, wanted).pages[0], setter.faces)
    gc.collect()
    gc.freeze()


def loopback_socket(port: int | None) -> socket.socket:
    """A socket on the loopback interface: at that port, else at the usual one or the next that is free.

    Raises OSError. The usual port keeps the browser's own drafts within reach of a desk that is started again.
    """
    ports = [port] if port is not None else [*range(USUAL_PORT, USUAL_PORT + PORTS), 0]
    for number in ports:
        made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            made.bind((LOOPBACK, number))
            made.listen()
            return made
        except OSError:
            made.close()
    raise OSError(f"port {port} is taken; choose another")


def serve(folder: Path, write: Writer, starter: Starter, port: int | None, ready: Callable[[str], None]) -> None:
    """Serve the desk until it is stopped. ready: told the address. Raises OSError where no port is free."""
    import uvicorn

    with loopback_socket(port) as bound:
        number, token = bound.getsockname()[1], secrets.token_urlsafe(24)
        app = application(folder, write, starter, token, number)
        config = uvicorn.Config(app, log_level="critical", access_log=False, server_header=False, lifespan="off",
                                ws="none", loop="asyncio", http="h11", timeout_graceful_shutdown=2)

        class Announced(uvicorn.Server):
            """Tells its address when it listens and ends cleanly on Ctrl-C, not before."""

            async def startup(self, sockets: list[socket.socket] | None = None) -> None:
                await super().startup(sockets)
                ready(f"http://{LOOPBACK}:{number}/{token}/")

        Announced(config).run(sockets=[bound])
