"""A story as one page of HTML: headings, a description list, a table with header cells; it reads aloud and prints."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from notation.page.content import (
    Cell,
    Column,
    Drawing,
    Figure,
    FigureRow,
    Flow,
    Key,
    Paragraph,
    Particulars,
    Row,
    Section,
    Story,
    Table,
)
from notation.page.frame import Metadata, PlacedShape, PlacedText
from notation.page.svg import shape

PIXELS = 4 / 3  # CSS pixels to a point
STYLE = r"""
body{font:1rem/1.4 "Source Sans 3",system-ui,sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem;color:#000;
background:#fff}
h1{font-size:1.9rem;line-height:1.2;margin:0;text-wrap:balance}h2{font-size:1.05rem;margin:1rem 0 .2rem}
.particulars{display:flex;flex-wrap:wrap;gap:0 2rem;justify-content:space-between}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.1rem .8rem;margin:.8rem 0}dt{color:#444;font-weight:600}
.particulars>*{min-width:0}.particulars dl{flex:1 1 18rem}dl.key{grid-template-columns:repeat(3,max-content 1fr)}
dd{margin:0}table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:baseline;padding:.1rem .5rem}
h1,h2,p,td,dt,dd{overflow-wrap:break-word}
thead th{color:#444;font-size:.85rem}tbody.bar tr:first-child>*{border-top:1px solid #888}
th[scope=rowgroup]{font-size:1.1rem}td.count{text-align:center;white-space:nowrap}
svg{overflow:visible;max-width:100%;height:auto;vertical-align:-.15em;margin-right:.4em}figure{margin:1rem 0}
@media print,(max-width:60rem){h1,h2,p,dt,dd,td:has(svg){overflow-wrap:anywhere}}
@media(max-width:40rem){body{margin:1rem auto;padding:0 .6rem}h1{font-size:1.5rem}
dl.key{grid-template-columns:max-content 1fr}}
@media(max-width:32rem){table,tbody{display:block}
thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
tbody.bar{border-top:1px solid #888}tbody.bar tr:first-child>*{border-top:0}
tr{display:grid;grid-template-columns:2rem minmax(2.2rem,max-content) minmax(0,1fr)}tr>*{grid-column:3}
tr>th{grid-column:1;padding:0}tr:not(:has(.count))>th{grid-column:1/3;padding-right:.4rem}
tr>td.count{grid-column:2;padding:.1rem 0}td:empty{display:none}tr>td.whole{grid-column:1/-1;padding:.1rem 0}
td[data-head]::before{content:attr(data-head)"\2002";content:attr(data-head)"\2002"/"";color:#444;font-size:.85rem;
font-weight:600}}
@media(max-width:17rem){dl,dl.key{display:block}dd{margin:0 0 .4rem}}
@page{margin:14mm}@media print{html{font-size:9.5pt}body{margin:0;padding:0;max-width:none}
tbody.bar{break-inside:avoid}h2,tbody.figure{break-after:avoid}dl{break-inside:avoid}thead{display:table-header-group}}
""".replace("\n", "")


def story_html(story: Story, metadata: Metadata) -> str:
    """A whole document with its style; it loads nothing from elsewhere."""
    author = f'<meta name="author" content="{escape(metadata.author)}">' if metadata.author else ""
    return (
        f'<!DOCTYPE html><html lang="{escape(metadata.language)}"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{escape(metadata.title)}</title>{author}<style>{STYLE}</style></head><body>"
        f"<main>{story_body(story)}</main></body></html>\n"
    )


def story_body(story: Story) -> str:
    """What stands in the body of that document."""
    return "".join(piece for part in story.flow for piece in _part(part))


def _part(part: Flow) -> Iterator[str]:
    match part:
        case Paragraph():
            yield _paragraph(part)
        case Particulars(pairs, beside):
            listed = _list([(_words(label), _words(value)) for label, value in pairs])
            drawn = "".join(piece for one in beside for piece in _part(one))
            yield f'<div class="particulars">{listed}<div>{drawn}</div></div>'
        case Table():
            yield from _table(part)
        case Key(heading, entries):
            yield f"<h2>{_words(heading)}</h2>"
            yield _list([(_label(one), _words(two)) for one, two in entries], ' class="key"')
        case Figure():
            yield _figure(part)
        case FigureRow(figures):
            yield from map(_figure, figures)


def _words(paragraph: Paragraph) -> str:
    return escape(paragraph.text.replace("\u00ad", "&shy;")).replace("&amp;shy;", "&shy;")


def _paragraph(paragraph: Paragraph) -> str:
    tag = paragraph.kind.lower() if paragraph.kind in ("H1", "H2", "H3", "P") else "p"
    return f"<{tag}>{_words(paragraph)}</{tag}>"


def _list(pairs: list[tuple[str, str]], kind: str = "") -> str:
    return f"<dl{kind}>{''.join(f'<dt>{one}</dt><dd>{two}</dd>' for one, two in pairs)}</dl>" if pairs else ""


def _label(label: Drawing | Paragraph) -> str:
    return _drawing(label) if isinstance(label, Drawing) else _words(label)


def _drawing(drawing: Drawing) -> str:
    """Drawn in place; hidden from a reader for the blind where the words beside it say the same."""
    height = drawing.ascent + drawing.descent
    said = f'role="img" aria-label="{escape(drawing.alt)}"' if drawing.alt else 'aria-hidden="true"'
    inside = "".join(_item(item) for item in drawing.items)
    size = f'width="{drawing.width * PIXELS:.1f}" height="{height * PIXELS:.1f}"'
    box = f"0 {-drawing.ascent:.2f} {drawing.width:.2f} {height:.2f}"
    return f'<svg {said} {size} viewBox="{box}">{inside}</svg>'


def _item(item: PlacedShape | PlacedText) -> str:
    if isinstance(item, PlacedShape):
        return shape(item)
    return f'<text x="{item.x:.2f}" y="{item.y:.2f}" font-size="{item.size:.2f}">{escape(item.text)}</text>'


def _figure(figure: Figure) -> str:
    caption = f"<figcaption>{_words(figure.caption)}</figcaption>" if figure.caption else ""
    return f"<figure>{_drawing(figure.drawing)}{caption}</figure>"


def _table(table: Table) -> Iterator[str]:
    heads = "".join(f'<th scope="col">{_words(column.head)}</th>' for column in table.columns)
    yield f"<table><thead><tr>{heads}</tr></thead>"
    for section in table.sections:
        yield from _section(section, table.columns)
    yield "</table>"


def _section(section: Section, columns: tuple[Column, ...]) -> Iterator[str]:
    wide = f'<tr><td class="whole" colspan="{len(columns)}">'
    if section.heading is not None:
        yield f'<tbody class="figure">{wide}{_paragraph(section.heading)}</td></tr></tbody>'
    for block in section.blocks:
        yield '<tbody class="bar">'
        yield from _rows(block.rows, columns)
        yield "</tbody>"
    below = "".join(piece for part in section.below for piece in _part(part))
    if below:
        yield f"<tbody>{wide}{below}</td></tr></tbody>"


def _rows(rows: Sequence[Row], columns: tuple[Column, ...]) -> Iterator[str]:
    """The rows of a bar; its number heads them all, and a cell may reach down over several."""
    covered: dict[str, int] = {}
    for number, row in enumerate(rows):
        by_column = {cell.column: cell for cell in row.cells}
        cells: list[str] = []
        skip = 0
        for column in columns:
            cell = by_column.get(column.key)
            if skip or covered.get(column.key, 0) > number:
                skip = max(0, skip - 1)
                continue
            cells.append(_cell(cell, column, len(columns), len(rows) - number) if cell else "<td></td>")
            skip = cell.span - 1 if cell else 0
            covered[column.key] = number + _depth(cell, len(rows) - number)
        yield f"<tr>{''.join(cells)}</tr>"


def _depth(cell: Cell | None, left: int) -> int:
    """The rows that a cell covers of those that are left."""
    if cell is None:
        return 1
    return left if cell.header else min(cell.deep, left)


def _cell(cell: Cell, column: Column, columns: int, left: int) -> str:
    """It carries the head of its column, which stands before it where the window is too narrow for columns."""
    deep = _depth(cell, left)
    span = f' colspan="{cell.span}"' if cell.span > 1 else ""
    span += f' rowspan="{deep}"' if deep > 1 or cell.header else ""
    if cell.header:
        return f'<th scope="rowgroup"{span}>{_words(cell.content)}</th>'
    kind = _kind(cell, column, columns)
    return f"<td{span}{kind}>{_drawing(cell.drawing) if cell.drawing else ''}{_words(cell.content)}</td>"


def _kind(cell: Cell, column: Column, columns: int) -> str:
    """What tells the style which cell it is."""
    if cell.span >= columns:
        return ' class="whole"'
    if cell.column == "count":
        return ' class="count"'
    return f' data-head="{escape(column.head.text)}"' if cell.span == 1 else ""
