"""The whole guide written to a file, beside the window: laying out its pages takes a second."""

from __future__ import annotations

from pathlib import Path

from designer.errors import DesignerError
from designer.guide.html import guide_html
from designer.guide.pages import Guide
from designer.library.recipe_file import write_whole
from designer.translation import tr


def written(guide: Guide, path: Path, paper: str) -> str:
    """Write the guide, by the suffix of the file, and return what became of it in words."""
    try:
        if path.suffix.lower() == ".pdf":
            from designer.paper.guide_pages import guide_pdf

            write_whole(path, guide_pdf(guide, paper))
        else:
            write_whole(path, guide_html(guide).encode("utf-8"))
    except DesignerError as fault:
        return str(fault)
    return tr("Exported {path}.", path=path.name)
