"""Who may speak to the desk: this machine's own browser, at the address that was handed out, from the desk's page."""
from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

READING = ("GET", "HEAD")
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'nonce-{nonce}'; img-src 'self' blob: data:;"
    " font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "cache-control": "no-store",
    "referrer-policy": "no-referrer",
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}


def refusal(method: str, path: str, headers: Mapping[str, str], token: str, port: int) -> str | None:
    """Why a request is refused; None where it is not.

    Another Host means that some name was made to point at this machine; another Origin, that a foreign page asks.
    """
    hosts = (f"127.0.0.1:{port}", f"localhost:{port}")
    host = headers.get("host", "")
    if host not in hosts:
        return "this desk answers on 127.0.0.1 alone"
    given = path.split("/")[1] if path.startswith("/") else ""
    if not secrets.compare_digest(given.encode(), token.encode()):
        return "this is not the address of the desk; take the one it printed when it was started"
    if headers.get("sec-fetch-site", "none") not in ("none", "same-origin"):
        return "the desk answers no other page"
    if method not in READING and headers.get("origin") != f"http://{host}":
        return "the desk takes writing from its own page alone"
    return None


@dataclass(frozen=True, slots=True)
class Guard:
    """Stands before the application; every answer carries the headers that keep the page to itself."""

    app: ASGIApp
    token: str
    port: int

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        nonce = secrets.token_urlsafe(16)
        headers = {key.decode("latin-1"): value.decode("latin-1") for key, value in scope["headers"]}
        said = refusal(scope["method"], scope["path"], headers, self.token, self.port)
        app = PlainTextResponse(said, 403) if said else self.app
        scope["nonce"] = nonce

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                extra = {**HEADERS, "content-security-policy": POLICY.format(nonce=nonce)}
                kept = [(k, v) for k, v in message["headers"] if k.decode().lower() not in extra]
                message["headers"] = [*kept, *((k.encode(), v.encode()) for k, v in extra.items())]
            await send(message)

        await app(scope, receive, guarded)
