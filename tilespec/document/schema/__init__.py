"""The schema of the JSON print, made from the model so that the two cannot part; the file beside this is what users read."""

from __future__ import annotations

import json
import types
import typing
from dataclasses import fields, is_dataclass

from tilespec.document import model
from tilespec.document.model import FORMAT_VERSION, PARTS
from tilespec.document.text import Ref, Said
from tilespec.practice.lookup import Word
from tilespec.quantity import Quantity

Schema = dict[str, object]

_SCALARS: dict[type, Schema] = {str: {"type": "string"}, bool: {"type": "boolean"}, type(None): {"type": "null"}}

_NEEDED = ["text", "value", "unit", "trace"]
_FIELDS: Schema = {
    "text": {"type": "string"},
    "value": {"type": "number"},
    "unit": {"type": "string"},
    "trace": {"type": "string", "pattern": "^(L[a-z]*|[DRW])[0-9]+$"},
}
_QUANTITY: Schema = {
    "description": "text: as printed; value: number in `unit`; trace: id in `traces`, printed beside the value.",
    "type": "object",
    "required": _NEEDED,
    "properties": _FIELDS,
}

_WORD: Schema = {
    "description": "A class or another word that the practice asks for; trace: id in `traces`, printed beside it.",
    "type": "object",
    "required": ["text", "trace"],
    "properties": {key: _FIELDS[key] for key in ("text", "trace")},
}

_INPUT: Schema = {
    "type": "object",
    "required": ["name", *_NEEDED],
    "properties": {"name": {"type": "string"}, **_FIELDS},
}


def _trace(kind: str, words: str, **properties: Schema) -> Schema:
    return {
        "description": words,
        "type": "object",
        "required": ["kind", *properties],
        "properties": {"kind": {"const": kind}, **properties},
    }


_TEXT: Schema = {"type": "string"}
_TRACE: Schema = {
    "description": "What stands behind a value.",
    "oneOf": [
        _trace("given", "Said in a text, on the line that the id names."),
        _trace("default", "In use until somebody answers.", question=_TEXT, basis=_TEXT, ask=_TEXT),
        _trace(
            "limit",
            "A limit or planning value of the practice.",
            key=_TEXT, what=_TEXT, family=_TEXT, borrowed={"type": "boolean"}, source=_TEXT, seen=_TEXT, note=_TEXT,
        ),
        _trace("counted", "A count of things in the job.", of=_TEXT, lines={"type": "array", "items": _TEXT}),
        _trace(
            "worked",
            "Worked out: the formula in words, its inputs by the names in it.",
            formula=_TEXT, source=_TEXT, inputs={"type": "array", "items": _INPUT},
        ),
    ],
}  # fmt: skip


def _list_of(**properties: Schema) -> Schema:
    return {"type": "array", "items": {"type": "object", "required": list(properties), "properties": dict(properties)}}


def schema() -> Schema:
    """The whole schema (JSON Schema 2020-12)."""
    definitions: dict[str, Schema] = {"quantity": _QUANTITY, "trace": _TRACE, "word": _WORD}
    hints = typing.get_type_hints(model.Document)
    names = {key: key.replace("-", "_") for key in PARTS if key != "sources"}
    parts = {key: _of(hints[name], definitions) for key, name in names.items()}
    properties: dict[str, Schema] = {
        "format": {"const": "tilespec-print"},
        "format_version": {
            "description": "Major and minor; within one major things are only added.",
            "type": "string",
            "pattern": f"^{FORMAT_VERSION.split('.')[0]}\\.[0-9]+$",
        },
        "language": _TEXT,
        "family": {"description": "Practice family.", "type": "string"},
        "paper": _TEXT,
        "parts": {"type": "object", "required": list(parts), "properties": parts},
        "traces": {
            "description": "What stands behind every value, by reference mark.",
            "type": "object",
            "additionalProperties": {"$ref": "#/$defs/trace"},
        },
        "texts": {
            "description": "The texts that were read, the spec first; `letter` stands in the marks of its lines.",
            **_list_of(letter=_TEXT, name=_TEXT, lines={"type": "array", "items": _TEXT}),
        },
        "drawings": {
            "description": "SVG, to scale in millimetres.",
            **_list_of(name=_TEXT, title=_TEXT, svg=_TEXT, values={"type": "array", "items": {"$ref": "#/$defs/quantity"}}),
        },
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "tilespec print",
        "description": "A method statement as `tilespec print --to json` writes it.",
        "type": "object",
        "required": list(properties),
        "properties": properties,
        "$defs": dict(sorted(definitions.items())),
    }


def text() -> str:
    """The schema as it is kept in the file beside this one."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def _of(hint: object, definitions: dict[str, Schema]) -> Schema:
    if hint in (Said, Ref):
        return _TEXT
    if hint is Quantity:
        return {"$ref": "#/$defs/quantity"}
    if hint is Word:
        return {"$ref": "#/$defs/word"}
    if hint in _SCALARS:
        return _SCALARS[hint]
    origin = typing.get_origin(hint)
    if origin is tuple:
        return {"type": "array", "items": _of(typing.get_args(hint)[0], definitions)}
    if origin in (typing.Union, types.UnionType):
        return {"anyOf": [_of(each, definitions) for each in typing.get_args(hint)]}
    if is_dataclass(hint) and isinstance(hint, type):
        if hint.__name__ not in definitions:
            made: Schema = {"type": "object"}
            definitions[hint.__name__] = made
            hints = typing.get_type_hints(hint)
            made["required"] = [f.name for f in fields(hint)]
            made["properties"] = {f.name: _of(hints[f.name], definitions) for f in fields(hint)}
            if hint.__doc__ and not hint.__doc__.startswith(hint.__name__ + "("):
                made["description"] = " ".join(hint.__doc__.split())
        return {"$ref": f"#/$defs/{hint.__name__}"}
    raise TypeError(f"no schema for {hint!r}")
