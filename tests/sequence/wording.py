"""The wording files as the document loads them, with quantities shown as in a metric print."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from tilespec.document.show import show
from tilespec.quantity import Quantity
from tilespec.sequence.types import Hazard, Operation

FOLDER = Path(__file__).resolve().parents[2] / "templates" / "wording"


def environment() -> Environment:
    """Whitespace and strictness as in the document's templates; a bare number is refused."""

    def finalize(value: object) -> object:
        if isinstance(value, Quantity):
            return show(value, "EN")
        assert value is not None and not isinstance(value, (int, float)), f"printed: {value!r}"
        return value

    env = Environment(
        loader=FileSystemLoader(FOLDER),
        undefined=StrictUndefined,
        finalize=finalize,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    env.filters["listing"] = lambda values: ", ".join(values)
    return env


ENV = environment()


def macros(file: str) -> dict[str, object]:
    module = ENV.get_template(f"{file}.md.j2").module
    return {name: value for name, value in vars(module).items() if callable(value)}


def macro(file: str, key: str, part: str) -> object:
    return macros(file).get(f"{key.replace('-', '_')}_{part}")


@dataclass
class StepView:
    """An operation as wording sees it; remembers which values and facts were asked for."""

    op: Operation
    asked: set[str]

    @property
    def facts(self) -> Facts:
        return Facts(self.op.facts, self.asked)

    @property
    def places(self) -> tuple[str, ...]:
        return self.op.places

    def value(self, name: str) -> Quantity | None:
        self.asked.add(f"value {name}")
        return self.op.value(name)


class Facts(tuple):
    def __new__(cls, facts: tuple[str, ...], asked: set[str]) -> Facts:
        self = super().__new__(cls, facts)
        self.asked = asked
        return self

    def __contains__(self, fact: object) -> bool:
        self.asked.add(f"fact {fact}")
        return super().__contains__(fact)


def said(file: str, key: str, part: str, about: object) -> str:
    found = macro(file, key, part)
    assert found is not None, f"templates/wording/{file}.md.j2 has no {key} {part}"
    return str(found(about)).strip()  # type: ignore[operator]


@dataclass
class HazardView:
    hazard: Hazard

    def value(self, name: str) -> Quantity | None:
        return dict(self.hazard.values).get(name)
