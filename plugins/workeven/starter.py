"""A new pattern file that already checks: every part there once, each with what to change in it.

Takes     ``Wanted``: what is made, for whom, in which sizes and units, how it is worked.
Gives     ``KINDS``, ``WEARERS``, ``ways_of``, ``sizes_of``; ``pattern_text``: the file.
Problems  none: the commands ask for what stands in these tables.
From      the guide, "Your first pattern"; the gauges and lengths are examples, which the file says.

The rows are the plainest of their kind, so that a designer changes one thing at a time and sees
what the check says. No swatch is given: a weight that nobody has weighed would become an amount of
yarn.
"""

from __future__ import annotations

from typing import Literal

from workeven.records import record
from workeven.source.scalar import scalar
from workeven.standards import body_chart

Units = Literal["cm", "in"]

#: What can be begun, in words for who chooses.
KINDS = {
    "square": "a square or a cloth, worked flat",
    "scarf": "a scarf, worked flat",
    "cowl": "a cowl, worked in rounds",
    "hat": "a hat from the brim up, in rounds, sizes from the head chart",
    "top": "a boxy top of two alike pieces, worked flat, sizes from a body chart",
}
_ROUNDS = ("joined rounds", "joined rounds, turned", "spiral rounds")


@record
class Wearer:
    """Whom it is for: what the file says of it, and the charts with their sizes."""

    told: str
    audience: str
    ages: str
    chart: str
    girth: str
    heads: tuple[str, ...]
    usual: str
    usual_head: str


WEARERS = {
    "women": Wearer(
        told="women",
        audience="adult",
        ages="",
        chart="women",
        girth="bust",
        heads=("adult woman", "adult man"),
        usual="S (M, L)",
        usual_head="adult woman",
    ),
    "men": Wearer(
        told="men",
        audience="adult",
        ages="",
        chart="men",
        girth="chest",
        heads=("adult woman", "adult man"),
        usual="S (M, L)",
        usual_head="adult man",
    ),
    "youth": Wearer(
        told="young people of 12 to 16",
        audience="child",
        ages="12 to 16 years",
        chart="youth",
        girth="chest",
        heads=("tween",),
        usual="12 (14, 16)",
        usual_head="tween",
    ),
    "children": Wearer(
        told="children of 2 to 10",
        audience="child",
        ages="2 to 10 years",
        chart="children",
        girth="chest",
        heads=("toddler", "child", "tween"),
        usual="4 (6, 8)",
        usual_head="toddler (child, tween)",
    ),
    "babies": Wearer(
        told="babies up to two years",
        audience="baby",
        ages="3 to 24 months",
        chart="babies",
        girth="chest",
        heads=("preemie", "baby"),
        usual="6 mo (12 mo, 18 mo)",
        usual_head="baby",
    ),
}


@record
class Wanted:
    """What was chosen; ``sizes`` are names, and those of a chart where ``sizes_of`` says so."""

    title: str
    kind: str
    wearer: str
    sizes: tuple[str, ...]
    worked: str
    units: Units = "cm"
    schema: str = ""


def ways_of(kind: str) -> tuple[str, ...]:
    """How a thing of this kind may be worked, the usual way first.

    >>> ways_of("scarf")
    ('flat rows',)
    """
    return _ROUNDS if kind in ("cowl", "hat") else ("flat rows",)


def sizes_of(kind: str, wearer: str) -> tuple[str, ...]:
    """The sizes that the chart has, in order; () where any names will do.

    >>> sizes_of("hat", "children"), sizes_of("scarf", "women")
    (('toddler', 'child', 'tween'), ())
    """
    if kind == "hat":
        return WEARERS[wearer].heads
    if kind != "top":
        return ()
    chart = body_chart(WEARERS[wearer].chart)
    assert chart is not None
    return chart.sizes


def usual_sizes(kind: str, wearer: str) -> str:
    """The sizes that are offered, in trade notation."""
    if kind == "hat":
        return WEARERS[wearer].usual_head
    return WEARERS[wearer].usual if kind == "top" else "One size"


