"""What is wrong with steps that the spec puts where they cannot stand, said to its writer."""

from __future__ import annotations

from tilespec.diagnostics.catalogue import problem
from tilespec.diagnostics.model import Diagnostic, Edit, Fix
from tilespec.job.types import Job
from tilespec.sequence.stages import OFFERED
from tilespec.sequence.trades import misnamed
from tilespec.sequence.types import Sequence, StepFault


def diagnostics(sequence: Sequence) -> tuple[Diagnostic, ...]:
    """One diagnostic for each fault, in the order of the steps."""
    return tuple(_circle(f) if f.kind == "cycle" else _unknown(f) for f in sequence.faults)


def of_steps(job: Job) -> tuple[Diagnostic, ...]:
    """What the steps alone show: of a job that cannot be put in order yet."""
    return tuple(_unknown(f) for f in misnamed(job.steps))


def _circle(fault: StepFault) -> Diagnostic:
    chain = ", then ".join(fault.chain)
    return problem(
        "step-circle", fault.words.span,
        f'"{fault.step.text}" would have to come after itself.',
        label="this puts it into a circle",
        help="Put it after an earlier stage or before a later one.",
        notes=(f"The circle: {chain}.",),
    )


def _unknown(fault: StepFault) -> Diagnostic:
    message = f"No stage of the work is called `{fault.words.text}`."
    if fault.nearest is not None:
        fix = Fix(f"write {fault.nearest}", (Edit(fault.words.span, fault.nearest),))
        return problem("unknown-stage", fault.words.span, message, help=f"Did you mean `{fault.nearest}`?", fixes=(fix,))
    return problem("unknown-stage", fault.words.span, message, help="It can be: " + ", ".join(OFFERED) + ".")
