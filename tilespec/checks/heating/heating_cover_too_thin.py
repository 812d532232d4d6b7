"""Heating cables lie fully embedded: a wire that touches the tile or an air void gets too hot there, is dented by the next
heel, and draws its pattern through thin tiles. Makers ask for about 5 to 10 mm of mortar or levelling compound over it (common
practice, from memory; the maker's value governs).

Make the layers above the `mat` or `heating` layer of the build-up thick enough, for example `bed 6`. Where the build-up has
neither, a mat lies in the bed itself and a cable in the leveller below it: then these are judged. Where the maker's
instructions allow less, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import electric
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Surface
from tilespec.quantity import Quantity, work

# Neither protects a cable.
NO_COVER = ("tile", "primer", "membrane")
# What heating lies in where its own layer is not said.
EMBEDS = ("bed", "leveller", "screed")


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("heating-cover-min")
    for room in context.job.rooms:
        floor, layers = room.floor, room.levels.build_up
        at = next((n for n, (name, _) in enumerate(layers) if name in ("mat", "heating")), None)
        heating = electric(room)
        if heating is None or floor is None:
            continue
        if at is None:
            if any(name == "uncoupling" for name, _ in layers):
                continue  # its studs may hold the wires
            within = _sum(tuple(q for name, q in layers if name in EMBEDS), "layers that the heating lies in")
            if within is not None and within.value < least.value:
                yield _bedded(context, floor, heating.kind, within, least)
            continue
        cover = _sum(tuple(q for name, q in layers[at + 1 :] if name not in NO_COVER), "layers over the heating")
        if cover is not None and cover.value >= least.value:
            continue
        over = f"only {both(cover)}" if cover is not None else "nothing but the tile"
        yield RULE.at(
            (floor.id,),
            context.span(said_at(cover), said_at(layers[at][1]), floor.span),
            f"In the build-up of {context.name(floor)} {over} lies over the heating; {both(least)} is usual.",
            label="thin cover",
            help=f"Make what lies over it {both(least)} or more, for example `build-up {layers[at][0]} "
            f"{both(layers[at][1]).removesuffix(' mm')}, bed 6`.",
            notes=(cited(least),),
        )


def _sum(layers: tuple[Quantity, ...], source: str) -> Quantity | None:
    found: Quantity | None = None
    for q in layers:
        found = q if found is None else work("below + layer", "mm", source=source, below=found, layer=q)
    return found


def _bedded(context: Context, floor: Surface, kind: str, within: Quantity, least: Quantity) -> Finding:
    what, wires, layer = ("mat", "its wires", "bed") if kind == "mat" else ("cable", "it", "leveller and bed")
    return RULE.at(
        (floor.id,),
        context.span(said_at(within), floor.span),
        f"The {what} in {context.name(floor)} lies in {both(within)} of {layer}: {both(least)} over {wires} at least is usual.",
        label="thin cover",
        help="Write the mat and the bed over it, for example `build-up mat 3, bed 6`."
        if kind == "mat" else "Make it thicker, for example `build-up leveller 10, bed 4`.",
        notes=(cited(least),),
    )


RULE = Rule(
    "T2626",
    "heating-cover-too-thin",
    Severity.WARNING,
    "Heating with too little over it",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  build-up mat 3, bed 3
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    good="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  build-up mat 3, bed 6
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    limits=("heating-cover-min",),
)
