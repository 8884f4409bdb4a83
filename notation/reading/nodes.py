"""YAML text to marked nodes: every scalar stays text, every value knows where it was written.

Built from the parser's events, so that nothing recurses and every bound is met before memory is spent. Tags, double
keys, several documents and keys that are not text are refused; aliases are expanded within a bound.
"""
from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

import yaml

from notation import bounds
from notation.dance.finding import Finding, Severity
from notation.dance.mark import Mark
from notation.reading.rows import TextRow, rows_of

LOADER = getattr(yaml, "CLoader", yaml.Loader)
BREAK = re.compile("\r\n|[\r\n\x85]")
FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\x80-\x84\x86-\x9f\u2028\u2029\ufffe\uffff\ud800-\udfff]")

GENERAL = "this is not YAML ({}); look at the colons, dashes, brackets and quotation marks"
SYNTAX = {
    "mapping values are not allowed": "this colon does not fit; put a text that holds a colon in quotation marks, "
    "and see whether the line before is a 'key: value'",
    "could not find expected ':'": "this line is no 'key: value'; step lines stand further in, under 'gent: |'",
    "did not find expected key": "this line does not stand in line with those before it, or a quotation mark is open",
    "did not find expected '-' indicator": "this line does not stand in line with the dashes of its list",
    "cannot start any token": "a text does not begin with this character; put the text in quotation marks",
    "while scanning a quoted scalar": "a quotation mark is not closed",
    "unexpected end of stream": "a quotation mark is not closed",
}
"""What the parser says, and what that means to a writer."""


