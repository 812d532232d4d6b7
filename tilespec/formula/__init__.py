"""The physics behind the rules: small functions from traced quantities to traced quantities.

    dew        dew point of air, and the least temperature of a surface in it
    warmth     what a heated floor gives, and how warm it becomes
    movement   how far tiling moves with warmth, how wide a joint that takes it up is, how deep its sealant
    maturity   how cement hardens in the cold
    drying     how long a screed takes to dry

Constants are values of the practice, so that a print shows them with their sources. Nothing here knows a job.
"""
