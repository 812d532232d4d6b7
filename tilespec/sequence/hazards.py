"""Which steps carry which hazards, and the hazards of the job with the limits their wording uses. Nothing switches one off."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tilespec.job.types import Product
from tilespec.quantity import Quantity
from tilespec.sequence import features
from tilespec.sequence.site import Site, adhesive_class, cement, membrane_class, resin_grout
from tilespec.sequence.types import Hazard, Operation

_CUTTING = ("wall-tiles", "floor-tiles", "bottom-course", "bath-front")
_MIXED_ON_SITE = ("form-falls", "lay-screed")
_HEATING_TESTS = ("heating-test-before", "heating-test-covered", "heating-test-after")
_ON_KNEES = (
    "floor-tiles", "bottom-course", "level-floor", "form-falls", "lay-screed", "lay-mat", "lay-cable", "mat-first-layer",
    "mat-second-layer", "membrane-details", "protect-membrane", "set-drain", "take-off-ledger", "bath-front",
)
_MEMBRANE = ("membrane-details", "membrane-first-coat", "membrane-second-coat", "membrane-further-coat")

_POWDERS = ("adhesive", "grout", "leveller", "membrane")
_SMELL = ("membrane", "sealant", "mirror-adhesive", "impregnator", "sealer")


def _powder(op: Operation) -> bool:
    return op.kind in _MIXED_ON_SITE or any(p.kind in _POWDERS and cement(p) for p in op.products)


def _floor(op: Operation) -> bool:
    return op.kind in _ON_KNEES or "floor" in op.facts


def _silica(op: Operation, site: Site) -> bool:
    if op.kind in ("strip-out", "prepare-base", "clear-joints", "fix-fittings", "sensor-tube", *_CUTTING):
        return True
    if op.kind in ("first-fix-plumbing", "first-fix-electrics") or (op.kind == "boards" and "base-cement-board" in op.facts):
        return True
    return _powder(op)


def _resin(p: Product) -> bool:
    if "epoxy" in p.flags or "resin" in p.flags:
        return True
    return (p.kind == "grout" and resin_grout(p)) or (p.kind == "adhesive" and adhesive_class(p)[0] == "R") \
        or (p.kind == "membrane" and membrane_class(p) == "RM")


def _vapours(op: Operation, site: Site) -> bool:
    return any("solvent" in p.flags or _resin(p) or p.kind in _SMELL for p in op.products)


def _lifting(op: Operation, site: Site) -> bool:
    return bool(op.loads) or op.kind in (
        "strip-out", "boards", "set-bath", "set-tray", "lay-screed", "form-falls", "level-floor", "wall-tiles", "floor-tiles",
        "fix-mirror", "mat-first-layer",
    )


def _electricity(op: Operation, site: Site) -> bool:
    return (op.kind == "isolate-services" and "power" in op.facts) or op.kind in (
        "first-fix-electrics", "sensor-tube", "second-fix-electrics", "strip-out", "lay-mat", "lay-cable", "wall-tiles",
        "floor-tiles", "bottom-course", *_HEATING_TESTS,
    )


def _heated(op: Operation, site: Site) -> bool:
    if op.kind in ("lay-mat", "lay-cable", "mat-first-layer", "mat-second-layer", "heat-screed", *_HEATING_TESTS):
        return True
    return (op.kind == "floor-tiles" and "heated" in op.facts) or (op.kind == "level-floor" and "cable" in op.facts) \
        or (op.kind == "second-fix-electrics" and "heating" in op.facts) \
        or (op.kind == "hand-over" and bool({"electric-heating", "heating-pipes"}.intersection(op.facts)))


def _slips(op: Operation, site: Site) -> bool:
    return op.kind in ("ponding-test", "wall-tiles", "floor-tiles", "bottom-course", "grout", "level-floor", "prime") or \
        (op.kind in _MEMBRANE and _floor(op))


def _noise(op: Operation, site: Site) -> bool:
    return op.kind in (
        "strip-out", "boards", "first-fix-plumbing", "first-fix-electrics", "sensor-tube", "fix-fittings", *_CUTTING,
    )


def _hidden(op: Operation, site: Site) -> bool:
    return op.kind in ("strip-out", "first-fix-plumbing", "first-fix-electrics", "sensor-tube", "boards", "fix-fittings")


def _fabric(kind: str) -> Callable[[Operation, Site], bool]:
    def carries(op: Operation, site: Site) -> bool:
        if not features.old_fabric(site.job, site.limit(f"{kind}-year")):
            return False
        return op.kind in (f"{kind}-hold", "strip-out") or (op.kind == "prepare-base" and "existing" in op.facts)
    return carries


def _height(op: Operation, site: Site) -> bool:
    if op.kind != "wall-tiles" and not (op.kind in _MEMBRANE and "walls" in op.facts):
        return False
    reach = site.limit("reach-height").value
    walls = [s for s in site.job.surfaces if s.id in op.places and s.kind == "wall"]
    return any((s.tiled_height or s.height).value > reach for s in walls)


def _alone(op: Operation, site: Site) -> bool:
    if site.persons().value > 1:
        return False
    return _lifting(op, site) or _electricity(op, site) or _vapours(op, site)


# In the order in which they are printed; each is said once and marked at its steps.
_RULES: tuple[tuple[str, Callable[[Operation, Site], bool]], ...] = (
    ("silica", _silica),
    ("cement", lambda op, site: _powder(op)),
    ("resin", lambda op, site: any(_resin(p) for p in op.products)),
    ("isocyanate", lambda op, site: any("polyurethane" in p.flags for p in op.products)),
    ("vapours", _vapours),
    ("asbestos", _fabric("asbestos")),
    ("lead", _fabric("lead")),
    ("electricity", _electricity),
    ("heated-floor", _heated),
    ("hidden-services", _hidden),
    ("lifting", _lifting),
    ("kneeling", lambda op, site: _floor(op) and op.kind not in ("protect-finished", "set-out", "recheck-membrane")),
    ("noise", _noise),
    ("sharp-edges", lambda op, site: op.kind in ("strip-out", "fix-mirror", *_CUTTING)),
    ("slips", _slips),
    ("height", _height),
    ("wash-out", lambda op, site: _powder(op) or any(_resin(p) for p in op.products)),
    ("still-water", lambda op, site: op.kind == "leak-test" or (op.kind == "isolate-services" and "water" in op.facts)
        or (op.kind == "hand-over" and "plumbing" in op.facts)),
    ("lone-work", _alone),
    ("others-about", lambda op, site: bool(site.job.occupied)
        and op.kind in ("strip-out", "floor-tiles", "protect-membrane", *_MEMBRANE)),
)

KEYS = tuple(key for key, _ in _RULES)

# What alone may be done by a licensed trade.
_LICENSED = {
    "asbestos": "licensed asbestos contractor", "lead": "certified lead contractor", "electricity": "licensed electrician",
    "heated-floor": "licensed electrician", "still-water": "licensed plumber",
}

_VALUES: dict[str, tuple[tuple[str, str], ...]] = {
    "silica": (
        ("limit", "silica-limit"), ("action", "silica-action"), ("respirator", "respirator-factor"),
        ("filter", "hepa-efficiency"),
    ),
    "cement": (("eye-rinse", "eye-rinse"),),
    "resin": (("eye-rinse", "eye-rinse"),),
    "isocyanate": (("training", "isocyanate-training"), ("eye-rinse", "eye-rinse")),
    "vapours": (("eye-rinse", "eye-rinse"),),
    "asbestos": (("year", "asbestos-year"),),
    "lead": (("year", "lead-year"),),
    "electricity": (("rcd", "rcd-max"),),
    "heated-floor": (("rcd", "rcd-max"), ("insulation", "insulation-resistance-min")),
    "lifting": (("aim", "lift-index-aim"), ("team", "lift-team-two"), ("long-tile", "lift-large-tile-edge")),
    "kneeling": (("change", "knee-break"),),
    "noise": (
        ("offered", "noise-lower"), ("worn", "noise-upper"), ("never", "noise-limit"), ("vibration", "vibration-action"),
    ),
    "height": (("reach", "reach-height"),),
    "still-water": (("cold", "flush-cold-max"), ("hot", "flush-hot-min")),
    "lone-work": (("call", "lone-call"),),
}


def attach(operations: tuple[Operation, ...], site: Site) -> tuple[Operation, ...]:
    """The operations with the keys of their hazards."""
    return tuple(replace(op, hazards=tuple(key for key, carries in _RULES if carries(op, site))) for op in operations)


def listed(operations: tuple[Operation, ...], site: Site) -> tuple[Hazard, ...]:
    """Each hazard of the job once, with the operations that carry it."""
    result = []
    for key in KEYS:
        carriers = tuple(op.id for op in operations if key in op.hazards)
        if carriers:
            result.append(Hazard(key, carriers, _values(key, site), _LICENSED.get(key, "")))
    return tuple(result)


def _values(key: str, site: Site) -> tuple[tuple[str, Quantity], ...]:
    found: list[tuple[str, Quantity]] = []
    for name, limit in _VALUES.get(key, ()):
        q = site.practice.find(limit)
        if q is not None:
            found.append((name, q))
    if key in ("asbestos", "lead") and site.job.built is not None:
        found.append(("built", site.job.built))
    return tuple(found)
