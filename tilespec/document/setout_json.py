"""The set-out as JSON: every piece. The schema is `schema/set-out.schema.json`; within one major `format_version` fields are only
added. All lengths are millimetres; coordinates are the surface's own (walls: y up from the finished floor; floors: plan, y down).
"""

from __future__ import annotations

import json
from collections.abc import Sequence

from tilespec.document.json_form import Json, number
from tilespec.job.types import Job
from tilespec.quantity import Quantity
from tilespec.setout.types import Begin, Candidate, Face, Layout, OffcutPlan, Ring, Row, SetOut, Way

FORMAT_VERSION = "1.0"


def render(job: Job, setout: SetOut, plans: Sequence[OffcutPlan]) -> str:
    """JSON text, with a line break at its end."""
    form: dict[str, Json] = {
        "format": "tilespec-set-out",
        "format_version": FORMAT_VERSION,
        "unit": "mm",
        "measured_to": job.measured_to,
        "faces": [_face(f, [x for x in setout.layouts if x.face == f.id]) for f in setout.faces],
        "alignments": [
            {"kind": a.kind, "first": a.first, "second": a.second, "off": _mm(a.off), "asked": a.asked} for a in setout.alignments
        ],
        "falls": [
            {
                "room": f.room, "area": _ring(f.area),
                "planes": [{"side": p.side, "run": _mm(p.run), "fall": number(p.fall.value)} for p in f.planes],
                "heights": [{"place": h.name, "x": number(h.x * 1000), "y": number(h.y * 1000), "height": _mm(h.height)}
                            for h in f.heights],
                "folds": [_ring(line) for line in f.lines],
                "threshold_bed": _mm(f.threshold_bed) if f.threshold_bed is not None else None,
            }
            for f in setout.falls
        ],
        "plans": [_plan(p) for p in plans],
    }
    return json.dumps(form, ensure_ascii=False, separators=(",", ":")) + "\n"


def _mm(q: Quantity) -> int | float:
    return number(q.mm)


def _ring(ring: Ring) -> Json:
    return [[number(x * 1000), number(y * 1000)] for x, y in ring]


def _face(f: Face, layouts: Sequence[Layout]) -> Json:
    return {
        "id": f.id, "surface": f.surface, "kind": f.kind, "side": f.side, "outline": _ring(f.outline),
        "holes": [_ring(h) for h in f.holes], "set_back": {side: _mm(q) for side, q in f.set_back},
        "layouts": [_layout(x) for x in layouts],
    }


def _layout(x: Layout) -> Json:
    full: list[Json] = [{"tile": _ring(tile)} for run in x.runs for tile in run.tiles()]
    cut: list[Json] = [
        {
            "number": p.number, "tile": _ring(p.tile), "outline": _ring(p.shape.outer),
            "inside": [_ring(r) for r in p.shape.inner],
            "holes": [{"kind": h.kind, "name": h.name, "x": number(h.x * 1000), "y": number(h.y * 1000),
                       "diameter": number(h.diameter * 1000)} for h in p.holes],
            "folds": [_ring(line) for line in p.folds],
        }
        for p in x.pieces
    ]
    return {
        "role": x.role, "tile": x.tile.name, "width": _mm(x.width), "height": _mm(x.height), "joint": _mm(x.joint),
        "pattern": x.covering.pattern.name, "area": number(x.area.value), "tile_area": number(x.tile_area),
        "start": _begin(x.begin), "full": full, "cut": cut, "cut_list": [_row(r) for r in x.rows],
    }


def _begin(b: Begin) -> Json:
    return {
        "across": _mm(b.across), "up": _mm(b.up), "first": _ring(b.first), "words": [_way(w) for w in b.words],
        "found": list(b.found), "chosen": _candidate(b.chosen), "runner_up": _candidate(b.runner_up),
    }


def _way(w: Way) -> Json:
    return {"words": w.words, "measure": _mm(w.cut) if w.cut is not None else None, "of": w.lead if w.cut is not None else None}


def _candidate(c: Candidate | None) -> Json:
    if c is None:
        return None
    return {
        "words": [_way(w) for w in c.words], "across": number(c.across * 1000), "up": number(c.up * 1000),
        "score": [{"criterion": k.name, "value": number(k.value.number)} for k in c.score],
    }


def _row(r: Row) -> Json:
    return {
        "number": r.number, "kind": r.kind, "count": number(r.count.value), "width": _mm(r.width), "height": _mm(r.height),
        "sides": list(r.sides), "outline": _ring(r.outline.outer), "ends": [_mm(q) for q in r.ends],
        "cut_outs": [{"at": at, "width": _mm(w), "height": _mm(h)} for at, w, h in r.notches],
        "holes": [{"name": name, "x": _mm(x), "y": _mm(y), "diameter": _mm(d)} for name, x, y, d in r.holes],
        "folds": [[_mm(q) for q in f] for f in r.folds],
        "thin": r.thin,
        "chips": [{"direction": name, "whole": number(n.value), "rest": _mm(rest)} for name, n, rest in r.chips],
    }


def _plan(p: OffcutPlan) -> Json:
    return {
        "tile": p.tile.name, "whole": number(p.whole.value), "cut": number(p.cut.value), "bound": number(p.bound.value),
        "first_fit": number(p.first_fit.value), "proven": p.proven, "kerf": _mm(p.kerf),
        "cuttings": [
            {
                "tiles": c.tiles,
                "pieces": [{"surface": s, "number": n, "count": k} for s, n, k in c.pieces],
                "boxes": [{"surface": s, "number": n, "left": number(a * 1000), "low": number(b * 1000),
                           "width": number(w * 1000), "height": number(h * 1000)} for s, n, a, b, w, h in c.boxes],
            }
            for c in p.cuttings
        ],
    }
