"""Patterns fit to publish, put together by hand: small enough to know every number of them.

The mitt is counted by hand: 33 (36, 42) stitches, a stitch is 5 mm wide and a round 4 mm high
(20 sts and 25 rows to 10 cm).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from tests.support.records import given_hook
from workeven.arithmetic import formulas
from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.grading import GradedCount, GradedPattern
from workeven.level import JudgedLevel
from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern import (
    Care,
    Change,
    FormulaCount,
    Gauge,
    Link,
    Measurement,
    Notion,
    Pattern,
    Piece,
    PutUp,
    Section,
    Studio,
    Text,
    TurningChains,
    Video,
    Worked,
    Yarn,
)
from workeven.pipeline import ReadyPattern
from workeven.problems import Span
from workeven.proof import ProvenPattern, ProvenPiece, ProvenRow, ProvenSection, RowInSize
from workeven.records import replace
from workeven.safety import REST, Cautions
from workeven.yarn import YarnNeed, YarnNeeds

HERE = Span(file="patterns/mitts/pattern.yaml", line=1, column=1, end_line=1, end_column=2)
SIZES = Sizes(("S", "M", "L"))
STITCH, ROUND = Fraction(5), Fraction(4)

GAUGE = Gauge(
    name="ground",
    sts=Fraction(20),
    rows=Fraction(25),
    over=Fraction(100),
    over_text="10 cm",
    of="sc",
    hook=given_hook("3.75"),
    span=HERE,
)
YARN = Yarn(
    name="main",
    label="Sanderling Sport (invented)",
    weight="fine",
    fibre="80% wool 20% nylon",
    put_up=PutUp(length=Fraction(160_000), mass=Fraction(50)),
    colours=(),
    held=1,
    span=HERE,
)
STUDIO = Studio(
    name="Tidewrack Studio",
    summary="An invented studio.",
    links=(Link(text="About", url="about.md"),),
    units="cm",
    terms="us",
    licence="CC BY 4.0",
    copyright="© 2026 Tidewrack Studio",
    tolerance=None,
    stitches=(),
)


def text(words: str) -> Text:
    """A text of the designer's."""
    return Text(text=words, span=HERE)


def rising(sizes: Sizes, *values: int | Fraction) -> PerSize[Fraction]:
    """A length in each size; sizes beyond the last value have that."""
    listed = [*values, *[values[-1]] * len(sizes)]
    return sizes.each(tuple(Fraction(value) for value in listed[: len(sizes)]))


def row_in_size(sts: int, first: int | None, last: int | None, **more: object) -> RowInSize:
    """A row counted in one size; plain single crochet unless said otherwise."""
    counted = RowInSize(
        first=first,
        last=last,
        times=1 if first is None or last is None else last - first + 1,
        sts=sts,
        makes=(("sc", sts),),
        worked=(("sc", sts),),
        side=None,
        height=Fraction(0) if last is None else last * ROUND,
        stated=None,
    )
    return counted._replace(**more)  # type: ignore[arg-type]


def proven_row(
    words: str,
    per_size: Sequence[RowInSize | None],
    *,
    anchor: str,
    sizes: Sizes = SIZES,
) -> ProvenRow:
    """A line of a pattern, read by the real parser, with counts given by hand."""
    span = replace(HERE, end_column=len(words) + 1)
    read = parse_row(words, span, Vocabulary(sizes=sizes.names))
    assert read.problems == ()
    assert read.value is not None
    return ProvenRow(
        row=read.value,
        word="Rnd",
        anchor=anchor,
        multiple=None,
        per_size=PerSize(sizes, tuple(per_size)),
    )


def section(rows: Sequence[ProvenRow], *, title: str, worked: Worked) -> ProvenSection:
    """A section with all its rows counted."""
    plain = Section(
        title=title,
        worked=worked,
        gauge="ground",
        yarn=None,
        sizes=None,
        note=None,
        video=None,
        row_notes=(),
        rows=tuple(row.row for row in rows),
        span=HERE,
    )
    return ProvenSection(section=plain, rows=tuple(rows))


def piece(
    sections: Sequence[ProvenSection],
    *,
    title: str,
    worked: Worked,
    make: int = 1,
    sizes: Sizes = SIZES,
) -> ProvenPiece:
    """A piece with all its sections counted."""
    plain = Piece(
        name=title.lower(),
        title=title,
        make=sizes.all(make),
        worked=worked,
        sections=tuple(one.section for one in sections),
        span=HERE,
    )
    return ProvenPiece(piece=plain, sections=tuple(sections))


