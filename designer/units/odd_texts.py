"""What no brewer types on purpose, though a figure could be read from it.

Documents written by older versions may hold such texts and are still read; in a field they are
refused: a stray sign, a number torn in two, digits of two scripts, a price in degrees of colour.
"""

from __future__ import annotations

import re
from unicodedata import category, decimal

from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units.numbers import VULGAR, is_well_formed
from designer.units.quick_words import FACTORS

_USUAL = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|(?:\d+ )?\d+/\d+) ?[A-Za-z%°/]*")
_STRAY = r",$|[.,][.,]|(?<![^\W_])\.(?!\d)"
_JOINTS = r"[ '’-]"
_MONEY_WORDS = r"[€$£¥]|[A-Za-zł]+"
_MONEY_SIGNS = ("€", "$", "£", "¥", "kr", "zł")
_CODES = (
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN "
    "BWP BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD "
    "FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY "
    "KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP "
    "MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR "
    "RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT "
    "TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW "
)
CURRENCIES = frozenset(_CODES.split())
"""Codes of money: ISO 4217, from memory."""


def oddity(kind: Kind, typed: str, plain: str) -> str:
    """Say what is odd about a text and its normalised form; nothing if it is well written."""
    if kind is not Kind.MONEY and _USUAL.fullmatch(plain) and _is_latin(plain):
        return ""
    if not is_well_formed(plain) or re.search(f"[{VULGAR}]\\s*[\\d{VULGAR}]", typed):
        return tr("the figures run together")
    if not _digits_of_one_script(plain):
        return tr("its digits are of two scripts")
    if kind is not Kind.TIME and re.search(r"(?<=\d)'(?!\d)", plain):
        return tr("unit “'” is not known here; write ft for feet")
    if kind is Kind.TIME and re.search(r"\d\s+-|\d-\s", plain):
        return tr("a time is no span")
    if re.search(_STRAY, plain):
        return tr("there is one character too many")
    return _odd_price(plain) if kind is Kind.MONEY else ""


def _is_latin(plain: str) -> bool:
    return plain.isascii() or plain.replace("°", "").isascii()


def _digits_of_one_script(plain: str) -> bool:
    if plain.isascii():
        return True
    return len({ord(each) - decimal(each) for each in plain if each.isdecimal()}) < 2


def _odd_price(plain: str) -> str:
    """A price names its money once, by a sign or a code of three letters."""
    words = [each for each in re.findall(_MONEY_WORDS, plain) if each.lower() not in ("e", "to")]
    unknown = [each for each in words if each not in _MONEY_SIGNS and each not in CURRENCIES]
    if unknown:
        return tr("unit “{word}” is not known here", word=unknown[0])
    return tr("the money is named twice") if len(set(words)) > 1 else ""


def counts_pieces(word: str) -> bool:
    """Whether a dose may be counted in it: words of letters, not led by a unit of anything else.

    A unit alone may be the first letters of a word that is being typed. A bar of chocolate is a
    piece.
    """
    if not word:
        return True
    parts = re.split(_JOINTS, word)
    if not all(each and all(map(_is_letter, each)) for each in parts):
        return False
    return len(parts) == 1 or not any(
        parts[0] in known for kind, known in FACTORS.items() if kind is not Kind.PRESSURE
    )


def _is_letter(sign: str) -> bool:
    return sign.isalpha() or category(sign).startswith("M")
