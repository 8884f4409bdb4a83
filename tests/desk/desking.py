"""A desk in a process of its own."""
import json
import os
import re
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
NAME = "ferry-lane-saunter.yaml"


class Desk:
    """A running desk. address: with its token."""

    def __init__(self, folder: Path, port: int | None = None) -> None:
        words = [sys.executable, "-m", "notation.cli.main", "desk", str(folder), "--no-open"]
        words += ["--port", str(port)] if port else []
        self.folder = folder
        self.process = subprocess.Popen(words, stdout=subprocess.PIPE, text=True,
                                        env={**os.environ, "PYTHONUNBUFFERED": "1"})
        assert self.process.stdout
        self.address = re.search(r"http://\S+", self.process.stdout.readline())[0]  # type: ignore[index]
        self.port = int(self.address.split(":")[2].split("/")[0])

    def ask(self, what: str, said: object, **headers: str) -> tuple[int, dict[str, object]]:
        sent = {"Origin": f"http://127.0.0.1:{self.port}", **{k.replace("_", "-"): v for k, v in headers.items()}}
        request = urllib.request.Request(f"{self.address}do/{what}", json.dumps(said).encode(), sent)
        try:
            with urllib.request.urlopen(request) as answer:
                return answer.status, json.loads(answer.read())
        except urllib.error.HTTPError as fault:
            told = fault.read()
            return fault.code, json.loads(told) if told.startswith(b"{") else {"why": told.decode()}

    def kill(self) -> None:
        self.process.kill()
        self.process.wait()


@contextmanager
def desk(folder: Path, port: int | None = None) -> Iterator[Desk]:
    made = Desk(folder, port)
    try:
        yield made
    finally:
        made.kill()
