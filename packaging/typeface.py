"""Make the program's own typeface, in resources/fonts, of the fonts of a Debian package.

It needs fonttools, apt-get and dpkg-deb:  python packaging/typeface.py
Run again it writes the same bytes; resources/fonts/README.md says what is taken and changed.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

PACKAGE, VERSION = "fonts-noto-core", "20201225-1"
INSIDE = "usr/share/fonts/truetype/noto"
TARGET = Path(__file__).parents[1] / "resources" / "fonts"
FAMILY = "Hobwort Sans"
WEIGHTS = ("Regular", "Bold")
SPANS = (
    (0x0020, 0x007E),  # Latin
    (0x00A0, 0x017F),  # and that of all languages of Europe
    (0x0218, 0x021B),  # Romanian
    (0x0370, 0x03FF),  # Greek
    (0x0400, 0x045F),  # Cyrillic
    (0x1E9E, 0x1E9E),  # a capital sharp s
    (0x2010, 0x2027),  # dashes, quotation marks, dots
    (0x2030, 0x203A),
    (0x2070, 0x208E),  # raised and lowered figures
    (0x20AC, 0x20AC),
    (0x2116, 0x2116),
    (0x2122, 0x2122),
    (0x2150, 0x215E),  # fractions
)
FEATURES = ["ccmp", "kern", "locl", "mark", "mkmk"]  # no ligatures: "finings" must be found
SIGNS = {
    "NotoSansMath-Regular": "←↑→↓−≈≠≤≥△",
    "NotoSansSymbols2-Regular": "▪▲▶▸▼▾◆●☐☑⚠⛔✓✕",
}
ASCENT, DESCENT = 930, 240
"""Of the line, in thousandths: Noto leaves room for letters with one accent above another."""


def main() -> None:
    """Fetch the package, and write a font for each weight."""
    TARGET.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        subprocess.run(["apt-get", "download", f"{PACKAGE}={VERSION}"], cwd=folder, check=True)
        (archive,) = folder.glob("*.deb")
        subprocess.run(["dpkg-deb", "-x", str(archive), "."], cwd=folder, check=True)
        sources = folder / INSIDE
        for weight in WEIGHTS:
            made = _made(sources, weight)
            path = TARGET / f"HobwortSans-{weight}.ttf"
            made.save(path)
            sys.stdout.write(f"{path}: {path.stat().st_size / 1000:.0f} kB\n")


def _made(sources: Path, weight: str) -> TTFont:
    """Return a weight with the letters wanted, and the signs of other fonts of the family."""
    font = TTFont(sources / f"NotoSans-{weight}.ttf", recalcTimestamp=False)
    options = Options(layout_features=FEATURES, name_IDs=["*"], notdef_outline=True)
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[sign for low, high in SPANS for sign in range(low, high + 1)])
    subsetter.subset(font)
    for name, signs in SIGNS.items():
        _add(font, TTFont(sources / f"{name}.ttf"), signs)
    _bring_in(font, "J")
    _name(font, weight)
    font["hhea"].ascent, font["hhea"].descent, font["hhea"].lineGap = ASCENT, -DESCENT, 0
    os2 = font["OS/2"]
    os2.sTypoAscender, os2.sTypoDescender, os2.sTypoLineGap = ASCENT, -DESCENT, 0
    os2.usWinAscent, os2.usWinDescent = ASCENT, DESCENT
    return font


def _add(font: TTFont, other: TTFont, signs: str) -> None:
    """Copy signs that the family has in another font of the same grid."""
    outlines, names = other.getGlyphSet(), other.getBestCmap()
    order = font.getGlyphOrder()
    for sign in signs:
        pen = TTGlyphPen(None)
        outlines[names[ord(sign)]].draw(pen)
        name = f"sign{ord(sign):04X}"
        order.append(name)
        font["glyf"][name] = pen.glyph()
        font["hmtx"][name] = other["hmtx"][names[ord(sign)]]
        for table in font["cmap"].tables:
            if table.isUnicode():
                table.cmap[ord(sign)] = name
    font.setGlyphOrder(order)


def _bring_in(font: TTFont, letter: str) -> None:
    """Move a letter that hangs out to the left, so that a heading keeps to its margin."""
    glyphs, widths = font["glyf"], font["hmtx"]
    out = -min(glyphs[letter].xMin, 0)
    glyphs[letter].coordinates.translate((out, 0))
    accented = [
        name
        for name in font.getGlyphOrder()
        if glyphs[name].isComposite() and letter in glyphs[name].getComponentNames(glyphs)
    ]
    for name in accented:
        for part in glyphs[name].components:
            part.x += 0 if part.glyphName == letter else out
    for name in (letter, *accented):
        glyphs[name].recalcBounds(glyphs)
        widths[name] = (widths[name][0] + out, glyphs[name].xMin)


def _name(font: TTFont, weight: str) -> None:
    """Give it a name of its own: it is not to be taken for the whole font, nor the other way."""
    names = font["name"]
    whole = f"{FAMILY} {weight}"
    for record in list(names.names):
        if record.nameID not in (0, 7, 8, 9, 11, 13, 14):
            names.removeNames(nameID=record.nameID)
    for number, text in {
        1: FAMILY,
        2: weight,
        3: f"{whole}; from {PACKAGE} {VERSION}",
        4: whole,
        5: f"Version 1.000; from {PACKAGE} {VERSION}",
        6: whole.replace(" ", "", 1).replace(" ", "-"),
    }.items():
        names.setName(text, number, 3, 1, 0x409)


if __name__ == "__main__":
    main()