def pattern_text(wanted: Wanted) -> str:
    """The whole file.

    >>> print(pattern_text(Wanted(title="Net", kind="square", wearer="women", sizes=("One size",),
    ...     worked="flat rows")).splitlines()[0])
    # A new pattern. Lines that begin with # are for you: delete them when you like.
    """
    parts = {"square": _flat, "scarf": _flat, "cowl": _cowl, "hat": _hat, "top": _top}
    return "\n".join([*_head(wanted), *parts[wanted.kind](wanted), *_end()]) + "\n"


# --- parts that all have -------------------------------------------------------------------

_SUMMARIES = {
    "square": "A square in single crochet.",
    "scarf": "A scarf in double crochet.",
    "cowl": "A cowl in single crochet, worked in rounds.",
    "hat": "A hat in single crochet, from the brim up.",
    "top": "A boxy top of two alike pieces in double crochet.",
}


def _head(wanted: Wanted) -> list[str]:
    wearer = WEARERS[wanted.wearer]
    mode = [f"# yaml-language-server: $schema={wanted.schema}"] if wanted.schema else []
    use = "home" if wanted.kind == "square" else "wear"
    child = wearer.audience in ("child", "baby")
    return [
        *mode,
        "# A new pattern. Lines that begin with # are for you: delete them when you like.",
        "# It checks as it stands. Its gauge, lengths and yarn are examples: put in yours.",
        "",
        f"title: {scalar(wanted.title)}",
        f"summary: {_SUMMARIES[wanted.kind]}",
        "# Whom it is for and what it is used for decide the cautions on its page.",
        *(_OF_CHILDREN if child else []),
        f"audience: {wearer.audience}",
        *([f"ages: {wearer.ages}"] if child else []),
        f"use: [{use}]",
        "# The terms that your rows are written in: us or uk. A page shows both.",
        "terms: us",
        *_sizes(wanted),
    ]


_OF_CHILDREN = [
    "# The cautions that follow for children stand on the page. They certify nothing: no cords",
    "# at head or neck, no small parts, nothing loose where they sleep. Check the rules where you",
    "# live or sell, and let somebody qualified judge what can hurt.",
]


def _sizes(wanted: Wanted) -> list[str]:
    names = _trade(wanted.sizes)
    wearer = WEARERS[wanted.wearer]
    if wanted.kind == "hat":
        return [
            "# Sizes, smallest first; the body's measures are from the chart of heads.",
            "sizes:",
            f"  names: {names}",
            "  chart: head",
        ]
    if wanted.kind == "top":
        return [
            f"# Sizes, smallest first; the body is that of the chart {wearer.chart}.",
            "sizes:",
            f"  names: {names}",
            f"  chart: {wearer.chart}",
            f"  from_chart: {wearer.girth}",
            "  # How much wider than the body it is; one value, or one a size: 10 (10, 12) cm.",
            "  ease:",
            f"    {wearer.girth}: {_length(wanted, 10, 4)}",
        ]
    return [
        "# Sizes, smallest first, as the trade writes them: S (M, L). So are values by size.",
        "sizes:",
        f"  names: {names}",
    ]


def _trade(values: tuple[str, ...]) -> str:
    """Values by size, as YAML takes them."""
    if len(values) == 1:
        # a list: a single name may hold a comma or a bracket
        return f"[{scalar(values[0])}]"
    return scalar(f"{values[0]} ({', '.join(values[1:])})")


def _gauge(wanted: Wanted, of: str, sts: int, rows: int, hook: str) -> list[str]:
    over = "10 cm" if wanted.units == "cm" else "4 in"
    return [
        "# Your gauge: stitches and rows over a length, in the stitch of the piece, blocked.",
        "gauge:",
        f"  ground: {{sts: {sts}, rows: {rows}, over: {over}, of: {of}, hook: {hook}}}",
        "# Your yarn: its weight, what it is made of, how it is sold.",
        "yarn:",
        "  main: {weight: medium, fibre: 100% wool, put_up: {length: 90 m, mass: 50 g}}",
        "# Weigh a swatch of yours and take the # away: then the yarn of every size is computed.",
        "# swatches:",
        "#   - of: main",
        "#     mass: 12.5 g",
        "#     rows: |",
        "#       ch 21",
        "#       sc in 2nd ch from hook and in each ch across, turn",
        "#       ch 1, sc in each st across, turn",
        "#       rep last row 20 more times",
    ]


