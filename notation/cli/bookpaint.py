"""From the set dances of a book to its PDF."""
from __future__ import annotations

from collections.abc import Sequence

from notation.cli.setting import Order, faces
from notation.dance.book import Book
from notation.installed import data_folder
from notation.page.frame import Attachment
from notation.page.pdf import paint_parts
from notation.reading.knowledge import load_knowledge
from notation.sheet.booked import from_bytes
from notation.sheet.bookfront import setup
from notation.sheet.booklet import parts, prospect
from notation.sheet.bookplan import in_book_order, planned


def painted(
    book: Book, sources: Sequence[tuple[str, bytes, bytes]], picture: bytes | None, order: Order
) -> tuple[bytes, str]:
    """The PDF, and in words how much is in it. sources: name, bytes and packed pages of each file, the book's first.

    Raises LayoutError where the paper is too small for contents or indexes.
    """
    to = setup(book, order.layout, order.paper, load_knowledge(), faces())
    dances = in_book_order(book, [from_bytes(packed) for _, _, packed in sources[1:]])
    plan = planned(to, dances)
    attached = tuple(Attachment(name, data) for name, data, _ in sources) if order.layout.shows.source else ()
    pdf = paint_parts(prospect(plan, attached, picture), parts(plan, picture), data_folder("fonts"))
    return pdf, f"{len(dances)} dance{'' if len(dances) == 1 else 's'} on {plan.pages} pages"
