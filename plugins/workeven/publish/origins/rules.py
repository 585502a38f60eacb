"""What the figures of a page come from, by the place in which they stand: a table of our own pages.

Takes     nothing: a table.
Gives     ``RULES``, ``BESIDE``, ``Rule``; ``met``.
Problems  none.
From      the modules of ``publish.pages``, each of which makes what its rules tell of.

A rule is met by the anchor, the part and the element, in a table by its caption and the head of the
column, and by the words. What it tells are origins with places in braces: ``line`` and ``column``
are the heads of a cell, the others are named in the expressions.
"""

from __future__ import annotations

import re
from typing import NamedTuple


class Rule(NamedTuple):
    """Where a text stands (expressions that its whole must meet, "" for any), and its origins."""

    at: str
    what: str
    caption: str
    words: str
    origins: tuple[str, ...]


def met(expression: str, text: str) -> re.Match[str] | None:
    """Whether a part of a rule is met; an empty one always is."""
    return re.fullmatch(expression or r"[\s\S]*", text)


#: Words of ours that hold figures: the tests know each of them, and why it is so.
_OURS = ("words of ours",)

#: Above the first anchor.
_TOP = "(?:)"

RULES = (
    # the head of the page
    Rule("title", ".* h1", "", "", ("title",)),
    Rule(_TOP, "we-summary p", "", "", ("summary",)),
    Rule(_TOP, "we-byline p", "", "", ("designers", "studio: name", "version", "published")),
    Rule(_TOP, "we-facts dd", "Sizes", "", ("sizes",)),
    Rule(_TOP, "we-facts dd", "For", "", ("ages",)),
    Rule(_TOP, "we-facts dd", "Hook", "", ("hooks: mm and US names",)),
    Rule(_TOP, "we-head p", "", ".* on the published scale .*", ("level: reasons",)),
    Rule(_TOP, "we-caution-mark p", "", "", ("cautions: topics",)),
    Rule(_TOP, "we-cover img@alt", "", "Drawing.*", ("drawing: pieces",)),
    Rule(_TOP, "we-(?:cover|pictures) img@alt", "", "", ("pictures: alt",)),
    Rule(_TOP, "we-choose option", "", "(?P<size>.*)", ("size: {size}",)),
    Rule(_TOP, "we-jump li", "", "(?P<title>.*)", ("titles: {title}",)),
    Rule(_TOP, "we-story p", "", "", ("story {nth}",)),
    # sizes
    Rule("sizes", " p", "", "Numbers are given as sizes .*", ("sizes",)),
    Rule(".*", ".* th", ".*", "(?P<head>.*)", ("head: {head}",)),
    Rule("sizes", " td", "To fit.*", "", ("to fit: {column}, {line}",)),
    Rule("finished", " td", "", "", ("finished: {column}, {line}",)),
    Rule("sizes", " td", "Ease.*", "", ("ease: {column}, {line}",)),
    Rule("sizes", " p", "", "Body measurements: .*", ("body chart: title and citations",)),
    Rule("sizes", " p", "", r"(?P<of>.*?) in (?P<size>.*?) is our own: .*", ("own: {of}, {size}",)),
    Rule(
        "sizes", " p", "", "(?P<of>.*?), a known fault of the chart in .*", ("chart faults: {of}",)
    ),
    Rule("sizes", " p", "", "Fit: .*", ("fit",)),
    Rule("sizes", " p", "", "(?P<words>.*)", ("body chart: note",)),
    # cautions and rest
    Rule("cautions", "we-cautions? p", "", "", ("cautions: words",)),
    Rule("cautions", "we-closing p", "", "", ("cautions: closing",)),
    Rule(
        "cautions",
        "we-cautions? li",
        "",
        "(?P<rule>.*?[.)]) ?[^ ]*(?:, [^ ]*)*",
        ("safety rule: {rule}",),
    ),
    Rule(_TOP, "we-rest li", "", "(?P<rule>.*?[.)]) ?[^ ]*(?:, [^ ]*)*", ("safety rule: {rule}",)),
    # materials
    Rule("materials", " li", "", "(?P<hook>[^ ]*) mm hook.*", ("hook: {hook}",)),
    Rule(
        "materials",
        " p",
        "",
        r"(?P<names>\S+(?: \S+)*? \S+ is .*): go by the mm\.",
        ("hook names: {names}",),
    ),
    Rule("materials", " li", "", r"(?P<name>.*?), \w+ weight, .*", ("band of {name}",)),
    Rule("materials", " p", "", r"In the order of ISO 3758\..*", _OURS),
    Rule(
        "materials",
        " li",
        "",
        "(?:Washing|Bleaching|Drying|Ironing|Professional care): (?P<words>.*)",
        ("care: {words}",),
    ),
    Rule("materials", " li", "", "", ("notion {nth}",)),
    Rule("materials", " p", "", "(?P<words>.*)", ("care: {words}",)),
    # yarn
    Rule(
        "materials",
        "we-amounts (?:caption|div@aria-label)",
        "",
        r"(?:.*: )?[Yy]arn to buy, .*",
        ("yarn {yarn}: name", "yarn {yarn}: put-up"),
    ),
    Rule(
        "materials",
        "we-amounts td",
        r"(?:.*: )?[Yy]arn to buy, .*",
        "",
        ("yarn {yarn}: to buy, {column}, {line}",),
    ),
    Rule("materials", "we-amounts p", "", "An estimate, with .*", ("yarn {yarn}: estimate",)),
    Rule(
        "materials",
        "we-amounts td",
        r"(?:.*: )?[Bb]alls of other put-ups, .*",
        "",
        ("yarn {yarn}: other put-up, {column}, {line}",),
    ),
    Rule("materials", "we-amounts li", "", "Another put-up.*", ("yarn {yarn}: another put-up",)),
    Rule("materials", "we-amounts li", "", "Another yarn.*", ("yarn {yarn}: another yarn",)),
    Rule(
        "materials",
        "we-amounts (?:caption|div@aria-label)",
        "",
        r"(?:.*: )?[Mm]ore yarn for each .*",
        ("yarn {yarn}: name", "words of ours"),
    ),
    Rule(
        "materials",
        "we-amounts td",
        r"(?:.*: )?[Mm]ore yarn for each .*",
        "",
        ("yarn {yarn}: longer, {column}, {line}",),
    ),
    Rule(
        "materials",
        "we-amounts p",
        "",
        "Work more of the rows .*",
        ("yarn {yarn}: notes on longer pieces",),
    ),
    Rule("materials", "we-computed p", "", "", ("yarn {computed}: method",)),
    Rule(
        "materials",
        "we-computed li",
        "",
        r"1 (?P<each>[^:]*): .*, by the put-up",
        ("yarn {computed}: grams of a metre",),
    ),
    Rule(
        "materials",
        "we-computed li",
        "",
        r"1 (?P<each>[^:]*): .* g, .*",
        ("yarn {computed}: grams of one {each}",),
    ),
    Rule("materials", "we-computed li", "", r"By the samples: .*", ("yarn {computed}: scale",)),
    Rule("materials", "we-computed li", "", r"With the margin: .*", ("yarn {computed}: margin",)),
    Rule("materials", "we-computed li", "", r"One ball: .*", ("yarn {computed}: ball",)),
    Rule("materials", "we-computed li", "", r"Sample.*", ("yarn {computed}: sample {nth}",)),
    Rule("materials", "we-computed li", "", r"Swatch of .*", ("yarn {computed}: swatch {nth}",)),
    Rule(
        "materials",
        "we-computed li",
        "",
        r"(?P<title>[^:]*): .*",
        ("yarn {computed}: strands, {title}",),
    ),
    Rule(
        "materials",
        "we-computed td",
        "The sum for each size.*",
        "",
        ("yarn {computed}: sum, {column}, {line}",),
    ),
    Rule(
        "materials",
        "we-computed td",
        "The stitches of each piece.*",
        "",
        ("yarn {computed}: piece, {column}, {line}",),
    ),
    # gauge
    Rule("gauge", " li", "", "", ("gauge {nth}",)),
    Rule("gauge", " (?:caption|div@aria-label)", "", "With one stitch more in 10 .*", _OURS),
    Rule("gauge", " td", "With one stitch more.*", "", ("one stitch more: {column}, {line}",)),
    Rule("mine", "we-mine p", "", "Stitches and rows over .*", _OURS),
    Rule(
        "mine",
        "we-mine label",
        "",
        r"(?P<of>.*): (?P<what>stitches|rows|rounds) \(ours .*",
        ("gauge of {of}: {what}",),
    ),
    # stitches
    Rule("abbreviations", " td", "", "(?P<words>.*)", ("abbreviation: {line}, {column}",)),
    Rule("stitches", "we-stitches d[td]", "", "(?P<words>.*)", ("stitches: {term}",)),
    Rule("which", ".*", "", "", ("words of ours",)),
    # while she works
    Rule(_TOP, "we-larger output", "", "100 %", _OURS),
    # pieces
    Rule("piece-.*", "we-piece p", "", "Make .*", ("{at}: make", "{at}: starting chain")),
    Rule("piece-.*", "we-stitches text", "", "(?P<number>.*)", ("{at}: chart row {number}",)),
    Rule("piece-.*", "we-stitch-chart figcaption", "", "", ("{at}: stitch chart",)),
    Rule("piece-.*", "we-(?:stitches|stitch-chart|chart-box) .*", "", "", ("{at}: title",)),
    Rule("piece-.*", "we-key li", "", "(?P<stitch>[^:]*): .*", ("{at}: chart key {stitch}",)),
    Rule("piece-.*", "we-piece h2", "", "", ("{at}: title",)),
    Rule("piece-.*", "we-(?:figure|drawing) title", "", "", ("{at}: title",)),
    Rule("piece-.*", "we-figure figcaption", "", "", ("drawing: size, where it is hers",)),
    Rule("piece-.*", "we-figure (?:caption|div@aria-label)", "", "", ("{at}: title",)),
    Rule("piece-.*", "we-piece button", "", "Untick .*", ("{at}: title",)),
    Rule(
        "piece-.*",
        "we-figure td",
        ".* in the drawing, What it measures",
        "",
        ("{at}: name of a measure",),
    ),
    Rule("piece-.*", "we-figure td", ".* in the drawing.*", "", ("{at}: measure {measure}",)),
    Rule("(?:part|piece)-.*", "we-(?:piece|note) p", "", "Video at .*", ("{at}: video",)),
    Rule("part-.*|piece-.*", "we-note p", "", "", ("{at}: note {nth}",)),
    Rule("part-.*", "we-piece h3", "", "", ("{at}: title",)),
    Rule("part-.*|piece-.*", "we-piece p", "", "(?:Only in|In) size.*", ("{at}: sizes",)),
    # making up
    Rule(
        "assembly",
        " td",
        "(?P<seam>.*): how to space the seam, .*",
        "",
        ("seam {seam}: {column}, {line}",),
    ),
    Rule("assembly", "we-steps li", "", "", ("assembly {nth}",)),
    Rule("finishing", "we-steps li", "", "", ("finishing {nth}",)),
    # the foot
    Rule(
        "about",
        "we-imprint p",
        "",
        "",
        ("designers", "studio: name", "version", "published", "licence", "copyright"),
    ),
    Rule(
        "changes|about",
        "we-changes dt",
        "",
        r"(?P<version>.*), (?P<day>[\d-]*)",
        ("changes: {version}, {day}",),
    ),
    Rule("changes|about", "we-changes dd", "", "(?P<text>.*)", ("changes: text",)),
    Rule(_TOP, "we-neighbours a", "", "", ("titles of neighbours",)),
)

