"""The structure tree of a PDF while its parts are painted: what is finished is packed at once, so that a book of
thousands of dances takes little room."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

from reportlab.pdfbase.pdfdoc import PDFDictionary

from notation.page.compact import PdfFile, Reserved, object_number, reserved_block
from notation.page.parts import Part, Prospect
from notation.page.tags import Mark, Numbers, root_objects, structure_of
from notation.plane import Rect


class StructureTree:
    """The structure tree of a document being written: what is finished of it is packed at once."""

    def __init__(self, file: PdfFile, ahead: Prospect) -> None:
        self.file = file
        self.elements = reserved_block(file, ahead.elements)
        self.owners = reserved_block(file, ahead.pages)
        self.root, self.top, self.parents = Reserved(), Reserved(), Reserved()
        root, top, parents = (object_number(file, one) for one in (self.root, self.top, self.parents))
        self.numbers = Numbers(root, top, parents, [])
        self.tops: list[str] = []
        self.links: list[str] = []

    def add(self, part: Part, marks: Sequence[Mark], boxes: Mapping[int, Rect], pages: Sequence[int]) -> None:
        """A part whose pages have these object numbers. StructureError where its elements are no tree."""
        begins = len(self.numbers.pages)
        self.numbers.pages.extend(pages)
        first = self.elements.first + self.elements.added
        made = structure_of(part.elements, marks, boxes, first, self.numbers)
        for body in made.bodies:
            self.elements.add(body)
        for page in range(begins, begins + len(pages)):
            self.owners.add(made.owners.get(page, b"[]"))
        self.tops += made.tops
        self.links += (made.links[number] for number in sorted(made.links))

    def closed(self) -> dict[int, bytes]:
        """Claim that the document is tagged; the bodies of the tree's root, top and ParentTree by number."""
        catalog = self.file.Catalog
        catalog.StructTreeRoot, catalog.MarkInfo = self.root, PDFDictionary({"Marked": "true"})
        for key, page in enumerate(self.file.Pages.pages):
            page.__Defaults__ = {**page.__Defaults__, "Tabs": "/S", "StructParents": key}
        owners = range(self.owners.first, self.owners.first + self.owners.count)
        return root_objects(self.tops, owners, self.links, self.numbers)
