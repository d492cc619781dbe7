"""From the content of a brief to its blocks: which part follows which, what each is called, and where it comes from.

Every section begins with a word on what it rests on, and none is left empty: where nothing is there, it says why.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from analog.brief.alternatives import TERM_NAMES
from analog.brief.content import BASES, UNKNOWN, Analogue, Bound, Brief, Experiment, Line, Option
from analog.brief.document import (
    Block,
    Box,
    Document,
    Heading,
    Listing,
    Paragraph,
    Picture,
    Run,
    Table,
    Text,
    cell,
    labelled,
    plain,
)
from analog.brief.draft import MOST_REGIMES
from analog.explain.sentences import counted_in_words as counted
from analog.explain.sentences import definite, joined, sentence

MARKS = {"carries over": "+", "carries over if": "?", "open": "o", "breaks": "x"}
"""A sign beside each verdict, for those who read without colour."""

NO_FIGURES = "Figures need matplotlib, which is not installed here: pip install 'analog[plot]' adds them."


def outline(brief: Brief, *, figures: bool = True) -> Document:
    """The brief as blocks. figures : whether there are figures to stand in it; else that is said once."""
    return Document(brief.title, tuple(_blocks(brief, figures)))


def _blocks(brief: Brief, figures: bool) -> Iterator[Block]:
    yield from _summary(brief)
    yield from _problem(brief)
    if not figures and brief.analogues:
        yield Paragraph(plain(NO_FIGURES), small=True)
    for number, analogue in enumerate(brief.analogues, start=1):
        yield from _analogue(analogue, number, len(brief.analogues))
    yield from _alternatives(brief)
    yield from _cautions(brief)
    yield from _made(brief)


# First pages ---------------------------------------------------------------------------------------------------


def _summary(brief: Brief) -> Iterator[Block]:
    summary = brief.summary
    yield Heading(2, "Summary", "summary")
    inner: list[Paragraph | Listing] = [
        Paragraph(labelled("Recommendation.", summary.recommendation)),
        Paragraph(labelled("How sure.", summary.confidence)),
    ]
    inner.append(Listing(tuple(plain(point.text) for point in summary.points)))
    yield Box("In short", tuple(inner))
    if len(brief.analogues) > 1:
        rows = []
        for analogue in brief.analogues:
            counts = {v: sum(s.on_course and s.verdict == v for s in analogue.steps) for v in MARKS}
            told = ", ".join(f"{number} {verdict}" for verdict, number in counts.items() if number)
            rows.append(
                (
                    cell(analogue.title),
                    cell(analogue.organism),
                    cell(told or "no course"),
                    cell(f"{round(100 * analogue.chance)} in 100"),
                )
            )
        head = ("Analogue", "Natural system", "Steps of its course", "Chance of being right")
        yield Table("The analogues of this brief", head, tuple(rows), (38, 20, 26, 16))
    if brief.analogues:
        yield from _coverage(brief)
        yield Paragraph(
            plain(
                "What the program concluded itself is marked as inferred. The natural systems are told from "
                "models whose sources are listed with each; no claim of this brief is a result of a test."
            ),
            small=True,
        )


def _coverage(brief: Brief) -> Iterator[Block]:
    if len(brief.coverage) < 2:
        return
    yield Heading(3, "Who covers what", "coverage")
    rows = [
        (
            cell(cover.purpose),
            cell(joined([f"“{title}”" for title in cover.by]) or "None of them: this change needs another idea."),
        )
        for cover in brief.coverage
    ]
    yield Table(
        "Changes that the problem asks for, and the analogues that serve them",
        ("Change", "Served by"),
        tuple(rows),
        (45, 55),
    )


def _problem(brief: Brief) -> Iterator[Block]:
    problem = brief.problem
    yield Heading(2, "The problem as read", "problem", page=bool(brief.analogues))
    yield Paragraph(labelled("As given.", sentence(problem.text)))
    share = round(100 * problem.confidence)
    yield Paragraph(labelled("As read.", f"{problem.reading} (Confidence in the function: {share} in 100.)"))
    if problem.others:
        yield Paragraph(plain(problem.others), small=True)
    before = " ".join(problem.before) or "Nothing was said about how things stand."
    after = " ".join(problem.after) or "Nothing more than the purpose itself was said."
    yield Paragraph(labelled("Before.", before))
    yield Paragraph(labelled("Wanted.", after))
    if problem.conditions:
        yield Table(
            "Conditions",
            ("As given", "As understood"),
            tuple((cell(c.text), cell(sentence(c.understood))) for c in problem.conditions),
            (45, 55),
        )
    else:
        yield Paragraph(plain("No conditions were given; what is assumed is said where it is used."))
    if problem.notes:
        yield Paragraph(plain("Notes on the reading:"), small=True)
        yield Listing(tuple(plain(note) for note in problem.notes))


# An analogue ---------------------------------------------------------------------------------------------------


def _analogue(a: Analogue, number: int, total: int) -> Iterator[Block]:
    prefix = f"Analogue {number}: " if total > 1 else "The analogue: "
    yield Heading(2, f"{prefix}{a.title}", a.id, page=number > 1)
    name: list[Run] = [Run(f"{a.organism[:1].upper()}{a.organism[1:]}")]
    if a.latin:
        name += [Run(" ("), Run(a.latin, "emphasis"), Run(")")]
    right = round(100 * a.chance)
    name.append(Run(f"; model {a.id}; score {a.score:.2f}, right in {right} of 100 graded cases."))
    yield Paragraph(tuple(name), small=True)
    yield Heading(3, "What the natural system does", f"{a.id}-does")
    yield Paragraph(plain(a.summary.text))
    yield Paragraph(labelled("Its purpose:", sentence(a.purpose)))
    yield Paragraph(labelled("Where:", a.place))
    yield Paragraph(labelled("Before:", sentence(a.before)))
    yield Paragraph(labelled("After:", sentence(a.after)))
    yield Picture(f"change {a.id}")
    yield from _pairings(a)
    yield from _steps(a)
    yield from _transfer(a)
    yield from _substitutions(a)
    yield from _breaks(a)
    yield from _scale(a)
    yield from _evidence(a)
    yield from _experiments(a)
    yield from _criteria(a)
    yield from _references(a)


def _pairings(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "What corresponds to what", f"{a.id}-corresponds")
    if not a.pairings:
        yield Paragraph(
            plain("Nothing in the problem corresponds to a part of this model; the likeness lies in the purpose alone.")
        )
        return
    yield Paragraph(
        plain("Inferred by aligning the problem with the model; similarity is a number from 0 to 1."), small=True
    )
    rows = tuple(
        (
            cell(p.problem),
            cell(p.nature),
            cell(p.meets_as or "only the same role", plain(sentence(p.path), "small") if p.path else ""),
            cell(f"{p.similarity:.2f}"),
        )
        for p in a.pairings
    )
    head = ("In the problem", "In the natural system", "Both are", "Similarity")
    yield Table("Correspondences", head, rows, (24, 26, 33, 17))
    yield Picture(f"alignment {a.id}")


def _steps(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "The course, step by step", f"{a.id}-steps")
    yield Paragraph(plain(a.outlook))
    if not a.steps:
        yield Paragraph(plain("The model tells no steps: it describes a standing structure."))
        return
    signs = joined([f"{sign} {verdict}" for verdict, sign in MARKS.items()])
    yield Paragraph(
        plain(f"Reasons in nature are those of the model; verdicts are inferred for this problem ({signs})."),
        small=True,
    )
    rows = []
    for number, step in enumerate(a.steps, start=1):
        off = plain("Beside the primary course.", "small") if not step.on_course else ""
        verdict = (Run(f"{MARKS[step.verdict]} {step.verdict}", "verdict"),)
        nature = [plain(why, "small") for why in step.why_in_nature]
        rows.append(
            (
                cell(
                    f"{number}. {sentence(step.text)}",
                    plain(f"Then: {step.leads_to[:1].lower()}{step.leads_to[1:]}.", "small"),
                    off,
                ),
                cell(*nature) or cell("The model gives no reason."),
                cell(verdict, *step.grounds),
            )
        )
    yield Table(
        "Steps with their reasons and verdicts",
        ("Step", "Why it works in nature", "Verdict here, and why"),
        tuple(rows),
        (28, 34, 38),
    )
    yield Picture(f"course {a.id}")


def _transfer(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "What carries over", f"{a.id}-carries")
    if a.carries_over:
        yield Paragraph(plain("These steps need nothing that the problem does not have (inferred):"))
        yield Listing(tuple(plain(sentence(text)) for text in a.carries_over))
    else:
        yield Paragraph(
            plain("No step carries over just as it is; each needs something added, or a value that is missing.")
        )


def _substitutions(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "What must be added or replaced", f"{a.id}-add")
    if not a.substitutions:
        yield Paragraph(plain("Nothing: every part and supply of the model has a counterpart in the problem."))
        return
    yield Paragraph(
        plain(
            "The natural system works with these, and the problem has no counterpart for them (inferred). Each option "
            "says who names it; usual means are starting points for thought, not proposals."
        ),
        small=True,
    )
    rows = []
    for row in a.substitutions:
        options = _options(row.options)
        note = plain(row.note, "small") if row.note else ""
        rows.append(
            (
                cell(plain(row.name, "strong"), plain(row.kind, "small")),
                cell(sentence(joined(row.role)) if row.role else ""),
                cell(*options, note),
            )
        )
    yield Table(
        "Substitution table", ("In nature", "What it does there", "Engineering options"), tuple(rows), (20, 34, 46)
    )


def _options(options: Sequence[Option]) -> list[Text]:
    """Options with where they come from, those of one origin in one line."""
    by_origin: dict[str, list[str]] = {}
    for option in options:
        origin = f"{option.origin}{'' if option.basis in BASES else ', ' + option.basis}"
        by_origin.setdefault(origin, []).append(option.text)
    return [(Run(f"{'; '.join(texts)} "), Run(f"({origin})", "small")) for origin, texts in by_origin.items()]


def _breaks(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "What breaks, and what would mend it", f"{a.id}-breaks")
    if not a.breaks:
        yield Paragraph(
            plain(
                "Nothing breaks under what is given. Steps marked open may still break once their missing "
                "values are known."
                if any(s.verdict == "open" for s in a.steps)
                else "Nothing breaks under what is given."
            )
        )
        return
    yield Table(
        "Broken steps (inferred)",
        ("Step", "What breaks it", "What would mend it"),
        tuple((cell(sentence(b.step)), cell(b.what), cell(b.mend)) for b in a.breaks),
        (26, 34, 40),
    )


def _scale(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "Scale check", f"{a.id}-scale")
    check = a.scale
    if check.note:
        yield Paragraph(plain(check.note))
    shown = [bound for bound in check.bounds if bound.says_something]
    if shown:
        yield Paragraph(
            plain(
                "Each bound is a number without unit, computed from nature's figures and from those of the problem; "
                "the source of the bound stands in brackets."
            ),
            small=True,
        )
        rows = tuple(
            (
                cell(b.principle, plain(f"{b.group} = {b.formula}", "small")),
                cell(b.nature),
                cell(b.problem),
                cell(b.must_be, plain(f"[{b.basis}]", "small")),
                cell(plain(b.outcome, "verdict"), *(sentence(text) for text in b.decides)),
            )
            for b in shown
        )
        yield Table(
            "Bounds of the principles behind the course",
            ("Principle and number", "In nature", "Here", "Must be", "Result"),
            rows,
            (32, 14, 14, 18, 22),
        )
        for number in range(1, MOST_REGIMES + 1):
            yield Picture(f"regime {a.id} {number}")
    if check.inputs:
        yield Paragraph(plain("Values used on the side of the problem:"))
        yield Listing(tuple(plain(sentence(text)) for text in check.inputs))
    yield from _to_find_out([bound for bound in check.bounds if not bound.says_something])
    if check.conditions:
        yield Paragraph(plain("Conditions in words, which no number decides (from the records of the principles):"))
        yield Listing(tuple(plain(sentence(line.text)) for line in check.conditions))


def _to_find_out(bounds: Sequence[Bound]) -> Iterator[Block]:
    """The bounds that nothing can be said of yet, by principle, and the values that would change that."""
    if not bounds:
        return
    told: dict[str, dict[tuple[str, ...], list[str]]] = {}
    for bound in bounds:
        must = f", must be {bound.must_be}" if bound.bounded else ", without a numeric bound"
        nature = f"in nature {bound.nature}" if bound.nature != UNKNOWN else "not known in nature either"
        told.setdefault(bound.principle, {}).setdefault(bound.missing, []).append(f"{bound.group} ({nature}{must})")
    asked = Counter(name for bound in bounds for name in bound.missing)
    first = [name for name, number in asked.most_common(1) if number > 1]
    most = f" The value that is wanted most often is the {first[0]}." if first else ""
    yield Paragraph(plain(f"What to find out, so that more can be computed:{most}"))
    items = []
    for principle, wanted in told.items():
        pieces = [
            f"{joined(groups)} {'needs' if len(groups) == 1 else 'need'} {joined([definite(n) for n in missing])}"
            if missing
            else f"{joined(groups)} cannot be computed from the numbers given"
            for missing, groups in wanted.items()
        ]
        items.append((Run(f"{principle}: ", "strong"), Run(sentence("; ".join(pieces)))))
    yield Listing(tuple(items))


def _evidence(a: Analogue) -> Iterator[Block]:
    for title, anchor, lines, nothing in (
        ("Principles", "principles", a.principles, "The model names no principle."),
        ("Figures of the natural system", "figures", a.figures, "The model gives no figure."),
        ("Where the two systems differ", "differ", a.differences, "Nothing was found to compare."),
        ("Limits", "limits", a.limits, "The model records no limits: treat every extrapolation as untested."),
        (
            "Published precedents",
            "precedents",
            a.precedents,
            "The library records no published use of this mechanism. That is no proof that there is none: search the "
            "patents and papers of the field before claiming novelty.",
        ),
        (
            "What is contested",
            "contested",
            a.disputes,
            "The model records no dispute about the mechanism.",
        ),
    ):
        yield Heading(3, title, f"{a.id}-{anchor}")
        if lines:
            yield Listing(tuple(_line(line) for line in lines))
        else:
            yield Paragraph(plain(nothing))
    if a.cautions:
        yield Paragraph(labelled("Caution.", " ".join(a.cautions)))


def _line(line: Line) -> Text:
    return Run(f"{sentence(line.text)} "), Run(f"[{line.basis}]", "small")


def _experiments(a: Analogue) -> Iterator[Block]:
    yield Heading(
        3, "The first three experiments" if len(a.experiments) == 3 else "The first experiments", f"{a.id}-experiments"
    )
    if not a.experiments:
        yield Paragraph(plain("None can be derived: the model has no course whose steps could be tested."))
        return
    yield Paragraph(
        plain("Derived from what is least certain in the transfer; cheap tests that can end the idea come first."),
        small=True,
    )
    rows = tuple(_experiment(number, e) for number, e in enumerate(a.experiments, start=1))
    yield Table("Experiments", ("Experiment and why", "Build", "Measure", "Ends the idea if"), rows, (31, 23, 23, 23))


def _experiment(number: int, e: Experiment) -> tuple[tuple[Text, ...], ...]:
    why = (Run(f"{e.why} ", "small"), Run(f"[{e.basis}]", "small"))
    return cell(plain(f"{number}. {e.title}", "strong"), why), cell(e.build), cell(e.measure), cell(e.stop)


def _criteria(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "The three criteria of ISO 18458", f"{a.id}-criteria")
    yield Paragraph(
        plain(
            "A product may be called biomimetic only when all three are met (ISO 18458:2015; the wording "
            "is our own, from memory)."
        ),
        small=True,
    )
    rows = tuple(
        (cell(c.text), cell(plain(c.status, "verdict")), cell(c.evidence), cell(c.remains)) for c in a.criteria
    )
    yield Table("Criteria", ("Criterion", "Status", "Met by the model", "Remains for the team"), rows, (29, 11, 28, 32))


def _references(a: Analogue) -> Iterator[Block]:
    yield Heading(3, "Sources", f"{a.id}-sources")
    if not a.references:
        yield Paragraph(plain("The model lists no source; take all of it as unverified."))
        return
    items = []
    for r in a.references:
        text: list[Run] = [Run(f"[{r.key}] ", "strong"), Run(r.text)]
        if r.doi:
            text += [Run(" "), Run(f"doi:{r.doi}", "link", f"https://doi.org/{r.doi}")]
        if not r.seen:
            text.append(Run(" (Cited from memory.)", "small"))
        items.append(tuple(text))
    yield Listing(tuple(items))
    used = joined([f"[{name}] {meaning}" for name, meaning in BASES.items()], "and").replace(", [", "; [")
    yield Paragraph(plain(f"Marks that are no source: {used}."), small=True)
    terms = [term for term in a.terms if term.weight]
    lower = [term for term in a.terms if not term.weight and term.value < 1]
    weighed = "; ".join(f"{TERM_NAMES.get(t.name, t.name)} {t.value:.2f} × {t.weight:.2f}" for t in terms)
    also = joined([f"{TERM_NAMES.get(t.name, t.name)} ({t.value:.2f})" for t in lower])
    lowering = f"It is lowered by what falls short of 1 in {also}." if lower else "Nothing lowers it further."
    told = f"Score {a.score:.2f} from {counted(len(terms), 'term')} (value × weight): {weighed}. {lowering}"
    yield Paragraph(plain(told), small=True)


# Last pages ----------------------------------------------------------------------------------------------------


def _alternatives(brief: Brief) -> Iterator[Block]:
    yield Heading(
        2, "Alternatives that ranked close" if brief.analogues else "Leads", "alternatives", page=bool(brief.analogues)
    )
    yield Paragraph(plain(brief.alternatives_note))
    yield Picture("terms")
    if not brief.alternatives:
        return
    rows = tuple(
        (
            cell(f"{x.rank}"),
            cell(x.title, plain(f"{x.organism}; {x.id}", "small")),
            cell(f"{x.score:.2f}", plain(f"right in {round(100 * x.chance)} of 100", "small")),
            cell(*x.why) or cell("No reason can be read off: nothing was chosen to compare it with."),
        )
        for x in brief.alternatives
    )
    yield Table(
        "Next in rank",
        ("Rank", "Model", "Score", "Why it lost" if brief.analogues else "What speaks against it"),
        rows,
        (8, 34, 14, 44),
    )


def _cautions(brief: Brief) -> Iterator[Block]:
    yield Heading(2, "Standards and cautions", "cautions")
    yield Paragraph(
        plain(
            "Common engineering practice, from memory. Published rules in brackets are examples of where to look "
            "first; which apply is for the place, the product and those responsible to say."
        ),
        small=True,
    )
    yield Listing(
        tuple(
            (Run(c.text), Run(f" [{'; '.join(c.standards)}]", "small")) if c.standards else plain(c.text)
            for c in brief.cautions
        )
    )


def _made(brief: Brief) -> Iterator[Block]:
    yield Heading(2, "How this brief was made", "made")
    yield Paragraph(plain("With these it can be made again; another version may rank and word things otherwise."))
    yield Listing(
        tuple(
            (Run(f"{name.capitalize()}: ", "strong"), Run(value, "code" if name == "command" else ""))
            for name, value in brief.made.items()
        )
    )


def anchors(document: Document) -> Sequence[str]:
    """The ids of all headings, in order."""
    return [block.anchor for block in document.blocks if isinstance(block, Heading)]
