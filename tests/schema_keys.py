"""The keys of a command's JSON, as its schema tells them.

A key in a list stands behind `[]`, one that a recipe gives its name is `*`.
"""

import json

from designer.resource_files import resource_path


def told_keys(name, part=None):
    """Return the keys of a schema, or of one of its parts: those that hold a value."""
    schema = json.loads(resource_path(f"schemas/{name}.json").read_text("utf-8"))
    top = schema if part is None else schema["$defs"][part]
    return set(_keys(top, schema.get("$defs", {}), ""))


def _keys(schema, parts, path):
    if "$ref" in schema:
        schema = {**parts[schema["$ref"].rpartition("/")[2]], **schema}
    kinds = schema.get("type", ())
    inner = False
    for key, each in schema.get("properties", {}).items():
        inner = True
        yield from _keys(each, parts, f"{path}.{key}" if path else key)
    if isinstance(schema.get("additionalProperties"), dict):
        inner = True
        yield from _keys(schema["additionalProperties"], parts, f"{path}.*")
    if isinstance(schema.get("items"), dict):
        inner = True
        yield from _keys(schema["items"], parts, f"{path}[]")
    if not inner or "null" in kinds:
        yield path
