"""Ranking: one function a term, one score whose every term is shown."""
