"""Tries a desk that was installed from the wheel; .ci/run runs it with the Python of that environment, among dances.

Every file of the packages and of their data is there, and the desk serves each file of its page byte for byte."""
import sys
import urllib.request
from collections.abc import Iterator
from pathlib import Path

from desking import NAME, desk

ROOT = Path(__file__).parents[2]
LEFT_OUT = ("__pycache__", "editor", "node_modules")
SERVED = ROOT / "notation" / "desk" / "static"


def wanted() -> Iterator[tuple[Path, str]]:
    """Each file of the checkout that belongs into the wheel, and its place there."""
    for folder, place in (("notation", ""), ("layouts", "notation/"), ("fonts", "notation/")):
        for path in sorted((ROOT / folder).rglob("*")):
            parts = path.relative_to(ROOT).parts
            if path.is_file() and not set(parts) & set(LEFT_OUT) and not any(part.startswith(".") for part in parts):
                yield path, place + path.relative_to(ROOT).as_posix()


def missing(installed: Path) -> list[str]:
    here = [(path, installed.parent / place) for path, place in wanted()]
    return [str(two) for one, two in here if not two.is_file() or one.read_bytes() != two.read_bytes()]


def unserved(address: str) -> list[str]:
    """Files of the page that come otherwise than they stand in the checkout; the page itself carries a nonce."""
    def served(name: str) -> bytes:
        with urllib.request.urlopen(address + name) as answer:
            return bytes(answer.read())

    others = [path for path in SERVED.iterdir() if path.suffix != ".html" and served(path.name) != path.read_bytes()]
    return [str(path) for path in others] + ([] if b"<title>Lodestep desk" in served("") else ["index.html"])


def main() -> int:
    import notation

    installed = Path(notation.__file__).parent
    assert not installed.is_relative_to(ROOT), "this is the checkout, no installed package"
    faults = missing(installed)
    with desk(Path.cwd()) as running:
        faults += unserved(running.address)
        status, said = running.ask("words-of-sheet", {"name": NAME, "text": Path(NAME).read_text()})
        faults += [] if status == 200 and "<table>" in str(said["html"]) else [f"no sheet from the desk: {said}"]
    print("\n".join(faults) or "the installed desk is whole")
    return len(faults) > 0


if __name__ == "__main__":
    sys.exit(main())
