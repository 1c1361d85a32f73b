"""The published description of the API, arranged for a reader: calls by their subject, bodies and answers by name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

_METHODS = ("get", "post", "put", "delete")


@dataclass(frozen=True)
class Answer:
    """One way in which a call is answered."""

    status: str
    words: str
    shape: str


@dataclass(frozen=True)
class Call:
    """One call: its body is the name of a shape, or nothing."""

    method: str
    path: str
    words: str
    body: str
    answers: tuple[Answer, ...]


def calls_of(description: Mapping[str, Any]) -> dict[str, list[Call]]:
    """Every call, by subject, in the order of the description."""
    subjects: dict[str, list[Call]] = {}
    for path, methods in description["paths"].items():
        for method in _METHODS:
            if said := methods.get(method):
                subject = said.get("tags", ["other"])[0]
                subjects.setdefault(subject, []).append(_call(method, path, said))
    return subjects


def shapes_of(description: Mapping[str, Any]) -> dict[str, list[tuple[str, str, bool]]]:
    """Every named shape with its members: name, what it is, whether it must be given."""
    return {
        name: [
            (member, _words(schema), member in shape.get("required", ()))
            for member, schema in shape["properties"].items()
        ]
        for name, shape in sorted(description["components"]["schemas"].items())
        if shape.get("properties")
    }


def _call(method: str, path: str, said: Mapping[str, Any]) -> Call:
    answers = tuple(
        Answer(status, answer["description"], ", ".join(_shapes(answer.get("content", {}))))
        for status, answer in sorted(said["responses"].items())
    )
    body = ", ".join(_shapes(said.get("requestBody", {}).get("content", {})))
    return Call(method.upper(), path, said.get("description", said.get("summary", "")), body, answers)


def _shapes(content: Mapping[str, Any]) -> Iterator[str]:
    for media_type, said in content.items():
        words = _words(said.get("schema", {}))
        yield words if media_type == "application/json" and words else f"{words} {media_type}".strip()


def _words(schema: Mapping[str, Any]) -> str:
    """A schema in a few words."""
    if "$ref" in schema:
        return str(schema["$ref"]).rsplit("/", 1)[-1]
    if "anyOf" in schema:
        return " or ".join(_words(one) for one in schema["anyOf"])
    if "enum" in schema or "const" in schema:
        return " or ".join(f'"{value}"' for value in schema.get("enum", [schema.get("const")]))
    if schema.get("type") == "array":
        inner = _words(schema.get("items", {}))
        return f"list of {inner}" if inner else "list"
    return str(schema.get("format") or schema.get("type", ""))
