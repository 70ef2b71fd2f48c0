"""A strict reader of calendar files, by RFC 5545 alone: it refuses whatever the RFC does."""

import re

_LINE = re.compile(r"([A-Z-]+)((?:;[A-Z-]+=[^;:,\x00-\x1f\"]+)*):([^\x00-\x08\x0a-\x1f\x7f]*)")
_UNESCAPED = re.compile(r"(?<!\\)(?:\\\\)*[,;]")
_TEXTS = {"SUMMARY", "DESCRIPTION", "UID", "PRODID"}


def read_calendar(content: bytes):
    """Return the components as nested dicts; raises AssertionError for what is against the RFC."""
    assert content.endswith(b"\r\n")
    raw = content[:-2].split(b"\r\n")
    assert not any(b"\r" in each or b"\n" in each for each in raw)  # 3.1: lines end in CRLF
    assert all(len(each) <= 75 for each in raw)  # 3.1: 75 octets
    for each in raw:
        each.decode("utf-8")  # no letter is cut
    lines = content.decode("utf-8").replace("\r\n ", "").split("\r\n")[:-1]
    root, rest = _component(lines)
    assert rest == []
    return root


def _component(lines):
    first = _parsed(lines[0])
    assert first[0] == "BEGIN"
    made, rest = {"name": first[2], "parts": []}, lines[1:]
    while True:
        name, parameters, value = _parsed(rest[0])
        if name == "END":
            assert value == made["name"]
            return made, rest[1:]
        if name == "BEGIN":
            part, rest = _component(rest)
            made["parts"].append(part)
            continue
        assert name not in made, f"{name} twice"
        made[name] = _text(value) if name in _TEXTS else value
        if parameters:
            made[f"{name};"] = parameters
        rest = rest[1:]


def _parsed(line):
    found = _LINE.fullmatch(line)
    assert found, line
    return found.groups()


def _text(value):
    assert not _UNESCAPED.search(value), value  # 3.3.11
    assert not re.search(r"(?<!\\)(?:\\\\)*\\[^\\;,nN]", value), value
    return re.sub(r"\\(.)", lambda m: "\n" if m[1] in "nN" else m[1], value)
