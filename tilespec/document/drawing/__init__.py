"""Set-out drawings as SVG, to scale in millimetres.

Plan and key plan of a room, the room unfolded, set-out of a floor or a wall, and the small faces that lie outside its plane.
"""

from tilespec.document.drawing.added import added_faces
from tilespec.document.drawing.elevation import elevation
from tilespec.document.drawing.plan import key_plan, plan
from tilespec.document.drawing.svg import standing_alone
from tilespec.document.drawing.types import Drawing, Show
from tilespec.document.drawing.unfolded import unfolded

__all__ = ["Drawing", "Show", "added_faces", "elevation", "key_plan", "plan", "standing_alone", "unfolded"]