def _end() -> list[str]:
    return [
        "finishing:",
        "  - Weave in all ends. Wash, pull to shape and dry flat.",
        "# Without a date it is a draft: checked and shown in the preview, not on the site.",
        '# version: "1.0"',
        "# published: 2030-01-31",
        "# designers: [Your Name]",
        "# licence: CC BY 4.0",
        "# copyright: © 2030 your name",
    ]


def _length(wanted: Wanted, cm: int, inches: int) -> str:
    return f"{cm} cm" if wanted.units == "cm" else f"{inches} in"


def _lengths(wanted: Wanted, cm: tuple[int, int], inches: tuple[int, int]) -> str:
    """A length that grows by a step from size to size."""
    (first, step), unit = (cm, "cm") if wanted.units == "cm" else (inches, "in")
    values = tuple(str(first + step * at) for at in range(len(wanted.sizes)))
    listed = values[0] if len(values) == 1 else f"{values[0]} ({', '.join(values[1:])})"
    return f"{listed} {unit}"


_COUNTS = [
    "# Whole stitches, computed from a length and a gauge in every size. `multiple: 6, plus: 1`",
    "# brings them to a repeat of your stitch.",
]
_ROWS = [
    "# One row a line. {names} are counts; after `measures` they are measurements. A count in",
    "# brackets at the end is held against what the row makes.",
]


_FIRST_DC = "dc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn"


# --- each kind -----------------------------------------------------------------------------


def _flat(wanted: Wanted) -> list[str]:
    square = wanted.kind == "square"
    name = wanted.kind
    width = _lengths(wanted, (20, 6), (8, 2)) if square else _lengths(wanted, (18, 4), (7, 2))
    length = width if square else _lengths(wanted, (140, 10), (55, 4))
    stitch, chains, first = (
        ("sc", 1, "sc in 2nd ch from hook and in each ch across, turn")
        if square
        else (
            "dc",
            2,
            _FIRST_DC,
        )
    )
    turning = "ch 1" if square else "ch 3 (counts as dc)"
    sts = f"{name}_sts"
    return [
        *_gauge(wanted, stitch, 16, 18 if square else 9, "5 mm"),
        "# Lengths of the finished thing; a formula may use other lengths.",
        "measurements:",
        f"  width: {width}",
        f"  length: {length}",
        *_COUNTS,
        "counts:",
        f"  {sts}: {{across: width, gauge: ground}}",
        *_ROWS,
        "pieces:",
        f"  {name}:",
        "    worked: flat rows",
        "    gauge: ground",
        "    sections:",
        "      - rows: |",
        f"          ch {{{sts} + {chains}}}",
        f"          {first} ({{{sts}}} {stitch})",
        f"          {turning}, {stitch} in each st across, turn ({{{sts}}} {stitch})",
        f"          rep last row until piece measures {{length}} ({{{sts}}} {stitch})",
        "          fasten off",
    ]


def _rounds(wanted: Wanted, sts: str) -> list[str]:
    """The chain and the first two rounds of a tube, in each way of working."""
    chain = f"ch {{{sts}}}, join with sl st to first ch"
    if wanted.worked == "spiral rounds":
        return [
            chain,
            f"sc in each ch around ({{{sts}}} sc)",
            f"sc in each st around ({{{sts}}} sc)",
        ]
    turn = ", turn" if wanted.worked.endswith("turned") else ""
    return [
        chain,
        *(
            f"ch 1, sc in each {place} around, join with sl st to first sc{turn} ({{{sts}}} sc)"
            for place in ("ch", "st")
        ),
    ]


def _cowl(wanted: Wanted) -> list[str]:
    return [
        *_gauge(wanted, "sc", 16, 18, "5 mm"),
        "# Lengths of the finished thing; a formula may use other lengths.",
        "measurements:",
        f"  around: {_lengths(wanted, (60, 6), (24, 2))}",
        f"  height: {_lengths(wanted, (24, 1), (9, 1))}",
        *_COUNTS,
        "counts:",
        "  cowl_sts: {across: around, gauge: ground}",
        *_ROWS,
        "pieces:",
        "  cowl:",
        f"    worked: {wanted.worked}",
        "    gauge: ground",
        "    sections:",
        "      - rows: |",
        *(f"          {row}" for row in _rounds(wanted, "cowl_sts")),
        "          rep last rnd until piece measures {height}",
        "          fasten off",
    ]


