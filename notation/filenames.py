"""Names of files that do no harm on any system: not on Windows, not in a terminal, never in another folder."""
from __future__ import annotations

import re

LONGEST = 120  # characters
DISTURBING = re.compile(r"[\x00-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff<>\"|?*]")
"""Control and bidirectional characters, halves of characters, and what Windows does not allow in a name."""

DEVICES = frozenset({"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in "0123456789¹²³")})
"""Names that Windows keeps for devices, with any ending (Microsoft, 'Naming Files, Paths, and Namespaces')."""


def harmless(name: str, instead: str) -> str:
    """The last part of a path as the name of a file. instead: the name where nothing of it is left.

    >>> harmless("../../etc/waltz.yaml", "dance.yaml"), harmless("C:\\\\x\\\\a.yaml", "dance.yaml")
    ('waltz.yaml', 'a.yaml')
    >>> harmless("..", "dance.yaml"), harmless("con.yaml", "dance.yaml"), harmless("Nul", "dance.yaml")
    ('dance.yaml', '_con.yaml', '_Nul')
    """
    last = DISTURBING.sub("", re.split(r"[/\\:]", name)[-1]).strip(". ")
    if last.partition(".")[0].strip().lower() in DEVICES:
        last = f"_{last}"
    stem, dot, ending = last.rpartition(".")
    if len(last) > LONGEST:
        last = stem[: LONGEST - len(dot + ending)] + dot + ending if stem and len(ending) < 10 else last[:LONGEST]
    return last or instead
