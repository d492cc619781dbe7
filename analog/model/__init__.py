"""The model format: typed records, quantities, loading, checking and the published schema."""
