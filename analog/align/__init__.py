"""Alignment: one-to-one correspondences between two systems of relations, solved to proven optimality."""
