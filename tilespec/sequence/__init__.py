"""Job -> operations with predecessors, waits, hold points and hazards. One operation family, one file.

Never a step that does not apply, never one missing: each family looks at what the room holds and nothing else.
"""

from __future__ import annotations

from tilespec.diagnostics.model import Diagnostic
from tilespec.job.types import Job
from tilespec.practice.lookup import Practice
from tilespec.sequence.types import Sequence
from tilespec.takeoff.types import TakeOff

__all__ = ["Sequence", "misnamed", "problems", "sequence"]


def problems(steps: Sequence) -> tuple[Diagnostic, ...]:
    """What is wrong with steps of other trades that the spec puts where they cannot stand."""
    from tilespec.sequence.faults import diagnostics

    return diagnostics(steps)


def misnamed(job: Job) -> tuple[Diagnostic, ...]:
    """The steps of a job that is not sound which name no stage of the work: that can be said before all else is mended."""
    if not job.steps:
        return ()
    from tilespec.sequence.faults import of_steps

    return of_steps(job)


def sequence(job: Job, practice: Practice, takeoff: TakeOff) -> Sequence:
    """The whole work in order. Steps of the spec that cannot stand where they were put are in `faults`."""
    from tilespec.sequence import (
        exposure,
        features,
        first_fix,
        fittings,
        floor_tiles,
        grouting,
        handover,
        hazards,
        heating,
        lifting,
        priming,
        sealing,
        set_out,
        stages,
        substrate,
        survey,
        trades,
        wall_tiles,
        waste,
        waterproofing,
    )
    from tilespec.sequence.order import Key
    from tilespec.sequence.site import Chain, Site, merge
    from tilespec.sequence.types import Operation

    site = Site(job, practice, takeoff)
    families = (
        survey.strip_out, first_fix.first_fix, substrate.prepare, priming.prime, waterproofing.waterproof, set_out.set_out,
        wall_tiles.lay_walls, heating.mat_in_adhesive, floor_tiles.lay_floor, grouting.clear_joints, grouting.seal_porous,
        grouting.grout, sealing.seal, fittings.fix_mirrors, sealing.impregnate, fittings.protect, fittings.second_fix,
        handover.inspect,
    )
    start = Chain(site, None)
    survey.begin(start)
    chains = [start]
    for room in job.rooms:
        if not features.surfaces(room):
            continue
        chain = Chain(site, room, start.gate)
        for family in families:
            family(chain)
        chains.append(chain)
    end = Chain(site, None, merge(tuple(link for c in chains[1:] for link in c.gate)) or start.gate)
    handover.hand_over(end)
    chains.append(end)

    keys: dict[str, Key] = {}
    operations: list[Operation] = []
    for at, chain in enumerate(chains):
        for op in chain.operations:
            keys[op.id] = (stages.index(op.stage), at, len(operations))
            operations.append(op)
    placed = trades.place(tuple(operations), keys, site)
    loads = lifting.lifts(site)
    lifted = lifting.attach(exposure.attach(placed.operations, site), loads, site)
    ordered = hazards.attach(lifted, site)
    dust = exposure.exposure(ordered, site)
    return Sequence(ordered, hazards.listed(ordered, site), loads, placed.faults, dust, waste.waste(site))
