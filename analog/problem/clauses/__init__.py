"""From the words of one clause to what it asks for: verb, object, place, and whether something is to be kept away.

Shapes, not grammar: "keep X off Y", "stop X V-ing", "protect Y from X", "clean Y (of X)", "Y must V X",
"output drops as X builds up on Y". One shape a file, each a function over the `Wording` of the clause that fills in its
`Clause`. What each everyday verb may mean comes from the vocabulary; which complaints imply which purpose is data
(data/symptoms.tsv, data/states.tsv).
"""

from analog.problem.clauses.clause import Clause
from analog.problem.clauses.leads import strip_leads
from analog.problem.clauses.read_clause import read_clause
from analog.problem.clauses.split import split_clauses
from analog.problem.clauses.style import style_of

__all__ = ["Clause", "read_clause", "split_clauses", "strip_leads", "style_of"]