def mitt_rows() -> tuple[ProvenRow, ...]:
    """Three lines of a mitt: a chain, a round, rounds up to a length."""
    sts = (33, 36, 42)
    chain = [
        row_in_size(n, None, None, makes=(("ch", n),), worked=(("ch", n),), stated=None)
        for n in sts
    ]
    first = [row_in_size(n, 1, 1, stated=(("sc", n),)) for n in sts]
    rest = [
        row_in_size(n, 2, last, stated=(("sc", n),))
        for n, last in zip(sts, (15, 16, 17), strict=True)
    ]
    return (
        proven_row("ch {hand_sts}, join with sl st to first ch", chain, anchor="start"),
        proven_row(
            "Rnd 1: ch 1, sc in each ch around, join with sl st to first sc (33, 36, 42 sc)",
            first,
            anchor="1",
        ),
        proven_row(
            "Even rnd: ch 1, sc in each st around, join with sl st to first sc "
            "until piece measures {cuff} ({hand_sts} sc)",
            rest,
            anchor="even-rnd",
        ),
    )


def mitts(
    *,
    slug: str = "mitts",
    title: str = "Sandhopper Mitts",
    summary: str = "Fingerless mitts from the cuff up.",
    published: str | None = "2026-11-02",
    pieces: Sequence[ProvenPiece] | None = None,
    finished: Mapping[str, PerSize[Fraction]] | None = None,
    video: Video | None = None,
) -> ReadyPattern:
    """A mitt in three sizes."""
    proven_pieces = tuple(
        pieces
        if pieces is not None
        else [
            piece(
                [section(mitt_rows(), title="Cuff", worked="joined rounds")],
                title="Mitt",
                worked="joined rounds",
                make=2,
            )
        ]
    )
    sizes = proven_pieces[0].piece.make.sizes
    around = rising(sizes, 165, 180, 210)
    cuff = rising(sizes, 60, 64, 68)
    pattern = Pattern(
        slug=slug,
        file=f"patterns/{slug}/pattern.yaml",
        studio=STUDIO,
        title=text(title),
        summary=text(summary),
        story="For cold mornings.\n\nBoth mitts are alike.",
        tags=("mitts",),
        level="Easy",
        designers=("Perrin Saltlock",),
        version="1.0",
        published=published,
        changes=(Change(version="1.0", date="2026-11-02", text="First published."),),
        licence=None,
        copyright=None,
        audience="adult",
        ages=None,
        use=("wear",),
        terms="us",
        sizes=sizes,
        sizes_span=HERE,
        to_fit=(("hand", around.map(lambda mm: mm + 15)),),
        gauges=(GAUGE,),
        yarns=(YARN,),
        swatches=(),
        margin=Fraction(1, 10),
        notions=(
            Notion(
                kind="stitch marker", amount=sizes.all(1), at="first stitch", note=None, span=HERE
            ),
        ),
        care=Care(treatments=(), note="Wash by hand."),
        stitches=(),
        turning_chains=TurningChains(counts=()),
        each_chain_counts=False,
        tolerance=None,
        measurements=(
            Measurement(name="cuff", formula=sizes.all(formulas.read("6 cm")), span=HERE),
        ),
        counts=(FormulaCount(name="hand_sts", formula=formulas.read("33"), span=HERE),),
        pieces=tuple(one.piece for one in proven_pieces),
        assembly=(text("Sew the thumb in."),),
        finishing=(text("Weave in all ends."),),
        video=video,
        allow=(),
    )
    counts = rising(sizes, 33, 36, 42).map(int)
    graded = GradedPattern(
        pattern=pattern,
        measurements={"around": around, "cuff": cuff},
        counts={
            "hand_sts": GradedCount(
                count=pattern.counts[0],
                values=counts,
                measurement="around",
                wanted=around,
                exact=counts.map(Fraction),
                measures=around,
                rule="nearest multiple of 3",
            )
        },
    )
    proven = ProvenPattern(
        graded=graded,
        pieces=proven_pieces,
        swatches=(),
        finished={"around": around, "cuff": cuff} if finished is None else finished,
    )
    need = YarnNeed(
        yarn=YARN,
        length=rising(sizes, 90_100, 99_000, 120_000),
        mass=rising(sizes, 29, Fraction(63, 2), 38),
        balls=sizes.all(1),
        margin=Fraction(1, 10),
        method="From the stitches counted in every row and a swatch that was weighed",
        bare=rising(sizes, 26, 28, 34),
    )
    return ReadyPattern(
        pattern=pattern,
        proven=proven,
        yarn=YarnNeeds(needs=(need,)),
        cautions=Cautions(cautions=(), rest=REST),
        level=JudgedLevel(name="Easy", computed="Easy", reasons=("pieces that are joined",)),
        advice=(),
    )
