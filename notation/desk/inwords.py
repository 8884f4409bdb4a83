"""The sheet as headings and a table, for those who listen to it or want it larger than a page allows."""
from __future__ import annotations

from notation.desk.setting import Setter, Wanted
from notation.page.fault import LayoutError
from notation.sheet.html import story_body
from notation.sheet.script import words_story


def sheet_in_words(setter: Setter, wanted: Wanted) -> str:
    """What stands in the body of `lodestep sheet --as html`. Raises LayoutError, TemplateFault."""
    known = setter.known(wanted.name, wanted.text)
    if known.worked is None:
        raise LayoutError("the text cannot be read as a dance yet; mend the errors first")
    return story_body(words_story(known.worked, known.knowledge, *setter.layout(wanted)))
