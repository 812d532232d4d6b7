"""`tilespec set-out`: what it writes and says."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ElementTree
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from tilespec import pipeline
from tilespec.cli.door import run
from tilespec.cli.status import Status
from tilespec.document.drawing.lettering import width
from tilespec.workspace.host import DiskHost

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ("one-line", "shower-room", "flat", "us-bathroom")
SCHEMA = json.loads((files("tilespec") / "document" / "schema" / "set-out.schema.json").read_text(encoding="utf-8"))
ONE_LINE = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "one.tilespec").write_text(ONE_LINE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_tables_and_drawings(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["set-out", "one.tilespec"]) is Status.FINE
    told = capsys.readouterr()
    # 2380 x 1780 mm of tile plane under heating joints of 10 mm, tiles 300 x 600: four rows of the cut list.
    assert "Room, floor" in told.out and "Which pieces come from which tiles" in told.out
    drawn = sorted((job / "one-set-out").iterdir())
    assert len(drawn) >= 3 and all(f"wrote one-set-out/{p.name}" in told.err for p in drawn)
    for p in drawn:
        assert p.stat().st_size < 200_000
        assert ElementTree.parse(p).getroot().tag.endswith("svg")


def test_elsewhere_or_not_at_all(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["set-out", "one.tilespec", "-o", "drawn"]) is Status.FINE
    assert list((job / "drawn").iterdir())
    assert run(["set-out", "one.tilespec", "--no-drawings"]) is Status.FINE
    assert not (job / "one-set-out").exists()
    (job / "blocked").write_text("")
    assert run(["set-out", "one.tilespec", "-o", "blocked/x"]) is Status.ENVIRONMENT
    assert "cannot be made" in capsys.readouterr().err


def test_errors_set_nothing_out(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (job / "faulty.tilespec").write_text("floor 2,4 x 1.8\n" + ONE_LINE, encoding="utf-8")
    assert run(["set-out", "faulty.tilespec"]) is Status.SPEC
    told = capsys.readouterr()
    assert told.out == "" and "nothing was set out" in told.err
    assert run(["set-out", "faulty.tilespec", "--json"]) is Status.SPEC
    assert json.loads(capsys.readouterr().out)["errors"] >= 1
    (job / "stock.tilespec").write_text("tile white 300x300x8 ceramic\n", encoding="utf-8")
    assert run(["set-out", "stock.tilespec"]) is Status.USAGE
    assert run(["set-out", "one.tilespec", "one.tilespec", "--json"]) is Status.USAGE


@pytest.mark.parametrize("name", EXAMPLES)
def test_json_carries_every_piece(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    path = str(ROOT / "examples" / f"{name}.tilespec")
    assert run(["set-out", path, "--json"]) is Status.FINE
    form = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator(SCHEMA).validate(form)
    plan = pipeline.compile(path, DiskHost()).plan
    assert plan is not None
    layouts = [x for f in form["faces"] for x in f["layouts"]]
    assert len(layouts) == len(plan.setout.layouts)
    full = sum(len(x["full"]) for x in layouts)
    cut = sum(len(x["cut"]) for x in layouts)
    assert full == sum(r.count for x in plan.setout.layouts for r in x.runs)
    assert cut == sum(len(x.pieces) for x in plan.setout.layouts) == sum(r["count"] for x in layouts for r in x["cut_list"])
    for x in layouts:
        # Shoelace over what is told gives the tile area back (m2).
        area = sum(_area(p["tile"]) for p in x["full"])
        area += sum(_area(p["outline"]) - sum(_area(i) for i in p["inside"]) for p in x["cut"])
        assert area / 1e6 == pytest.approx(x["tile_area"], abs=1e-6)
        assert x["tile_area"] < x["area"] + 1e-9


def _area(ring: list[list[float]]) -> float:
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]]))) / 2


def test_the_plan_uses_every_cut_piece_once(capsys: pytest.CaptureFixture[str]) -> None:
    for name in EXAMPLES:
        assert run(["set-out", str(ROOT / "examples" / f"{name}.tilespec"), "--json"]) is Status.FINE
        form = json.loads(capsys.readouterr().out)
        wanted: dict[tuple[str, int], int] = {}
        for f in form["faces"]:
            for x in f["layouts"]:
                for r in x["cut_list"]:
                    wanted[f["surface"], r["number"]] = r["count"]
        given: dict[tuple[str, int], int] = {}
        for p in form["plans"]:
            assert p["bound"] <= p["cut"] <= p["first_fit"] and p["cut"] == sum(c["tiles"] for c in p["cuttings"])
            for c in p["cuttings"]:
                for piece in c["pieces"]:
                    key = piece["surface"], piece["number"]
                    given[key] = given.get(key, 0) + c["tiles"] * piece["count"]
        assert given == wanted


def test_a_cut_along_a_fall_is_said_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    """From the drawing of the example: tiles of 300 round a drain in the middle of four planes of fall."""
    assert run(["set-out", str(ROOT / "examples" / "shower-room.tilespec"), "--no-drawings"]) is Status.FINE
    told = capsys.readouterr().out
    falls = "along the edge of the falls from"
    assert f"cut in two, both laid; {falls} the upper edge, 2 from the left, to the lower right corner\n" in told
    assert f"across; cut through, all parts laid, {falls} the left edge, 8.5 up, to the right edge, 288 up\n" in told
    assert "from the upper edge, 3 from the left, to 82.5 from the left and 220.5 up" in told and "fold" not in told


def test_lettering_takes_its_room_in_any_font(job: Path) -> None:
    """A file of its own is read with whatever font is there: a wide one made labels run into each other."""
    assert run(["set-out", "one.tilespec"]) is Status.FINE
    drawing = ElementTree.parse(next(p for p in (job / "one-set-out").iterdir() if "wall-a" in p.name))
    letterings = [t for t in drawing.iter("{http://www.w3.org/2000/svg}text") if t.get("font-weight") is None]
    assert len(letterings) > 20
    for t in letterings:
        size, length = (float(t.get(key, "0")) for key in ("font-size", "textLength"))
        assert t.text and length == pytest.approx(width(t.text, size), abs=0.01)
        assert t.get("lengthAdjust") == "spacingAndGlyphs"
