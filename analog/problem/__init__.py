"""Problems: an engineer's sentence, conditions or file, read into the same shape as a model."""

from analog.problem.types import Condition, Problem, ProblemPurpose, Thing

__all__ = ["Condition", "Problem", "ProblemPurpose", "Thing"]
