"""The physics behind the rules: small functions from traced quantities to traced quantities.

    movement   how far tiling moves with warmth, how wide a joint that takes it up is, how deep its sealant

Constants are values of the practice, so that a print shows them with their sources. Nothing here knows a job.
"""
