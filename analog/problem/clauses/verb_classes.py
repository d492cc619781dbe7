"""Verbs that share a shape: what may stand after them and what it then means."""

from __future__ import annotations

from analog.problem.tables import word_class

PREVENTERS = word_class("preventers")
"""prevent X, stop X from V-ing"""
PROTECTORS = word_class("protectors")
"""protect Y from X"""
REPELLERS = word_class("repellers")
"""resist X, keep out X"""
RIDDERS = word_class("ridders")
"""rid Y of X"""
PULLERS = word_class("pullers")
"""pull X off Y: with such a place, X is separated"""
CAUSERS = word_class("causers")
"""make X V, let X V"""
STAYERS = frozenset({"stay", "remain", "keep"})
"""stay dry"""
RIDDING_PHRASES = frozenset({"get rid of", "rid of", "do away with", "dispose of"})
"""get rid of X"""
PHRASAL = word_class("phrasal")
"""Verbs that mean something else with their particle."""
