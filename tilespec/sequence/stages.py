"""The coarse stages of the work, in order, and the words that a spec's `step ... after WORDS` may use for them."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.diagnostics.suggest import nearest

# In working order. A room's operations never go back to an earlier stage; only steps written in the spec may move in between.
STAGES: tuple[str, ...] = (
    "survey",
    "isolation",
    "old-materials",
    "strip-out",
    "first-fix",
    "boards",
    "setting",
    "base",
    "substrate",
    "priming",
    "membrane",
    "set-out",
    "wall-tiling",
    "heating",
    "floor-tiling",
    "bottom-course",
    "grouting",
    "sealing",
    "fixing",
    "impregnating",
    "protection",
    "second-fix",
    "inspection",
    "hand-over",
)

_INDEX = {stage: i for i, stage in enumerate(STAGES)}


def index(stage: str) -> int:
    """Place of a stage in the order. KeyError for an unknown one: a bug in tilespec."""
    return _INDEX[stage]


@dataclass(frozen=True, slots=True)
class StageWord:
    """A word of the spec: `before` it means before its first stage, `after` it means after its last."""

    word: str
    first: str
    last: str


def _w(word: str, first: str, last: str = "") -> StageWord:
    return StageWord(word, first, last or first)


# The first word of each meaning is the one that messages offer.
WORDS: tuple[StageWord, ...] = (
    _w("survey", "survey"),
    _w("isolation", "isolation"), _w("isolating", "isolation"), _w("isolating services", "isolation"),
    _w("strip out", "old-materials", "strip-out"), _w("stripping out", "old-materials", "strip-out"),
    _w("first fix", "first-fix"), _w("pressure test", "first-fix"),
    _w("boards", "boards"), _w("boarding", "boards"),
    _w("setting", "setting"), _w("drain", "setting"), _w("bath", "setting"), _w("tray", "setting"),
    _w("levelling", "base"), _w("screed", "base"), _w("falls", "base"), _w("leveller", "base"),
    _w("substrate", "substrate"), _w("base", "base", "substrate"),
    _w("priming", "priming"), _w("primer", "priming"),
    _w("membrane", "membrane"), _w("waterproofing", "membrane"), _w("tanking", "membrane"),
    _w("set out", "set-out"), _w("setting out", "set-out"),
    _w("tiling", "wall-tiling", "bottom-course"), _w("tiles", "wall-tiling", "bottom-course"),
    _w("wall tiling", "wall-tiling"), _w("wall tiles", "wall-tiling"), _w("walls", "wall-tiling"),
    _w("heating", "heating"),
    _w("floor tiling", "floor-tiling"), _w("floor tiles", "floor-tiling"), _w("floor", "floor-tiling"),
    _w("bottom course", "bottom-course"),
    _w("grouting", "grouting"), _w("grout", "grouting"),
    _w("sealing", "sealing"), _w("sealant", "sealing"),
    _w("mirror", "fixing"), _w("fixing", "fixing"),
    _w("impregnating", "impregnating"),
    _w("protection", "protection"),
    _w("second fix", "second-fix"), _w("leak test", "second-fix"), _w("fittings", "second-fix"),
    _w("inspection", "inspection"), _w("final inspection", "inspection"),
    _w("hand over", "hand-over"), _w("handover", "hand-over"),
)

_BY_WORD = {w.word: w for w in WORDS}

# One word for each meaning, for messages.
OFFERED: tuple[str, ...] = tuple(dict.fromkeys(
    next(w.word for w in WORDS if (w.first, w.last) == (first, last)) for first, last in ((w.first, w.last) for w in WORDS)
))


def _plain(text: str) -> str:
    return " ".join(text.casefold().replace("-", " ").replace("_", " ").split())


def find(text: str) -> StageWord | None:
    """The stages that a spec's words mean, or None. Capitals and hyphens do not count."""
    return _BY_WORD.get(_plain(text))


# What the work is called on site, and what it is called here.
_SITE = {"silicone": "sealing", "siliconing": "sealing", "caulking": "sealing", "pointing": "grouting"}


def offer(text: str) -> str | None:
    """The word for what is known by another name, or the nearest to one that is not known, or None."""
    return _SITE.get(_plain(text)) or nearest(text, [w.word for w in WORDS])
