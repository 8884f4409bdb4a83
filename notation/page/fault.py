"""What cannot be set."""
from __future__ import annotations


class LayoutError(ValueError):
    """Nothing can be set on such a page or with such a face; the message is written for the user."""
