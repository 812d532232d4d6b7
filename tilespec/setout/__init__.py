"""From the job to tiles: the tile plane of every surface, every piece on it, every cut."""
