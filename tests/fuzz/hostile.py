"""Files that mean harm or are damaged, made from a number: the same number gives the same file on every machine."""
from __future__ import annotations

import io
import random
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]

NASTY = (
    "{{ ''.__class__.__mro__ }}", "{{ 'x' * 10**9 }}", "{% for i in range(10**9) %}x{% endfor %}",
    "{% include '/etc/passwd' %}", "../../../../etc/passwd", "/etc/passwd", "C:\\CON", "con.yaml", "aux",
    "file:///etc/passwd", "~root", "<b>&amp;<script>alert(1)</script>", "</text><para>", "%s%n%x", "$(reboot)",
    "`reboot`", "';--", "\u202egnp.exe", "\u2066x", "\u200b", "e\u0301" * 40, "\U0001f483\u200d\U0001f57a", "\ufffe",
    "\u0627\u0644\u0631\u0642\u0635", "Ǆ\u0489" * 30, "x" * 400, "x " * 3000, "-", "0", "-1", "1e999", "9" * 400,
    "1/0", "0/0", "-3-4", "1-99999999999", "99:99", "NaN", "null", "yes", "~", "!!python/object:os.system x",
    "&a [*a]", "*a", "<<: *b", "? [a]", "[[[[", "{{{{", "%", "@", "`", "\t", "---", "...", "natural turn",
    "natural turn, twice, twice, from rotary half, solo", "opposite", "mirror", "same", "hold", "both",
    "LF fwd, 24/8 L, 24/8 L", "LF RF fwd back", "1&a&e&a", "SQSQSQ", "((((", "))", "(\u202e)", "#", ": :",
)  # fmt: skip
"""Words put where others stand."""

CIRCLE = b"1 0 obj<</Type/Catalog/Names<</EmbeddedFiles 1 0 R/Kids[1 0 R]>>>>endobj\ntrailer<</Root 1 0 R>>"
"""A PDF whose list of files runs in a circle."""

KINDS_OF_TEXT = ("dance", "layout", "book", "programme", "rules", "figure")


@dataclass(frozen=True, slots=True)
class Hostile:
    """A hostile file. files: by path below an empty folder; words: the command line, run in that folder."""

    kind: str
    files: dict[str, bytes]
    words: tuple[str, ...]


@cache
def patterns(kind: str) -> tuple[bytes, ...]:
    """Sound files of that kind, to be spoiled."""
    found = {
        "dance": sorted((ROOT / "examples").rglob("*.yaml")),
        "layout": sorted((ROOT / "layouts").glob("*.yaml")),
        "book": sorted((ROOT / "examples").rglob("book*.yaml")),
        "programme": sorted((ROOT / "examples").rglob("*programme*.yaml")),
        "rules": sorted((ROOT / "examples").rglob("*rules*.yaml")),
        "figure": sorted((ROOT / "notation" / "figures").glob("*.yaml")),
    }[kind]
    return tuple(path.read_bytes() for path in found) or (b"format: 1\ntitle: x\n",)


def dance_bytes() -> bytes:
    return (ROOT / "examples" / "ferry-lane-saunter.yaml").read_bytes()


# Ways to spoil a text --------------------------------------------------------------------------------------------


def flip(data: bytes, chance: random.Random) -> bytes:
    spoiled = bytearray(data or b"\0")
    for _ in range(chance.choice((1, 3, 20))):
        spoiled[chance.randrange(len(spoiled))] = chance.randrange(256)
    return bytes(spoiled)


def cut(data: bytes, chance: random.Random) -> bytes:
    at = sorted(chance.randrange(len(data) + 1) for _ in range(2))
    return data[: at[0]] + data[at[1] :]


def doubled(data: bytes, chance: random.Random) -> bytes:
    at = sorted(chance.randrange(len(data) + 1) for _ in range(2))
    return data[: at[1]] + data[at[0] : at[1]] * chance.choice((1, 5, 40)) + data[at[1] :]


