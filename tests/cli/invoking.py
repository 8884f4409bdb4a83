"""The commands called as a writer calls them, in this process or in one of their own."""
import os
import subprocess
import sys
import tempfile
from pathlib import Path

from click.testing import CliRunner, Result

from notation.cli.main import lodestep

os.environ.setdefault("LODESTEP_CACHE", tempfile.mkdtemp(prefix="lodestep-tests-"))

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
SAUNTER = EXAMPLES / "ferry-lane-saunter.yaml"
HEAD = """\
title: T
arranged by: A. Writer
rhythm: waltz
tempo: 30
introduction: 4
length: 1
start: {position: closed, hold: closed, gent: "LF, facing LOD"}
sequence:
  - bars: 1
    gent: |
      1  LF fwd
      2  RF side
      3  hold
    lady: opposite
"""


def run(*words: str | Path, input: bytes | None = None) -> Result:
    return CliRunner().invoke(lodestep, [str(w) for w in words], input=input)


def said(result: Result) -> str:
    return result.output + (result.stderr if result.stderr not in result.output else "")


def process(*words: str | Path, script: str = "", **settings: str) -> subprocess.CompletedProcess[str]:
    """The command as a process of its own, with a line of Python before it."""
    code = f"{script}\nfrom notation.cli.main import main\nmain()"
    command = [sys.executable, "-c", code, *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, encoding="latin-1", env={**os.environ, **settings})
