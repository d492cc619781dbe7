"""Principles that compute: governing relations, dimensionless groups, regimes, and the scale check."""
