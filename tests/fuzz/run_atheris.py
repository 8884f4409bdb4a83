"""Longer runs guided by coverage, by hand: pip install atheris && python tests/fuzz/run_atheris.py TARGET [OPTIONS]

TARGET: dance, layout, book, programme, rules, template, recover, picture or figure. OPTIONS: of libFuzzer, such as
-max_total_time=3600 or a folder of samples. What crashes is written beside; make a test of it.
"""
from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from notation.dance.checks import check
from notation.dance.work import work_out
from notation.page.raster import PictureError, read_picture
from notation.page.recover import RecoverError, recover_sources
from notation.reading.book import read_book
from notation.reading.dance import read_dance
from notation.reading.entryrules import read_entry_rules
from notation.reading.figures import Unusable, read_figure
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import read_layout
from notation.reading.programme import read_programme
from notation.sheet.templates import TemplateFault, fill


def dance(data: bytes) -> None:
    reading = read_dance(data, "d.yaml", load_knowledge())
    if reading.dance is not None:
        check(work_out(reading.dance, load_knowledge()), load_knowledge())


def layout(data: bytes) -> None:
    read_layout(data, "l.yaml")


def book(data: bytes) -> None:
    read_book(data, "b.yaml")


def programme(data: bytes) -> None:
    read_programme(data, "p.yaml")


def rules(data: bytes) -> None:
    read_entry_rules(data, "r.yaml", load_knowledge())


def template(data: bytes) -> None:
    with suppress(TemplateFault):
        fill(data.decode("utf-8", "replace"), {"title": "A", "bars": 16})


def recover(data: bytes) -> None:
    with suppress(RecoverError):
        recover_sources(b"%PDF-1.7\n" + data, seconds=2.0)


def picture(data: bytes) -> None:
    with suppress(PictureError):
        read_picture(data)


def figure(data: bytes) -> None:
    with suppress(Unusable):
        read_figure(data, "f.yaml")


TARGETS: dict[str, Callable[[bytes], None]] = {
    one.__name__: one for one in (dance, layout, book, programme, rules, template, recover, picture, figure)
}

if __name__ == "__main__":
    if len(sys.argv) < 2 or sys.argv[1] not in TARGETS:
        sys.exit((__doc__ or "") + f"\nTargets: {', '.join(TARGETS)} ({Path(__file__).name})")
    import atheris  # type: ignore[import-not-found]

    atheris.instrument_all()
    atheris.Setup([sys.argv[0], *sys.argv[2:]], TARGETS[sys.argv[1]])
    atheris.Fuzz()
