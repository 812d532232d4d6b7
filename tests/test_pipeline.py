"""The stages chained, on specs in memory."""

from __future__ import annotations

import pytest

from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic, Label, Severity
from tilespec.source import Source, Span
from tilespec.workspace.host import MemoryHost, Reason, Unreadable

ONE_LINE = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"


def compiled(text: str, **others: str) -> pipeline.Compiled:
    files = {"/job/a.tilespec": text, **{f"/job/{name}.tilespec": body for name, body in others.items()}}
    return pipeline.compile("/job/a.tilespec", MemoryHost(files))


def test_a_sound_spec_goes_all_the_way() -> None:
    result = compiled(ONE_LINE)
    assert not result.failed and result.plan is not None
    assert list(result.sources)[0] == "/job/a.tilespec"
    plan = result.plan
    assert plan.sequence.operations and plan.takeoff.lines and plan.programme.days
    assert plan.programme is plan.programme


def test_a_spec_with_errors_has_no_plan_and_prints_nothing() -> None:
    result = compiled("floor 2,4 x 1.8\n" + ONE_LINE)
    assert result.failed and result.plan is None
    with pytest.raises(ValueError, match="has errors"):
        pipeline.render(result, pipeline.Order("md"))


def test_the_spec_itself_must_be_readable() -> None:
    with pytest.raises(Unreadable) as caught:
        pipeline.compile("/job/none.tilespec", MemoryHost({}))
    assert caught.value.reason is Reason.MISSING


def test_diagnostics_stand_in_the_order_of_the_text() -> None:
    result = compiled("wall A 2.4 x 2.4; tiel x 300x300\nfloor 2,4 x 1.8\n")
    starts = [d.primary.span.start for d in result.diagnostics]
    assert len(starts) >= 2 and starts == sorted(starts)


def test_what_two_specs_share_is_said_once() -> None:
    sources = {"a": Source("a", "x"), "b": Source("b", "y"), "stock": Source("stock", "z")}

    def fault(file: str, severity: Severity = Severity.WARNING) -> Diagnostic:
        return Diagnostic("n", "T0001", severity, "syntax", "m", Label(Span(file, 0, 1), ""))

    one = pipeline.Compiled("a", {n: sources[n] for n in ("a", "stock")}, (fault("a"), fault("stock")), None)
    two = pipeline.Compiled("b", {n: sources[n] for n in ("b", "stock")}, (fault("b", Severity.ERROR), fault("stock")), None)
    both = pipeline.gather([one, two])
    assert [d.primary.span.file for d in both.diagnostics] == ["a", "stock", "b"]
    assert both.failed and list(both.sources) == ["a", "stock", "b"]


@pytest.mark.parametrize("form", ["md", "json", "html"])
def test_same_input_same_bytes(form: str) -> None:
    one, two = (pipeline.render(compiled(ONE_LINE), pipeline.Order(form)) for _ in range(2))
    assert one == two


def test_no_such_form() -> None:
    with pytest.raises(ValueError, match="no form"):
        pipeline.render(compiled(ONE_LINE), pipeline.Order("doc"))
