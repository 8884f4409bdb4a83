"""A page of a PDF as a PNG picture, drawn by PDFium."""
from __future__ import annotations

import io

from notation import bounds


def paint_png(pdf: bytes, page: int = 0, dpi: float = 110.0) -> bytes:
    """Page number `page` (from 0) at that many dots an inch, on white.

    ValueError: no such page, the file is no PDF, or the picture would have more pixels than are made.
    """
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(pdf)
    except pypdfium2.PdfiumError as fault:
        raise ValueError("this is no PDF file, or it is damaged") from fault
    try:
        if not 0 <= page < len(document):
            raise ValueError(f"there is no page {page + 1}; the document has {len(document)}")
        return _painted(document[page], dpi)
    finally:
        document.close()


def _painted(page: object, dpi: float) -> bytes:
    import pypdfium2

    assert isinstance(page, pypdfium2.PdfPage)
    width, height = page.get_size()
    if dpi <= 0 or width * height * (dpi / 72) ** 2 > bounds.PAGE_PIXELS.most:
        raise ValueError(bounds.PAGE_PIXELS.words)
    out = io.BytesIO()
    page.render(scale=dpi / 72).to_pil().save(out, "PNG", dpi=(dpi, dpi))
    return out.getvalue()
