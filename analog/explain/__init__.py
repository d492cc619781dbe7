"""Explanation: what a ranking claims, shown: verdict by transition, correspondences, carry-overs, cautions."""
