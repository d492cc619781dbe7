"""The index: a folder of plain arrays, built from a corpus and searched through memory maps."""
