"""`tilespec survey`: where the sheet goes, and what is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from tilespec.cli.door import run
from tilespec.cli.status import Status

ONE_LINE = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with one sound spec in a folder of its own, and the work is done from above it."""
    (tmp_path / "rooms").mkdir()
    (tmp_path / "rooms" / "one.tilespec").write_text(ONE_LINE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    return tmp_path


@pytest.mark.pdf
def test_a_blank_sheet_is_a_pdf_unless_said_otherwise(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["survey"]) is Status.FINE
    assert (job / "survey.pdf").read_bytes().startswith(b"%PDF-")
    assert capsys.readouterr().err == "wrote survey.pdf\n"


def test_a_blank_sheet_in_the_units_of_a_practice(job: Path) -> None:
    assert run(["survey", "--practice", "US", "-o", "van.md"]) is Status.FINE
    assert "heights in ft" in (job / "van.md").read_text(encoding="utf-8")
    assert run(["survey", "-o", "van.html"]) is Status.FINE
    page = (job / "van.html").read_text(encoding="utf-8")
    assert "heights in m;" in page and "size: A4" in page and "tilespec:" not in page
    assert run(["survey", "-o", "van.html", "--paper", "letter"]) is Status.FINE
    assert "size: letter" in (job / "van.html").read_text(encoding="utf-8")


def test_the_sheet_of_a_spec_goes_beside_it(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["survey", "rooms/one.tilespec", "--to", "md"]) is Status.FINE
    assert {p.name for p in (job / "rooms").iterdir()} == {"one.tilespec", "one-survey.md"}
    assert capsys.readouterr().err.endswith("wrote rooms/one-survey.md\n")


def test_to_standard_output(job: Path, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert run(["survey", "rooms/one.tilespec", "--to", "md", "-o", "-"]) is Status.FINE
    told = capfdbinary.readouterr()
    assert b"# Survey sheet" in told.out and b"wrote" not in told.err


def test_a_spec_with_errors_prints_nothing(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (job / "faulty.tilespec").write_text("floor 2,4 x 1.8\n", encoding="utf-8")
    assert run(["survey", "faulty.tilespec", "--to", "md"]) is Status.SPEC
    assert capsys.readouterr().err.endswith(": nothing was printed\n")
    assert not (job / "faulty-survey.md").exists()


def test_the_spec_is_never_replaced(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["survey", "rooms/one.tilespec", "--to", "md", "-o", "rooms/one.tilespec"]) is Status.USAGE
    assert "would replace the spec" in capsys.readouterr().err
    assert (job / "rooms" / "one.tilespec").read_text(encoding="utf-8") == ONE_LINE


def test_a_spec_says_its_own_practice(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["survey", "rooms/one.tilespec", "--practice", "UK"]) is Status.USAGE
    assert "the spec says its practice" in capsys.readouterr().err


def test_a_firm_s_own_words(job: Path) -> None:
    (job / "ours" / "survey").mkdir(parents=True)
    (job / "ours" / "survey" / "blank.md.j2").write_text("# Ours, {{ sheet.family_name }}\n", encoding="utf-8")
    assert run(["survey", "--to", "md", "-o", "x.md", "--wording", "ours"]) is Status.FINE
    assert (job / "x.md").read_text(encoding="utf-8").startswith("# Ours, European standards\n")
    (job / "ours" / "survey" / "blank.md.j2").write_text("{{ sheet.nothing }}\n", encoding="utf-8")
    assert run(["survey", "--to", "md", "-o", "x.md", "--wording", "ours"]) is Status.ENVIRONMENT
