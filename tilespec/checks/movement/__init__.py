"""Movement joints and sealants."""

from __future__ import annotations

from tilespec.checks.movement import (
    acetoxy_at_mirror,
    acetoxy_sealant_at_stone,
    corner_without_sealant,
    drying_sealant_in_wet_joint,
    heated_bay_too_large,
    heated_bay_too_long,
    joint_narrower_than_structural_joint,
    joint_too_narrow_for_its_movement,
    joint_without_backer,
    movement_joint_missing_on_floor,
    movement_joint_missing_on_wall,
    movement_joint_too_narrow,
    perimeter_joint_on_heated_floor,
    perimeter_joint_too_narrow,
    sealant_class_low_over_structural_joint,
    sealant_too_deep,
    sealant_too_shallow,
    sealant_without_mould_class_in_shower,
    structural_joint_covered,
    sunlit_floor_without_joint,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    movement_joint_missing_on_floor.RULE,
    movement_joint_missing_on_wall.RULE,
    heated_bay_too_large.RULE,
    sunlit_floor_without_joint.RULE,
    heated_bay_too_long.RULE,
    structural_joint_covered.RULE,
    joint_narrower_than_structural_joint.RULE,
    movement_joint_too_narrow.RULE,
    perimeter_joint_too_narrow.RULE,
    perimeter_joint_on_heated_floor.RULE,
    joint_too_narrow_for_its_movement.RULE,
    sealant_class_low_over_structural_joint.RULE,
    sealant_too_deep.RULE,
    sealant_too_shallow.RULE,
    sealant_without_mould_class_in_shower.RULE,
    drying_sealant_in_wet_joint.RULE,
    acetoxy_sealant_at_stone.RULE,
    acetoxy_at_mirror.RULE,
    corner_without_sealant.RULE,
    joint_without_backer.RULE,
)