#: Of the pages that are of no one pattern.
BESIDE = (
    Rule("title", ".* h1", "", "", ("collection: title",)),
    # the list of patterns
    Rule(
        _TOP,
        "we-filter option",
        "(?P<by>.+)",
        r"(?P<words>.*) \(\d+\)",
        ("collection: {by}, {words}",),
    ),
    Rule(_TOP, "we-filter p", "", "A size fits half-way .*", _OURS),
    Rule(_TOP, "we-cards img@alt", "", "Drawing.*", ("collection: drawing",)),
    Rule(_TOP, "we-cards img@alt", "", "", ("collection: alt",)),
    Rule(_TOP, "we-cards h2", "", "", ("collection: title",)),
    Rule(_TOP, "we-caution-mark p", "", "", ("collection: cautions",)),
    Rule(_TOP, "we-cards p", "", "(?P<sizes>.*?) · .*", ("collection: sizes, {sizes}",)),
    Rule(_TOP, "we-cards p", "", "", ("collection: summary",)),
    # stitches
    Rule(
        "stitch-(?P<stitch>.*)",
        "we-entries dd",
        "",
        r".* As tall as \d+ chains?\.",
        ("stitch {stitch}: height",),
    ),
    Rule("stitch-(?P<stitch>.*)", "we-entries dt", "", "", ("stitch {stitch}: names",)),
    Rule("stitch-.*", "we-entries dd", "", "", _OURS),
    Rule(_TOP, "we-entries dt", "", r"60 \(66, 72\)", _OURS),
    # changes
    Rule(_TOP, "we-entries time", "", "", ("collection: day of a change",)),
    Rule(
        _TOP,
        "we-entries dt",
        "",
        r"(?:[\d-]{10} )?(?P<title>.*) (?P<version>\S+)",
        ("pattern {title}: changes, {version}",),
    ),
    Rule(_TOP, "we-entries dd", "", "", ("collection: text of a change",)),
    # the studio
    Rule(_TOP, "we-studio p", "", r"\d+ patterns?, every row .*", ("collection: how many",)),
    Rule(_TOP, "we-(?:studio|summary) p", "", "", ("studio: texts",)),
    Rule(
        "newest",
        "we-studio li",
        "",
        "(?P<title>.*), (?P<day>[^,]*)",
        ("pattern {title}: published",),
    ),
    Rule(
        ".*",
        "we-studio li",
        "",
        r"(?P<title>.*), (?P<day>[\d-]{10})",
        ("pattern {title}: published",),
    ),
    Rule(
        ".*",
        "we-studio li",
        "",
        r"(?P<name>.*), \d+ patterns?",
        ("collection: patterns by {name}",),
    ),
)
