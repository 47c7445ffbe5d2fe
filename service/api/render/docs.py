"""How does the interface document read in a browser? One page, nothing fetched, everything escaped."""

import json
from collections.abc import Iterable, Mapping
from html import escape
from typing import Any

from service.api.render.html import link, page, paragraph, table

Schema = Mapping[str, Any]


def docs_page(document: Schema) -> bytes:
    """Paths first, each with its question, its request and its answers; then every shape by name."""
    components = document["components"]["schemas"]
    body = [
        _prose(document["info"]["description"]),
        f"<p>{link('/openapi.json', 'The same as OpenAPI 3.1')} · {link('/problems', 'What can go wrong')}</p>",
        "<h2>Paths</h2>",
        table(
            ("Path", "Question"),
            (
                (link(f"#{operation['operationId']}", f"{method.upper()} {path}"), escape(operation["summary"]))
                for path, methods in document["paths"].items()
                for method, operation in methods.items()
            ),
        ),
    ]
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            body += _operation(path, method, operation, components)
    body.append("<h2>Shapes</h2>")
    for name, schema in components.items():
        body += _shape(name, schema)
    return page(document["info"]["title"], body)


def _operation(path: str, method: str, operation: Schema, components: Schema) -> Iterable[str]:
    yield f'<h2 id="{escape(operation["operationId"])}"><code>{method.upper()} {escape(path)}</code></h2>'
    yield _prose(operation["description"])
    rows = [
        (f"<code>{escape(one['name'])}</code>", escape(one["in"]), _marked(one["description"]))
        for one in operation["parameters"]
        if "name" in one
    ]
    if rows:
        yield table(("Parameter", "In", "What it means"), rows)
    if "requestBody" in operation:
        schema = operation["requestBody"]["content"]["application/json"]["schema"]
        name = _name(schema)
        yield f"<p>Body: {_link(name)}</p>"
        for example in components[name].get("examples", ()):
            command = f"curl -sS http://127.0.0.1:8080{path} -H 'Content-Type: application/json' -d '"
            yield f"<pre>{escape(command + json.dumps(example) + chr(39))}</pre>"
    for status, answer in operation["responses"].items():
        for media, content in answer.get("content", {}).items():
            name = _name(content["schema"])
            shape = _link(name) if name else "text"
            yield f"<p>{escape(status)} <code>{escape(media)}</code>: {shape}</p>"


def _shape(name: str, schema: Schema) -> Iterable[str]:
    yield f'<h3 id="shape-{escape(name)}">{escape(name)}</h3>'
    if "description" in schema:
        yield _prose(schema["description"])
    required = set(schema.get("required", ()))
    if "properties" in schema:
        yield table(
            ("Field", "Kind", "What it means"),
            (
                (
                    f"<code>{_breakable(field)}</code>" + (" (must be there)" if field in required else ""),
                    _kind(inner),
                    _marked(inner.get("description", "")),
                )
                for field, inner in schema["properties"].items()
            ),
        )
    elif "enum" in schema:
        yield paragraph(", ".join(str(word) for word in schema["enum"]))


def _breakable(name: str) -> str:
    """An escaped name that may go on in the next line after each of its parts, so that a narrow page stays narrow."""
    return escape(name).replace("_", "_<wbr>")


def _kind(schema: Schema) -> str:
    if name := _name(schema):
        return _link(name)
    choices = schema.get("anyOf") or schema.get("oneOf")
    if choices and "type" not in schema:
        return " or ".join(_kind(one) for one in choices)
    if "enum" in schema:
        return escape(" | ".join("null" if word is None else str(word) for word in schema["enum"]))
    said = schema.get("type", "anything")
    kinds = [said] if isinstance(said, str) else [kind for kind in said if kind != "null"]
    text = escape(" or ".join(kinds))
    if "items" in schema:
        text += " of " + _kind(schema["items"])
    elif "minimum" in schema and "maximum" in schema:
        text += f" {schema['minimum']:g} to {schema['maximum']:g}"
    return text + (" or null" if "null" in said and said != "null" else "")


def _prose(text: str) -> str:
    return f"<p>{_marked(text)}</p>"


def _marked(text: str) -> str:
    """Escaped text; names between backticks, as the document has them, are set as code."""
    pieces = escape(text).replace("``", "`").split("`")
    return "".join(f"<code>{piece}</code>" if at % 2 else piece for at, piece in enumerate(pieces))


def _name(schema: Schema) -> str:
    return str(schema.get("$ref", "")).rpartition("/")[2]


def _link(name: str) -> str:
    return link(f"#shape-{name}", name)
