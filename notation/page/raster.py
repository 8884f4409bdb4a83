"""Pictures in the files of PNG and JPEG as samples a page can carry."""
from __future__ import annotations

import io
import zlib
from dataclasses import dataclass

from notation import bounds


class PictureError(ValueError):
    """The bytes are no PNG or JPEG picture, or one of more pixels than are read."""


@dataclass(frozen=True, slots=True)
class Raster:
    """Samples of eight bits. channels: 1 (grey) or 3 (sRGB). coding: 'FlateDecode' or 'DCTDecode', of data."""

    width: int
    height: int
    channels: int
    coding: str
    data: bytes


def read_picture(data: bytes) -> Raster:
    """The picture in those bytes; transparent parts become white, CMYK becomes sRGB. PictureError: see there."""
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(io.BytesIO(data), formats=("PNG", "JPEG")) as picture:
            if picture.width * picture.height > bounds.PICTURE_PIXELS.most:
                raise PictureError(bounds.PICTURE_PIXELS.words)
            if picture.format == "JPEG" and picture.mode in ("L", "RGB"):
                picture.load()
                return Raster(*picture.size, 1 if picture.mode == "L" else 3, "DCTDecode", data)
            return _packed(picture)
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError) as fault:
        if isinstance(fault, PictureError):
            raise
        raise PictureError("this is no PNG or JPEG picture, or it is damaged") from fault


def _packed(picture: object) -> Raster:
    from PIL import Image

    assert isinstance(picture, Image.Image)
    if picture.mode not in ("1", "L", "RGB"):
        over = picture.convert("RGBA")
        picture = Image.alpha_composite(Image.new("RGBA", over.size, "white"), over).convert("RGB")
    elif picture.mode == "1":
        picture = picture.convert("L")
    channels = 1 if picture.mode == "L" else 3
    return Raster(*picture.size, channels, "FlateDecode", zlib.compress(picture.tobytes()))
