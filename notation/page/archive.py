"""What makes a file fit to be kept: its description, its colour space, the source inside it (PDF/A-3a, PDF/UA-1).

ISO 19005-3 (PDF/A-3) 6.2.3 output intents, 6.6 metadata, 6.8 embedded files;
ISO 14289-1 (PDF/UA-1) 5 identification.
"""
from __future__ import annotations

import re
import zlib
from collections.abc import Sequence
from functools import cache
from hashlib import md5
from html import escape
from pathlib import Path

from reportlab.pdfbase.pdfdoc import (
    PDFArray,
    PDFDictionary,
    PDFInfo,
    PDFObject,
    PDFStream,
    PDFString,
)

from notation.page.compact import PdfFile
from notation.page.frame import Attachment, Metadata

_NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")

_PACKET = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"
 xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">
<dc:format>application/pdf</dc:format>
{properties}
<pdfuaid:part>1</pdfuaid:part><pdfaid:part>3</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance>
</rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix><pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource"><pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Part of ISO 14289</pdfaProperty:description><pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType></rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
</rdf:Description>
</rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>"""


class Info(PDFInfo):
    """The document information dictionary with what is known and nothing else."""

    def __init__(self, entries: dict[str, str]) -> None:
        super().__init__()
        self.entries = entries

    def format(self, document: PdfFile) -> bytes:
        text: bytes = PDFDictionary({key: PDFString(value) for key, value in self.entries.items()}).format(document)
        return text


def packed_stream(data: bytes, **entries: object) -> PDFStream:
    """A stream with further entries in its dictionary, compressed at once unless they name how it is coded."""
    if "Filter" not in entries:
        data, entries = zlib.compress(data), {**entries, "Filter": "/FlateDecode"}
    return PDFStream(PDFDictionary(entries), data, [])


def clean(text: str) -> str:
    """The text without the characters that XML cannot hold, and in one line.

    >>> clean("Autumn\\x00 Waltz")
    'Autumn Waltz'
    """
    return " ".join(_NOT_IN_XML.sub("", text).split())


def info_entries(metadata: Metadata, producer: str) -> dict[str, str]:
    """The entries of the information dictionary, empty ones left out."""
    day = f"D:{metadata.written:%Y%m%d}000000Z" if metadata.written else ""
    entries = {
        "Title": clean(metadata.title),
        "Author": clean(metadata.author),
        "Subject": clean(metadata.subject),
        "Keywords": ", ".join(clean(word) for word in metadata.keywords),
        "Creator": clean(metadata.creator),
        "Producer": producer,
        "CreationDate": day,
        "ModDate": day,
    }
    return {key: value for key, value in entries.items() if value}


def metadata_packet(metadata: Metadata, producer: str) -> bytes:
    """The XMP packet: the particulars of the information dictionary, and the claims to PDF/A-3a and PDF/UA-1."""
    info = {key: escape(value, quote=False) for key, value in info_entries(metadata, producer).items()}
    day = f"{metadata.written:%Y-%m-%d}T00:00:00Z" if metadata.written else ""
    words = "<rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt>"
    properties = (
        ("dc:title", info.get("Title"), words),
        ("dc:creator", info.get("Author"), "<rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq>"),
        ("dc:description", info.get("Subject"), words),
        ("dc:language", escape(metadata.language, quote=False), "<rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag>"),
        ("pdf:Keywords", info.get("Keywords"), "{}"),
        ("pdf:Producer", info.get("Producer"), "{}"),
        ("xmp:CreatorTool", info.get("Creator"), "{}"),
        ("xmp:CreateDate", day, "{}"),
        ("xmp:ModifyDate", day, "{}"),
    )
    lines = (f"<{name}>{form.format(value)}</{name}>" for name, value, form in properties if value)
    return _PACKET.format(properties="\n".join(lines)).encode()


@cache
def srgb_profile() -> bytes:
    """The ICC profile of sRGB (IEC 61966-2-1), made by Little CMS, with a fixed date."""
    return Path(__file__).with_name("srgb.icc").read_bytes()


def claim_archival(document: PdfFile, metadata: Metadata, producer: str) -> None:
    """Add what PDF/A-3a and PDF/UA-1 ask of the catalog, claims included."""
    profile = document.Reference(packed_stream(srgb_profile(), N=3))
    intent = PDFDictionary(
        {
            "Type": "/OutputIntent",
            "S": "/GTS_PDFA1",
            "DestOutputProfile": profile,
            "OutputConditionIdentifier": PDFString("sRGB"),
            "Info": PDFString("sRGB IEC61966-2.1"),
        }
    )
    entries = PDFDictionary({"Type": "/Metadata", "Subtype": "/XML"})
    document.Catalog.Metadata = PDFStream(entries, metadata_packet(metadata, producer))
    _add_to_catalog(document, "OutputIntents", PDFArray([intent]))


def _add_to_catalog(document: PdfFile, key: str, value: PDFObject) -> None:
    document.Catalog.__Defaults__ = {**document.Catalog.__Defaults__, key: value}


def attach(document: PdfFile, attachments: Sequence[Attachment], day: str) -> None:
    """Embed the files as sources of the document. day: PDF date of their last change, or empty.

    ValueError: two of them have one name.
    """
    if not attachments:
        return
    byname = {attachment.name: attachment for attachment in attachments}
    if len(byname) != len(attachments):
        raise ValueError("two attached files have the same name")
    names = sorted((PDFString(name).format(document), name) for name in byname)
    references = [_file_reference(document, byname[name], day) for _, name in names]
    pairs: list[PDFObject] = []
    for (_, name), reference in zip(names, references, strict=True):
        pairs += (PDFString(name), reference)
    document.Catalog.Names = PDFDictionary({"EmbeddedFiles": PDFDictionary({"Names": PDFArray(pairs)})})
    _add_to_catalog(document, "AF", PDFArray(references))


def _file_reference(document: PdfFile, attachment: Attachment, day: str) -> PDFObject:
    stream = document.Reference(_embedded_file(attachment, day))
    name = PDFString(attachment.name)
    entries = {
        "Type": "/Filespec",
        "F": name,
        "UF": name,
        "Desc": PDFString(attachment.description or attachment.name),
        "AFRelationship": "/Source",
        "EF": PDFDictionary({"F": stream, "UF": stream}),
    }
    reference: PDFObject = document.Reference(PDFDictionary(entries))
    return reference


def _embedded_file(attachment: Attachment, day: str) -> PDFStream:
    digest = md5(attachment.data, usedforsecurity=False).hexdigest()
    params: dict[str, object] = {"Size": len(attachment.data), "CheckSum": f"<{digest}>"}
    if day:
        params["ModDate"] = PDFString(day)
    kind = "/" + attachment.media_type.replace("/", "#2F")
    return packed_stream(attachment.data, Type="/EmbeddedFile", Subtype=kind, Params=PDFDictionary(params))
