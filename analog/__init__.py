"""Find natural systems that already do what an engineer needs, and say step by step what carries over."""

__version__ = "0.1.0"
