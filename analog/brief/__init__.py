"""The transfer brief: one content record, several views."""
