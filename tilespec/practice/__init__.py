"""Practice families: limits and planning values as data, each with its source.

    practice = lookup.practice("EN")          # also DE, UK, US, AU
    practice.limit("joint-min-floor")           # a Quantity whose why is a Limit
    practice.find("joint-min-floor")            # the same, or None when no family has it

The data are in `tilespec/practice/data/*.toml and common/*.toml`, one readable file a family; a family inherits from another.
"""
