"""Set-out drawings as SVG, to scale in millimetres: plan and key plan of a room, elevation of a wall, set-out of a floor."""

from tilespec.document.drawing.elevation import elevation
from tilespec.document.drawing.plan import key_plan, plan
from tilespec.document.drawing.types import Drawing, Show

__all__ = ["Drawing", "Show", "elevation", "key_plan", "plan"]
