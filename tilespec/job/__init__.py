"""Trees to the typed job: `build.build(trees, generic) -> Outcome[Job]`."""
