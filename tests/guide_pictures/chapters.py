"""What a chapter of the guide has its reader type, as its page says it in a language."""

import re

from designer.resource_files import resource_path

_TYPED = re.compile(r"`([^`]+)`")


def typed_in(code, chapter):
    """Return all that stands in a chapter as it is to be typed, in order."""
    page = resource_path(f"guide/{code}/{chapter}.md")
    return _TYPED.findall(page.read_text(encoding="utf-8"))
