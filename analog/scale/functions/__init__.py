"""Small functions behind the principles, one file a field of physics.

Each takes floats in SI units (angles in radians) and returns a float in SI units; its docstring gives units, regime and
source. Where a kept library has the computation it is called; the rest is written by hand.
"""