def lines_moved(data: bytes, chance: random.Random) -> bytes:
    lines = data.splitlines(keepends=True)
    for _ in range(3):
        lines.insert(chance.randrange(len(lines) + 1), lines.pop(chance.randrange(len(lines)))) if lines else None
    return b"".join(lines)


def worded(data: bytes, chance: random.Random) -> bytes:
    """A word, number or value replaced by a nasty one."""
    lines = data.decode("utf-8", "replace").splitlines()
    for _ in range(chance.choice((1, 1, 2, 6))):
        at = chance.randrange(len(lines)) if lines else 0
        nasty = chance.choice(NASTY)
        key, colon, _value = lines[at].partition(":") if lines else ("a", ":", "")
        words = lines[at].split(" ") if lines else [""]
        words[chance.randrange(len(words))] = nasty
        lines[at : at + 1] = [chance.choice((f"{key}{colon} {nasty}", f"{key}{colon} \"{nasty}\"", " ".join(words)))]
    return "\n".join(lines).encode("utf-8", "replace")


def large(data: bytes, chance: random.Random) -> bytes:
    """Deep, wide, long or repeated beyond all use."""
    count = chance.choice((30, 3000, 60_000))
    return chance.choice((
        b"[" * count, b"a: " * count, b"{a: " * count, b"- " * count, b"? " * count, b"!" * count, b"&a" * count,
        b"a: &a [x,x,x,x,x,x,x,x]\n" + b"".join(
            b"%c: &%c [%s]\n" % (98 + n, 98 + n, b",".join([b"*%c" % (97 + n)] * 8)) for n in range(12)),
        data + b"\nnotes: " + b"x" * count, data + b"\nnotes: |\n" + b"  line\n" * count,
        data.replace(b"sequence:", b"sequence:\n" + b"  - bars: 1\n    gent: |\n      1 LF fwd\n" * min(count, 3000)),
        b"title: " + b"\xff" * count, b"\xef\xbb\xbf" * count, b"a:\n" * count, b" " * count + b"a: b",
        b"".join(b"k%d: v\n" % n for n in range(count)), data.replace(b"\n", b"\r"), data.replace(b"  ", b"\t"),
    ))  # fmt: skip


def raw(data: bytes, chance: random.Random) -> bytes:
    return chance.randbytes(chance.choice((0, 1, 10, 1000, 30_000)))


SPOILERS: tuple[Callable[[bytes, random.Random], bytes], ...] = (
    flip, cut, doubled, lines_moved, worded, worded, worded, worded, large, raw,
)  # fmt: skip


def spoiled(data: bytes, chance: random.Random) -> bytes:
    for _ in range(chance.choice((1, 1, 2, 3))):
        data = chance.choice(SPOILERS)(data, chance)
    return data[:1_200_000]


# Files and the commands that read them ---------------------------------------------------------------------------


def hostile(seed: int) -> Hostile:
    """The hostile file of that number."""
    chance = random.Random(seed)
    return chance.choice(MAKERS)(chance)


def _dance(chance: random.Random) -> Hostile:
    data = spoiled(chance.choice(patterns("dance")), chance)
    words = chance.choice((
        ("check", "d.yaml"), ("check", "d.yaml", "--format", "json"), ("sheet", "d.yaml", "--draft", "-o", "o.pdf"),
        ("sheet", "d.yaml", "--draft", "-o", "o.html"), ("sheet", "d.yaml", "--draft", "-o", "o.txt"),
        ("sheet", "d.yaml", "--draft", "-o", "o.svg"), ("floor", "d.yaml", "-o", "o.pdf"),
        ("sheet", "d.yaml", "--draft", "--layout", "teaching", "--paper", "A5", "-o", "o.pdf"),
        ("sheet", "d.yaml", "--draft", "--layout", "large-print", "-o", "o.pdf"),
        ("compare", "e.yaml", "d.yaml"), ("index", "."),
    ))  # fmt: skip
    return Hostile("dance", {"d.yaml": data, "e.yaml": dance_bytes()}, words)


