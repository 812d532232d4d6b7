"""Building the twelve parts of the document, one file a part or two. `view` turns the stages' values into printable ones."""
