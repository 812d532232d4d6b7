"""Practice families: limits and planning values as data, each with its source.

    practice = families.practice("EN")          # also DE, UK, US, AU
    practice.limit("joint-floor-min")           # a Quantity whose why is a Limit
    practice.find("joint-floor-min")            # the same, or None when no family has it
    practice.reading_limit / .steps ...         # see `families.Practice`

The data are in `tilespec/practice/families/*.toml`, one readable file a family; a family inherits from another.
"""