def _layout(chance: random.Random) -> Hostile:
    data = spoiled(chance.choice(patterns("layout")), chance)
    words = ("sheet", "d.yaml", "--layout", "l.yaml", "-o", "o.pdf")
    return Hostile("layout", {"l.yaml": data, "d.yaml": dance_bytes()}, words)


def _book(chance: random.Random) -> Hostile:
    data = spoiled(chance.choice(patterns("book")), chance)
    data = data.replace(b"dances:", b"picture: p.png\ndances: [d.yaml]\nxdances:") if chance.random() < 0.5 else data
    files = {"b.yaml": data, "d.yaml": dance_bytes(), "p.png": spoiled_picture(chance)}
    return Hostile("book", files, ("booklet", "b.yaml", "-o", "o.pdf"))


def _programme(chance: random.Random) -> Hostile:
    data = spoiled(chance.choice(patterns("programme")), chance)
    return Hostile("programme", {"p.yaml": data, "d.yaml": dance_bytes()}, ("programme", "p.yaml", "-o", "o.pdf"))


def _rules(chance: random.Random) -> Hostile:
    data = spoiled(chance.choice(patterns("rules")), chance)
    words = ("entry", "d.yaml", "--rules", "r.yaml", "--into", "e")
    return Hostile("rules", {"r.yaml": data, "d.yaml": dance_bytes()}, words)


def _figure(chance: random.Random) -> Hostile:
    data = spoiled(chance.choice(patterns("figure")), chance)
    words = chance.choice((("check", "d.yaml"), ("sheet", "d.yaml", "--draft", "-o", "o.pdf")))
    called = (ROOT / "examples" / "lantern-quay-waltz.yaml").read_bytes()
    return Hostile("figure", {"figures/natural-turn.yaml": data, "d.yaml": called}, words)


def _pdf(chance: random.Random) -> Hostile:
    data = chance.choice((flip, cut, doubled))(sound_pdf(), chance)
    if chance.random() < 0.3:
        data = b"%PDF-1.7\n" + spoiled(CIRCLE, chance)
    words = chance.choice((("recover", "s.pdf", "--into", "."), ("impose", "s.pdf", "-o", "o.pdf")))
    return Hostile("pdf", {"s.pdf": data}, words)


MAKERS = (_dance, _dance, _dance, _dance, _layout, _layout, _book, _programme, _rules, _figure, _pdf)


@cache
def sound_pdf() -> bytes:
    """A small sheet with its source inside."""
    from notation.page.frame import Artifact, Attachment, Document, Frame, Metadata, PlacedText
    from notation.page.pdf import paint_pdf

    text = PlacedText(40, 40, "Sheet", "SourceSans3-Regular", 12, Artifact.LAYOUT)
    document = Document((Frame(200, 100, (text,), "1"),), Metadata("Sheet"), tagged=False,
                        attachments=(Attachment("d.yaml", dance_bytes(), "application/yaml", "The dance"),))
    return paint_pdf(document, ROOT / "fonts")


@cache
def sound_picture() -> bytes:
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (60, 40), "white").save(out, "PNG")
    return out.getvalue()


def spoiled_picture(chance: random.Random) -> bytes:
    """A picture that is damaged, is another kind of file, or says it is enormous."""
    header = b"IHDR" + (60_000).to_bytes(4, "big") * 2 + bytes((8, 2, 0, 0, 0))
    enormous = (b"\x89PNG\r\n\x1a\n\0\0\0\r" + header + zlib.crc32(header).to_bytes(4, "big"))
    return chance.choice((
        sound_picture(), flip(sound_picture(), chance), cut(sound_picture(), chance), enormous, b"GIF89a" + bytes(50),
        b"%!PS\nquit", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"", chance.randbytes(400),
    ))  # fmt: skip
