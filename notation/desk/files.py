"""The files of the desk's page: its own, and the faces that its sheets are set in."""
from __future__ import annotations

from pathlib import Path

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from notation.installed import data_folder
from notation.page.textsvg import STYLE as TEXT_STYLE

STATIC = Path(__file__).parent / "static"
KINDS = {".js": "text/javascript", ".css": "text/css", ".html": "text/html", ".txt": "text/plain",
         ".svg": "image/svg+xml"}


def face_files() -> dict[str, Path]:
    """The files of the faces by their names."""
    return {path.name: path for path in sorted(data_folder("fonts").glob("*.ttf"))}


def faces_rules() -> str:
    """The style by which the page has the faces of the fonts folder, each under its own name."""
    rules = (
        f'@font-face{{font-family:"{path.stem}";src:url("fonts/{name}");font-display:block}}\n'
        for name, path in face_files().items()
    )
    return "".join(rules) + f"#pages {TEXT_STYLE}\n"


async def faces_style(request: Request) -> Response:
    return Response(faces_rules(), media_type="text/css")


async def face(request: Request) -> Response:
    """The file of a face."""
    path = face_files().get(str(request.path_params["file"]))
    if path is None:
        return JSONResponse({"why": "there is no such face"}, 404)
    return Response(path.read_bytes(), media_type="font/ttf")


async def static(request: Request) -> Response:
    """A file of the page; the page itself where none is named."""
    name = request.path_params.get("file") or "index.html"
    path = STATIC / name
    if "/" in name or name.startswith(".") or path.suffix not in KINDS or not path.is_file():
        return JSONResponse({"why": "there is no such page"}, 404)
    data = path.read_bytes()
    if name == "index.html":
        data = data.replace(b"NONCE", str(request.scope["nonce"]).encode())
    return Response(data, media_type=KINDS[path.suffix])
