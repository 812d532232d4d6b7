"""Trees to the typed job, with defaults applied and marked."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tilespec.job.kept import Kept
    from tilespec.job.types import Job
    from tilespec.outcome import Outcome
    from tilespec.syntax.nodes import Tree
    from tilespec.workspace.load import Workspace


@lru_cache(maxsize=1)
def _generic() -> Tree:
    from tilespec.resources import data_text
    from tilespec.source import Source
    from tilespec.syntax.parse import parse

    return parse(Source("generic stock", data_text("templates/stock/generic.tilespec"))).value


def build(workspace: Workspace, kept: Kept | None = None) -> Outcome[Job]:
    """The job of a loaded spec and its stock files; generic products stand in for what is not declared.

    kept  lends the parts of the job as it was before an edit; what only the finished job is asked is then not asked
    """
    from tilespec.job.assemble import assemble

    return assemble(workspace.trees, _generic(), kept)
