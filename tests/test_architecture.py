"""The house rules: who may import whom, what stays lazy, how long files and functions may grow."""
import ast
import statistics
import subprocess
import sys
from pathlib import Path

import pytest

import notation

PACKAGE = Path(notation.__file__).parent
FILES = sorted(PACKAGE.rglob("*.py"))
EXAMPLE = PACKAGE.parent / "examples" / "ferry-lane-saunter.yaml"
SHARED = {"plane", "installed", "layout", "filenames", "bounds", "kept"}
ALLOWED = {
    "cli": {"desk", "sheet", "reading", "dance", "page"},
    "desk": {"sheet", "reading", "dance", "page"},
    "sheet": {"dance", "page"},
    "reading": {"dance"},
    "dance": set(),
    "page": set(),
}
HOMES = {
    "reportlab": {f"page/{name}.py" for name in ("pdf", "tags", "archive", "typefaces", "compact", "growing")},
    "pypdf": {"page/recover.py", "page/impose.py", "page/revealed.py"},
    "yaml": {"reading/nodes.py"},
    "jinja2": {"sheet/templates.py"},
    "starlette": {"desk/files.py", "desk/guard.py", "desk/server.py"},
    "uvicorn": {"desk/server.py"},
    "watchfiles": {"cli/watch.py"},
}
HEAVY = ("reportlab", "jinja2", "uharfbuzz", "pypdf", "rich", "PIL", "pypdfium2", "fontTools", "starlette", "uvicorn",
         "watchfiles")


def imports(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
    return found


def name(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


@pytest.mark.parametrize("path", FILES, ids=name)
def test_layers_import_only_what_stands_below(path: Path) -> None:
    layer = name(path).split("/")[0]
    if layer not in ALLOWED:
        return
    used = {parts[1] for module in imports(path) if (parts := module.split("."))[0] == "notation" and len(parts) > 1}
    assert used - SHARED - {"__version__", layer} <= ALLOWED[layer]


@pytest.mark.parametrize("path", FILES, ids=name)
def test_libraries_stay_in_their_places(path: Path) -> None:
    used = {module.split(".")[0] for module in imports(path)}
    for library, homes in HOMES.items():
        assert library not in used or name(path) in homes
    assert "click" not in used or name(path).startswith("cli/")


@pytest.mark.parametrize(
    "command",
    [["check", "DANCE"], ["check", "DANCE", "--format", "json"], ["terms"], ["rules"], ["layouts"], ["--help"]],
    ids=" ".join,
)
def test_light_commands_load_no_heavy_library(command: list[str]) -> None:
    words = [str(EXAMPLE) if word == "DANCE" else word for word in command]
    script = f"import sys; sys.argv = ['lodestep', *{words!r}]\nfrom notation.cli.main import main\n"
    script += f"try: main()\nexcept SystemExit: pass\nprint('LOADED', [m for m in {HEAVY!r} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "LOADED []"


def function_lengths() -> list[tuple[int, str]]:
    found = []
    for path in FILES:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.FunctionDef) and node.end_lineno:
                found.append((node.end_lineno - node.lineno + 1, f"{name(path)}:{node.name}"))
    return found


def test_functions_are_small() -> None:
    lengths = function_lengths()
    numbers = sorted(n for n, _ in lengths)
    assert statistics.median(numbers) <= 8
    assert numbers[int(len(numbers) * 0.9)] < 25
    assert [where for n, where in lengths if n > 50] == []


@pytest.mark.parametrize("path", FILES, ids=name)
def test_files_are_short(path: Path) -> None:
    assert len(path.read_text().splitlines()) <= 320
