"""Changes of numbers and of words alone, made in the collection, each in a noisy difference.

A seed is the folder of a pattern and what is written in place of what. ``NOISE`` is written into
every pattern besides, so that the number is never all that is other in the file.
"""

from __future__ import annotations

from pathlib import Path

COLLECTION = Path(__file__).parents[2] / "patterns"

#: The pattern's folder, what stands there, what is written instead.
Seed = tuple[str, str, str]

NUMBERS: tuple[Seed, ...] = (
    ("sandhopper-mitts", "thumb_sts: 7 (7, 8)", "thumb_sts: 7 (7, 9)"),
    ("sandhopper-mitts", "thumb_sts: 7 (7, 8)", "thumb_sts: 8 (8, 9)"),
    ("sandhopper-mitts", "around: hand - 1 cm", "around: hand - 3 cm"),
    ("sandhopper-mitts", "to_thumb: 10 (10.5, 11) cm", "to_thumb: 10 (10.5, 12) cm"),
    ("sandhopper-mitts", "length: 16.5 (17.5, 18.5) cm", "length: 17.5 (17.5, 18.5) cm"),
    ("sandhopper-mitts", "thumb_length: 3 (3, 3.5) cm", "thumb_length: 4 (4, 4.5) cm"),
    (
        "sandhopper-mitts",
        "sts: 20, rows: 23, over: 10 cm, of",
        "sts: 20, rows: 24, over: 10 cm, of",
    ),
    ("sandhopper-mitts", "hook: 3.75 mm", "hook: 3.5 mm"),
    ("sandhopper-mitts", "{length: 160 m, mass: 50 g}", "{length: 170 m, mass: 50 g}"),
    ("sandhopper-mitts", "margin: 20 %", "margin: 15 %"),
    ("sandhopper-mitts", "mass: 11.4 g", "mass: 11.9 g"),
    ("sandhopper-mitts", "stitch marker, amount: 1", "stitch marker, amount: 2"),
    ("sandhopper-mitts", "hand: 18 (20, 22) cm", "hand: 18 (20, 22.5) cm"),
    ("sandhopper-mitts", "iron: 110 °C", "iron: 150 °C"),
    ("sandhopper-mitts", 'video: "7:40"', 'video: "7:50"'),
    ("sandhopper-mitts", "Leave {25 cm} of yarn", "Leave {35 cm} of yarn"),
    ("sandhopper-mitts", "title: Thumb\n    make: 2", "title: Thumb\n    make: 3"),
    ("ripplemark-blanket", "width: 65 (90) cm", "width: 65 (95) cm"),
    ("ripplemark-blanket", "length: 75 (100) cm", "length: 80 (100) cm"),
    ("ripplemark-blanket", "rows: 12, over", "rows: 12.5, over"),
    ("ripplemark-blanket", "hook: 4.5 mm", "hook: 5 mm"),
    ("ripplemark-blanket", "wash: 40 °C", "wash: 30 °C"),
    ("ripplemark-blanket", "{length: 120 m, mass: 50 g}", "{length: 115 m, mass: 50 g}"),
    ("ripplemark-blanket", "*(sc, hdc, dc) in next st", "*(sc, dc, sc) in next st"),
    ("whelkstow-basket", "rows: 11.5, over", "rows: 12, over"),
    ("whelkstow-basket", "wall_height: 10 (12, 14) cm", "wall_height: 10 (12, 15) cm"),
    ("whelkstow-basket", "handle_sts: 8 (9, 10)", "handle_sts: 8 (9, 11)"),
    ("whelkstow-basket", "rep last rnd 2 more times", "rep last rnd 3 more times"),
    ("whelkstow-basket", "mass: 42.8 g", "mass: 45 g"),
    ("whelkstow-basket", "[sc 5, inc] around (42 sc)", "[inc, sc 5] around (42 sc)"),
    ("groynemark-tee", "neck_width: 25 (25, 25, 26,", "neck_width: 25 (25, 26.5, 26,"),
    ("groynemark-tee", "sleeve_length: 25 (24.5,", "sleeve_length: 26 (24.5,"),
    ("groynemark-tee", "stitch marker, amount: 6", "stitch marker, amount: 8"),
    ("groynemark-tee", "{length: 125 m, mass: 50 g}", "{length: 130 m, mass: 50 g}"),
    ("groynemark-tee", "margin: 10 %", "margin: 12 %"),
    ("haulout-pup", "{sts: 24, rows: 26", "{sts: 24, rows: 27"),
    ("haulout-pup", "mass: 19.6 g", "mass: 21 g"),
    ("haulout-pup", "about 15 g", "about 20 g"),
    ("haulout-pup", "ages: 1 to 6 years", "ages: 3 to 6 years"),
    ("wrackline-cardigan", "until the edge is {1.5 cm} wide", "until the edge is {2 cm} wide"),
)

WORDS: tuple[Seed, ...] = (
    ("sandhopper-mitts", "with a row of fans at the knuckles", "with fans at the knuckles"),
    ("sandhopper-mitts", "For cold mornings on the strandline", "For raw mornings by the sea"),
    ("sandhopper-mitts", "The thumb is sewn in later.", "Sew the thumb in later."),
    ("sandhopper-mitts", "Wash, pull to shape and dry flat.", "Wash; dry flat, pulled to shape."),
    ("sandhopper-mitts", "sk 2 sts, fan in next st; rep", "skip 2 sts, fan in next st; repeat"),
    ("sandhopper-mitts", "ch 1, sc in each ch around,", "Ch 1, sc in every ch around,"),
    ("sandhopper-mitts", "around: hand - 1 cm", "around: hand - 10 mm"),
    ("sandhopper-mitts", "tags: [accessories, mitts, hands]", "tags: [mitts, accessories]"),
    ("sandhopper-mitts", "level: Easy\n", "level: Easy  # as the scale has it\n"),
    ("sandhopper-mitts", "thumb_sts: 7 (7, 8)", "thumb_sts: [7, 7, 8]"),
    ("ripplemark-blanket", "The sand at low water has", "Sand has, at low water,"),
    ("ripplemark-blanket", "rep from * to last st, sc", "rep from * to the last st, sc"),
    ("ripplemark-blanket", "width: 65 (90) cm", "width: 650 (900) mm"),
    ("ripplemark-blanket", "note: for the ends", "note: to weave in the ends"),
    ("whelkstow-basket", "[sc 5, inc] around (42 sc)", "[sc in next 5 sts, inc] around (42 sc)"),
    ("whelkstow-basket", "[sc 6, inc] around (48 sc)", "[sc 6, inc] around"),
    ("whelkstow-basket", "Wipe it with a damp cloth.", "Wipe it, with a damp cloth."),
    ("groynemark-tee", "The armholes lie above the\n", "Above the markers lie the\n"),
    ("groynemark-tee", "rep Wave row 3 more times", "repeat Wave row three more times"),
    ("wrackline-cardigan", "Weave in all ends.", "Weave all ends in."),
)

#: what is written into every pattern file besides
NOISE = (
    ("\nlicence:", "\n# Looked through once more.\nlicence:"),
    ("\ncopyright: © 2026 Tidewrack", "\n\ncopyright: © 2026, Tidewrack"),
    ("\nuse: [", "\nuse:   ["),
    ("\naudience:", "\n\n# Who it is for\naudience:"),
)


def written(text: str, *pairs: tuple[str, str]) -> str:
    """The text with each first of the pair written over; it must stand there just once."""
    for old, new in pairs:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    return text


def noisy(text: str) -> str:
    """The text with all noise that fits into it."""
    return written(text, *(pair for pair in NOISE if pair[0] in text))
