"""Reading a problem: from a sentence or a problem file to the same kind of record as a model."""
