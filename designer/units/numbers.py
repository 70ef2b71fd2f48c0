"""The number at the front of what was typed: `1 1/2`, `½`, `1½`, `1,5`, `1.500,25`, `1e3`."""

from __future__ import annotations

import re

_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_FRACTION = re.compile(r"(?:(\d+)[\s-]+)?(\d+)\s*[/\u2044]\s*(\d+)")
_DECIMAL = re.compile(r"[+-]?(?:\d[\d.,']*|[.,]\d+)(?:[eE][+-]?\d+)?")
VULGAR = "".join(_VULGAR)
_PLAIN = str.maketrans(
    {sign: f" {spelled}" for sign, spelled in _VULGAR.items()}
    | dict.fromkeys("\u00a0\u202f\u2009", " ")
    | dict.fromkeys("−–", "-")
)
_TO = re.compile(r"(?<=[\w%°])\s+(?:bis|à)\s+(?=[+-]?[\d.,½¼¾])")
_TOKEN = r"[.,]?\d(?:[.,']?\d)*"
_RUN = r"[.,]*\d(?:[\d.,]|'(?=\d))*"
_WELL_FORMED = r"(?:\d+|\d{1,3}([.,'])\d{3}(?:\1\d{3})*(?!\1))(?:[.,]\d+)?[.,]?|[.,]\d+"
_GROUPED = re.compile(r"[+-]?\d{1,3}(?:([.,'])\d{3})+")


def normalised(text: str) -> str:
    """Return the text with vulgar fractions spelled out, odd spaces and minus signs made plain.

    What stands between the ends of a span in German or French is "to", as a recipe has it.
    """
    if "bis" in text or "à" in text:
        text = _TO.sub(" to ", text)
    if text.isascii():
        return text.strip()
    return text.translate(_PLAIN).strip()


def with_decimal_sign(text: str, *, from_comma: bool, to_comma: bool) -> str:
    """Return the text with each decimal number in the other sign, its thousands not grouped.

    The digits stay as they are typed: `7,250 %` is `7.250 %`, `1.500 kg` is `1500 kg`.
    """

    def rewritten(found: re.Match[str]) -> str:
        token = found.group()
        sign = _decimal_sign(token.replace("'", ""), decimal_comma=from_comma)
        whole, _, part = token.replace("'", "").partition(sign)
        for each in ",.":
            whole = whole.replace(each, "")
        return f"{whole}{',' if to_comma else '.'}{part}" if part else whole

    return re.sub(_TOKEN, rewritten, text)


def is_well_formed(text: str) -> bool:
    """Whether each number of normalised text is written as numbers are."""
    return all(re.fullmatch(_WELL_FORMED, each) is not None for each in re.findall(_RUN, text))


def leading_number(text: str, *, decimal_comma: bool) -> tuple[float, str] | None:
    """Return the number at the front of normalised text and what follows; None without one.

    With `decimal_comma`, `1,500` is one and a half; without, fifteen hundred. Where only one
    reading makes sense (`1,5`, `1.234,5`) it is taken whatever the locale.
    """
    fraction = _FRACTION.match(text)
    if fraction:
        whole, above, below = (int(part or 0) for part in fraction.groups())
        if below == 0:
            return None
        return whole + above / below, text[fraction.end() :]
    found = _DECIMAL.match(text)
    if not found:
        return None
    token = found.group().rstrip(".,'")
    value = _decimal(token, decimal_comma=decimal_comma)
    return None if value is None else (value, text[found.start() + len(found.group()) :])


def _decimal(token: str, *, decimal_comma: bool) -> float | None:
    mantissa, *exponent = re.split(r"[eE]", token, maxsplit=1)
    plain = mantissa.replace("'", "")
    decimal = _decimal_sign(plain, decimal_comma=decimal_comma)
    group = "." if decimal == "," else ","
    plain = plain.replace(group, "").replace(decimal, ".")
    if plain.count(".") > 1:
        return None
    try:
        return float(plain + ("e" + exponent[0] if exponent else ""))
    except (ValueError, OverflowError):
        return None


def _decimal_sign(plain: str, *, decimal_comma: bool) -> str:
    """Which sign of a number without apostrophes stands before its decimals, if any does."""
    if "," in plain and "." in plain:
        return max(",.", key=plain.rfind)
    if "," in plain:
        return "." if _is_grouping(plain, ",", not decimal_comma) else ","
    return "," if _is_grouping(plain, ".", decimal_comma) else "."


def _is_grouping(text: str, sign: str, usual: bool) -> bool:
    """Whether `sign` groups thousands: it must stand so, and be usual or occur more than once."""
    grouped = _GROUPED.fullmatch(text)
    if grouped is None or grouped.group(1) != sign:
        return False
    return (usual and not text.lstrip("+-").startswith("0")) or text.count(sign) > 1