class Unreadable(Exception):
    """The text cannot be read at all; carries the one finding that says why."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


@dataclass(frozen=True, slots=True)
class Scalar:
    """A text. quoted: written in quotation marks. rows: its lines with their places.

    folded: several lines of the file were run together into one.
    """

    text: str
    mark: Mark
    quoted: bool
    rows: tuple[TextRow, ...]
    folded: bool = False


@dataclass(frozen=True, slots=True)
class Entry:
    """A key of a mapping with its value."""

    key: Scalar
    value: Node


@dataclass(frozen=True, slots=True)
class Mapping:
    entries: tuple[Entry, ...]
    mark: Mark


@dataclass(frozen=True, slots=True)
class Sequence:
    items: tuple[Node, ...]
    mark: Mark


Node = Scalar | Mapping | Sequence


@dataclass(slots=True)
class _Open:
    """A collection whose end is not yet read.

    keys: the lines of a mapping's keys, by plain key. key: the one that waits for its value.
    """

    event: yaml.Event
    anchor: str | None
    items: list[Node] = field(default_factory=list)
    entries: list[Entry] = field(default_factory=list)
    keys: dict[str, int] = field(default_factory=dict)
    key: Scalar | None = None

    @property
    def is_mapping(self) -> bool:
        return isinstance(self.event, yaml.MappingStartEvent)


def read_nodes(source: bytes, file: str) -> Node:
    """The nodes of a YAML file. file: its name for marks. Raises Unreadable with one finding."""
    text = decoded(source, file)
    return _Builder(file, text).build()


def lines_to_show(source: bytes) -> tuple[str, ...]:
    """The lines of a file beside its findings, whatever is wrong with it; none of a file larger than is read."""
    return tuple(source.decode("utf-8-sig", "replace").splitlines()) if len(source) <= bounds.FILE_BYTES.most else ()


def decoded(source: bytes, file: str) -> str:
    """The text of a file: UTF-8, with or without a byte order mark. Raises Unreadable."""
    if len(source) > bounds.FILE_BYTES.most:
        raise _unreadable("file-too-large", file, 1, 1, bounds.FILE_BYTES.words)
    try:
        text = source.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        before = source[: fault.start]
        line = before.count(b"\n") + 1
        column = len(before.rpartition(b"\n")[2].decode("utf-8", "replace")) + 1
        message = f"byte 0x{source[fault.start]:02x} is not UTF-8; save the file as UTF-8 text"
        raise _unreadable("not-utf-8", file, line, column, message) from None
    _refuse_characters(text, file)
    return text


def _refuse_characters(text: str, file: str) -> None:
    """Raises Unreadable at the first control character, and at a tab that indents."""
    bad = FORBIDDEN.search(text)
    if bad:
        line, column = _place(text, bad.start())
        message = f"control character U+{ord(bad.group()):04X}; delete it"
        raise _unreadable("control-character", file, line, column, message)
    tab = re.search(r"^ *\t+ *(?=[^\s#])", text, re.MULTILINE)
    if tab:
        line, column = _place(text, text.index("\t", tab.start()))
        raise _unreadable("tab-indentation", file, line, column, "a tab indents this line; use spaces")


def _place(text: str, index: int) -> tuple[int, int]:
    before = text[:index]
    breaks = list(BREAK.finditer(before))
    return len(breaks) + 1, index - (breaks[-1].end() if breaks else 0) + 1


def _line_and_column(mark: yaml.Mark | Any) -> tuple[int, int]:
    return (mark.line + 1, mark.column + 1) if mark else (1, 1)


def _index(mark: yaml.Mark | Any) -> int:
    return int(mark.index) if mark else 0


def _unreadable(rule: str, file: str, line: int, column: int, message: str) -> Unreadable:
    mark = Mark(file, line, column, line, column + 1)
    return Unreadable(Finding(rule, Severity.ERROR, mark, message))


class _Builder:
    """Builds the tree of one file from the parser's events."""

    def __init__(self, file: str, text: str) -> None:
        self.file, self.text = file, text
        self.lines = text.splitlines()
        self.stack: list[_Open] = []
        self.anchors: dict[str, tuple[Node, int]] = {}
        self.root: Node | None = None
        self.count = 0

    def build(self) -> Node:
        try:
            for event in yaml.parse(self.text, LOADER):
                self.take(event)
        except yaml.MarkedYAMLError as fault:
            raise self.syntax(fault) from None
        except yaml.YAMLError as fault:
            raise _unreadable("yaml-syntax", self.file, 1, 1, f"this is not YAML: {fault}") from None
        if self.root is None:
            raise _unreadable("file-empty", self.file, 1, 1, "the file is empty; 'lodestep new' writes a starter file")
        return self.root

    def take(self, event: yaml.Event) -> None:
        match event:
            case yaml.DocumentStartEvent() if self.root is not None:
                raise self.fault("several-documents", event, "a second document begins here; keep one dance to a file")
            case yaml.MappingStartEvent() | yaml.SequenceStartEvent():
                self.open(event)
            case yaml.MappingEndEvent() | yaml.SequenceEndEvent():
                self.close(event)
            case yaml.ScalarEvent():
                self.refuse_tag(event)
                self.counted(1, event)
                self.place(self.scalar(event), event, event.anchor)
            case yaml.AliasEvent():
                self.alias(event)

    def open(self, event: yaml.MappingStartEvent | yaml.SequenceStartEvent) -> None:
        self.refuse_tag(event)
        self.counted(1, event)
        if self.stack and self.stack[-1].is_mapping and self.stack[-1].key is None:
            raise self.fault("key-not-text", event, "a key must be a word, not a list or a mapping")
        if len(self.stack) >= bounds.DEPTH.most:
            raise self.fault("too-deep", event, bounds.DEPTH.words)
        self.stack.append(_Open(event, event.anchor))

    def close(self, event: yaml.Event) -> None:
        done = self.stack.pop()
        mark = self.mark(done.event, event)
        node: Node = Mapping(tuple(done.entries), mark) if done.is_mapping else Sequence(tuple(done.items), mark)
        self.place(node, done.event, done.anchor)

    def alias(self, event: yaml.AliasEvent) -> None:
        if event.anchor not in self.anchors:
            raise self.fault("alias-unknown", event, f"nothing is named '&{str(event.anchor)[:60]}' before this")
        node, size = self.anchors[event.anchor]
        self.counted(size, event)
        self.place(node, event, None)

    def counted(self, size: int, event: yaml.Event) -> None:
        self.count += size
        if self.count > bounds.VALUES.most:
            raise self.fault("too-many-values", event, bounds.VALUES.words)

    def place(self, node: Node, event: yaml.Event, anchor: str | None) -> None:
        if anchor is not None:
            self.anchors[anchor] = (node, node_size(node))
        if not self.stack:
            self.root = node
            return
        top = self.stack[-1]
        if not top.is_mapping:
            top.items.append(node)
        elif top.key is not None:
            top.entries.append(Entry(top.key, node))
            top.key = None
        elif isinstance(node, Scalar):
            self.refuse_double(top, node)
            top.key = node
        else:
            raise self.fault("key-not-text", event, "a key must be a word, not a list or a mapping")

    def refuse_double(self, top: _Open, key: Scalar) -> None:
        first = top.keys.setdefault(plain_key(key.text), key.mark.line)
        if len(top.keys) == len(top.entries):
            message = f"'{' '.join(key.text[:60].split())}' stands twice (first in line {first}); keep one"
            raise Unreadable(Finding("double-key", Severity.ERROR, key.mark, message))

    def refuse_tag(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
        if event.tag is not None:
            raise self.fault("tag", event, f"YAML tags such as '{str(event.tag)[:60]}' are not read; delete it")

    def scalar(self, event: yaml.ScalarEvent) -> Scalar:
        if len(event.value) > bounds.SCALAR.most:
            raise self.fault("text-too-long", event, bounds.SCALAR.words)
        mark = self.mark(event, event)
        source = self.text[_index(event.start_mark) : _index(event.end_mark)]
        rows, folded = rows_of(event.value, event.style, source, self.lines, mark)
        return Scalar(event.value, mark, event.style in ("'", '"'), rows, folded)

    def mark(self, first: yaml.Event, last: yaml.Event) -> Mark:
        start, end = _line_and_column(first.start_mark), _line_and_column(last.end_mark)
        return Mark(self.file, *start, *end)

    def fault(self, rule: str, event: yaml.Event, message: str) -> Unreadable:
        return _unreadable(rule, self.file, *_line_and_column(event.start_mark), message)

    def syntax(self, fault: yaml.MarkedYAMLError) -> Unreadable:
        line, column = _line_and_column(fault.problem_mark or fault.context_mark)
        problem = str(fault.problem or fault.context)
        if "depth" in problem:
            return _unreadable("too-deep", self.file, line, column, bounds.DEPTH.words)
        plain = next((words for part, words in SYNTAX.items() if part in problem), GENERAL.format(problem[:80]))
        return _unreadable("yaml-syntax", self.file, line, column, plain)


def node_size(node: Node) -> int:
    """How many values a node holds, itself included. Depth is bounded, so this may recurse."""
    match node:
        case Mapping(entries):
            return 1 + sum(1 + node_size(entry.value) for entry in entries)
        case Sequence(items):
            return 1 + sum(node_size(item) for item in items)
        case _:
            return 1


def letters(node: Node) -> int:
    """How many letters the texts of a node have, its keys left out."""
    match node:
        case Mapping(entries):
            return sum(letters(entry.value) for entry in entries)
        case Sequence(items):
            return sum(map(letters, items))
        case _:
            return len(node.text)


def plain_key(text: str) -> str:
    """A key as it is compared: 'Arranged-by' and 'arranged_by' are 'arranged by'."""
    if text.isalpha() and text.islower():
        return text
    return " ".join(re.split(r"[\s_-]+", text.strip().lower()))
