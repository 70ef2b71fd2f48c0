"""The whole `hobwort sheet` command against a spreadsheet's headless export of the same rows.

`python tests/benchmarks/sheet_against_spreadsheet.py` wants LibreOffice (`sh packaging/test.sh
--all` installs it). Its file, two_page_sheet.fods (a flat OpenDocument spreadsheet), holds what the
sheet of the porter says, a row a line, and comes out as two pages like ours; `--write` makes it
anew, and a file that says other than the sheet of today is told. Both run in turn, after a first
run that is not counted.
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from xml.sax.saxutils import escape

from as_installed import as_installed
from figures import note

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.sheet.content import brew_sheet
from designer.sheet.plain import sheet_text
from designer.units import ShownUnits
from designer.workbench.style_watch import outlook_of

TOP = Path(__file__).parents[2]
ROWS = Path(__file__).parent / "two_page_sheet.fods"
PORTER = resource_path("examples/harbour_lamp_porter.hobwort")
PAGES, BOUND, RUNS = 2, 0.45, 9


DOCUMENT = """<?xml version="1.0" encoding="UTF-8"?>
<office:document
 xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0"
 office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:automatic-styles>
<style:style style:name="narrow" style:family="table-column">
<style:table-column-properties style:column-width="3.4cm"/></style:style>
<style:style style:name="wide" style:family="table-column">
<style:table-column-properties style:column-width="13.4cm"/></style:style>
<style:page-layout style:name="paper"><style:page-layout-properties fo:page-width="21cm"
 fo:page-height="29.7cm" fo:margin-top="1cm" fo:margin-bottom="1cm" fo:margin-left="1.8cm"
 fo:margin-right="1.8cm" style:scale-to-pages="2"/></style:page-layout>
<style:style style:name="page" style:family="table" style:master-page-name="paper"/>
<style:style style:name="said" style:family="table-cell">
<style:table-cell-properties fo:wrap-option="wrap"/>
<style:text-properties fo:font-size="8pt"/></style:style>
</office:automatic-styles>
<office:master-styles><style:master-page style:name="paper" style:page-layout-name="paper"/>
</office:master-styles>
<office:body><office:spreadsheet><table:table table:name="Sheet" table:style-name="page">
<table:table-column table:style-name="narrow"/><table:table-column table:style-name="wide"/>
{rows}
</table:table></office:spreadsheet></office:body></office:document>
"""


def rows_of_the_sheet() -> str:
    """Return all that the sheet says, none of its drawings, as the rows of a spreadsheet."""
    recipe = load(PORTER)
    sheet = brew_sheet(
        recipe, outlook_of(recipe), shown=ShownUnits.METRIC, start=None, brew_date=None
    )
    lines = [line.split(": ", 1) for line in sheet_text(sheet).splitlines() if line.strip()]
    return DOCUMENT.replace("{rows}", "\n".join(map(_row, lines)))


def _row(cells: list[str]) -> str:
    said = [
        '<table:table-cell table:style-name="said" office:value-type="string">'
        f"<text:p>{escape(cell)}</text:p></table:table-cell>"
        for cell in (cells if len(cells) > 1 else ["", *cells])
    ]
    return f"<table:table-row>{''.join(said)}</table:table-row>"


def seconds(words: list[str], environment: dict[str, str]) -> float:
    """Return how long a command takes by the clock."""
    begun = time.perf_counter()
    subprocess.run(words, cwd=TOP, env=environment, capture_output=True, check=True, timeout=180)
    return time.perf_counter() - begun


def pages(path: Path) -> int:
    """Return how many pages a PDF has."""
    from pypdf import PdfReader

    return len(PdfReader(path).pages)


def main() -> int:
    """Print both and the ratio; 1 where ours takes too long a share, or nothing can be compared."""
    if sys.argv[1:] == ["--write"]:
        ROWS.write_text(rows_of_the_sheet(), encoding="utf-8")
        return 0
    if ROWS.read_text(encoding="utf-8") != rows_of_the_sheet():
        sys.stdout.write(f"{ROWS.name} is not what the sheet says today: --write\n")
        return 1
    soffice = shutil.which("soffice") or shutil.which("libreoffice")
    if soffice is None:
        sys.stdout.write("no LibreOffice here: sh packaging/test.sh --all installs it\n")
        return 1
    with tempfile.TemporaryDirectory(prefix="hobwort-export-") as name, as_installed() as usual:
        folder = Path(name)
        environment = {**usual, "HOBWORT_SETTINGS": name, "HOBWORT_STORE": name}
        ours = [sys.executable, "-m", "designer", "sheet", str(PORTER), "-o", f"{name}/ours.pdf",
                "--paper", "a4"]  # fmt: skip
        theirs = [soffice, "--headless", f"-env:UserInstallation=file://{name}/profile",
                  "--convert-to", "pdf:calc_pdf_Export", "--outdir", name, str(ROWS)]  # fmt: skip
        pairs = [(seconds(ours, environment), seconds(theirs, environment))
                 for _ in range(RUNS + 1)][1:]  # fmt: skip
        counted = pages(folder / "ours.pdf"), pages(folder / f"{ROWS.stem}.pdf")
    mine, other = (statistics.median(each) for each in zip(*pairs, strict=True))
    sys.stdout.write(
        f"whole command {1000.0 * mine:.0f} ms, spreadsheet's export {1000.0 * other:.0f} ms, "
        f"ratio {mine / other:.2f} (bound {BOUND}); pages {counted[0]} and {counted[1]}\n"
    )
    if counted != (PAGES, PAGES):
        sys.stdout.write("these are not two pages each: nothing is compared\n")
        return 1
    note("whole sheet command against a spreadsheet's export", mine / other, "x", bound=BOUND)
    return int(mine / other > BOUND)


if __name__ == "__main__":
    sys.exit(main())
