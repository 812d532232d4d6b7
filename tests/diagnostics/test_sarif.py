"""SARIF: what the standard requires is there, and it says the same as the JSON report."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from tilespec import pipeline
from tilespec.cli.door import run
from tilespec.cli.status import Status
from tilespec.diagnostics import json_report, sarif
from tilespec.diagnostics.catalogue import problem
from tilespec.source import Source, Span
from tilespec.workspace.host import DiskHost

MISTAKES = sorted((Path(__file__).parents[1] / "corpus" / "mistakes").glob("*.tilespec"))

# What OASIS SARIF 2.1.0 requires of the objects used here, from memory of its section 3: sarifLog, run, tool, toolComponent,
# reportingDescriptor, result, message, location, physicalLocation, region, fix, artifactChange, replacement.
MESSAGE = {"type": "object", "required": ["text"], "properties": {"text": {"type": "string", "minLength": 1}}}
ARTIFACT = {"type": "object", "required": ["uri"], "properties": {"uri": {"type": "string", "pattern": "^[!-~]+$"}}}
REGION = {
    "type": "object",
    "properties": {name: {"type": "integer", "minimum": 1} for name in ("startLine", "startColumn", "endLine", "endColumn")},
    "additionalProperties": False,
}
LOCATION = {
    "type": "object",
    "properties": {
        "physicalLocation": {
            "type": "object", "required": ["artifactLocation"], "properties": {"artifactLocation": ARTIFACT, "region": REGION},
        },
        "message": MESSAGE,
    },
}
CHANGE = {
    "type": "object",
    "required": ["artifactLocation", "replacements"],
    "properties": {
        "artifactLocation": ARTIFACT,
        "replacements": {
            "type": "array", "minItems": 1,
            "items": {"type": "object", "required": ["deletedRegion"], "properties": {"deletedRegion": REGION}},
        },
    },
}
RESULT = {
    "type": "object",
    "required": ["message"],
    "properties": {
        "ruleId": {"type": "string"},
        "ruleIndex": {"type": "integer", "minimum": 0},
        "level": {"enum": ["none", "note", "warning", "error"]},
        "message": MESSAGE,
        "locations": {"type": "array", "items": LOCATION},
        "relatedLocations": {"type": "array", "uniqueItems": True, "items": LOCATION},
        "fixes": {
            "type": "array", "uniqueItems": True,
            "items": {
                "type": "object", "required": ["artifactChanges"],
                "properties": {"artifactChanges": {"type": "array", "minItems": 1, "uniqueItems": True, "items": CHANGE}},
            },
        },
    },
}
RULE = {
    "type": "object", "required": ["id"],
    "properties": {"shortDescription": MESSAGE, "fullDescription": MESSAGE, "help": MESSAGE},
}
DRIVER = {
    "type": "object", "required": ["name"],
    "properties": {"name": {"type": "string"}, "rules": {"type": "array", "uniqueItems": True, "items": RULE}},
}
LOG = {
    "type": "object",
    "required": ["version", "runs"],
    "properties": {
        "$schema": {"type": "string", "format": "uri"},
        "version": {"const": "2.1.0"},
        "runs": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["tool"],
                "properties": {
                    "tool": {"type": "object", "required": ["driver"], "properties": {"driver": DRIVER}},
                    "columnKind": {"enum": ["utf16CodeUnits", "unicodeCodePoints"]},
                    "artifacts": {"type": "array", "uniqueItems": True, "items": {"properties": {"location": ARTIFACT}}},
                    "results": {"type": "array", "items": RESULT},
                },
            },
        },
    },
}


def log(text: str) -> dict[str, object]:
    found = json.loads(text)
    jsonschema.Draft202012Validator(LOG).validate(found)
    assert text.isascii()
    return found["runs"][0]  # type: ignore[no-any-return]


def test_it_says_the_same_as_the_report() -> None:
    for path in MISTAKES:
        compiled = pipeline.compile(path.name, Beside(path))
        one = log(sarif.render(compiled.diagnostics, compiled.sources))
        report = json.loads(json_report.render(compiled.diagnostics, compiled.sources, 1))
        rules = [r["id"] for r in one["tool"]["driver"]["rules"]]  # type: ignore[index]
        assert len(one["results"]) == len(report["diagnostics"]) > 0  # type: ignore[arg-type]
        for result, told in zip(one["results"], report["diagnostics"], strict=True):  # type: ignore[call-overload]
            region = result["locations"][0]["physicalLocation"]["region"]
            assert rules[result["ruleIndex"]] == result["ruleId"] == told["code"] and result["level"] == told["severity"]
            assert result["message"]["text"].startswith(told["message"])
            assert (region["startLine"], region["startColumn"]) == (told["primary"]["line"], told["primary"]["column"])
            assert [f["description"]["text"] for f in result["fixes"]] == [f["title"] for f in told["fixes"]]


class Beside(DiskHost):
    """Files by their names in one folder."""

    def __init__(self, path: Path) -> None:
        self.folder = path.parent

    def data(self, path: str) -> bytes:
        return super().data(str(self.folder / path))

    def exists(self, path: str) -> bool:
        return super().exists(str(self.folder / path))


@pytest.mark.parametrize(
    ("name", "uri"),
    [
        ("job.tilespec", "job.tilespec"),
        ("a room/50%.tilespec", "a%20room/50%25.tilespec"),
        ("/jobs/ü.tilespec", "file:///jobs/%C3%BC.tilespec"),
        ("C:\\jobs\\a b.tilespec", "file:///C:/jobs/a%20b.tilespec"),
        ("\udcff.tilespec", "%FF.tilespec"),
    ],
)
def test_names_of_files(name: str, uri: str) -> None:
    found = problem("decimal-comma", Span(name, 6, 9), "a message")
    one = log(sarif.render([found], {name: Source(name, "floor 2,4 x 1.8\n")}))
    assert one["artifacts"] == [{"location": {"uri": uri}}]
    place = one["results"][0]["locations"][0]["physicalLocation"]  # type: ignore[index]
    region = {"startLine": 1, "startColumn": 7, "endLine": 1, "endColumn": 10}
    assert place == {"artifactLocation": {"uri": uri}, "region": region}


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.tilespec").write_text("floor 2,4 x 1.8\n", encoding="utf-8")
    assert run(["check", "--sarif", "job.tilespec"]) is Status.SPEC
    told = capsys.readouterr()
    one = log(told.out)
    assert "T0301" in [r["ruleId"] for r in one["results"]] and told.err == ""  # type: ignore[attr-defined]