def _hat(wanted: Wanted) -> list[str]:
    return [
        *_gauge(wanted, "sc", 16, 18, "5 mm"),
        "# Lengths of the finished thing; `head_circumference` is what the chart says of a size.",
        "measurements:",
        f"  around: head_circumference - {_length(wanted, 3, 1)}",
        "  # From the brim to where the crown begins; one value, or one a size: 10 (11, 12) cm.",
        f"  to_crown: {_length(wanted, 10, 4)}",
        *_COUNTS,
        "counts:",
        "  hat_sts: {across: around, gauge: ground, multiple: 6}",
        "  # Six stitches fewer in each round of the crown, down to six.",
        "  crown_rnds: {is: hat_sts / 6 - 1}",
        *_ROWS,
        "pieces:",
        "  hat:",
        f"    worked: {wanted.worked}",
        "    gauge: ground",
        "    sections:",
        "      - title: Body",
        "        rows: |",
        *(f"          {row}" for row in _rounds(wanted, "hat_sts")),
        "          rep last rnd until piece measures {to_crown}",
        "      # Shaping is worked out for every size: from so many stitches to so many.",
        "      - title: Crown",
        "        shape: {from: hat_sts, to: 6, over: crown_rnds, spread: 6}",
        "      - title: Top",
        "        note: Draw the end of the yarn through the last stitches, and pull it tight.",
        "        rows: |",
        "          fasten off",
    ]


#: length of the body and width of the neck, in cm and in
_BODIES = {
    "women": ((54, 21), (24, 9)),
    "men": ((64, 25), (24, 9)),
    "youth": ((50, 20), (22, 9)),
    "children": ((38, 15), (18, 7)),
    "babies": ((26, 10), (16, 6)),
}


_MARKED = (
    "ch 3 (counts as dc), dc in each of next {shoulder_sts - 1} sts, place marker, dc in each of "
    "next {neck_sts} sts, place marker, dc in each of next {shoulder_sts} sts"
)


def _top(wanted: Wanted) -> list[str]:
    girth = WEARERS[wanted.wearer].girth
    length, neck = _BODIES[wanted.wearer]
    return [
        *_gauge(wanted, "dc", 16, 9, "5 mm"),
        f"# Lengths of the finished thing; `{girth}` is the body's, `{girth}_ease` stands above.",
        "measurements:",
        f"  width: ({girth} + {girth}_ease) / 2",
        "  # One value for all sizes, or one a size in brackets, such as 50 (51, 52) cm.",
        f"  length: {_length(wanted, *length)}",
        f"  neck: {_length(wanted, *neck)}",
        *_COUNTS,
        "counts:",
        "  body_sts: {across: width, gauge: ground, parity: even}",
        "  neck_sts: {across: neck, gauge: ground, parity: even}",
        "  shoulder_sts: {is: (body_sts - neck_sts) / 2}",
        *_ROWS,
        "pieces:",
        "  body:",
        "    title: Front and back",
        "    make: 2",
        "    worked: flat rows",
        "    gauge: ground",
        "    # Edges that are sewn; both sides of a seam are held against each other.",
        "    edges:",
        "      shoulder: {sts: shoulder_sts}",
        "      side: {row_ends: Body}",
        "    sections:",
        "      - title: Body",
        "        rows: |",
        "          ch {body_sts + 2}",
        f"          {_FIRST_DC} ({{body_sts}} dc)",
        "          ch 3 (counts as dc), dc in each st across, turn ({body_sts} dc)",
        "          rep last row until piece measures {length} ({body_sts} dc)",
        "      - title: Neck",
        "        note: The markers show where the shoulders end.",
        "        rows: |",
        f"          {_MARKED}",
        "          fasten off",
        "seams:",
        "  - {title: Shoulders, sew: body.shoulder, to: body.shoulder, times: 2}",
        "  - {title: Sides, sew: body.side, to: body.side, times: 2}",
        "assembly:",
        "  # Counts and lengths may stand in these texts too.",
        "  - >-",
        "    Shoulders: sew {shoulder_sts} stitches at each side of both pieces together. Leave",
        "    the neck open between the markers; the opening must pass over the head.",
        "  - Sides, sew from the hem upwards, and leave an armhole open above the seam.",
    ]
