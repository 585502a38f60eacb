"""A pattern as typed records, its rows as notation trees.

Takes     ``Source``: the values of one pattern file, each with its place.
Gives     ``Pattern``; ``Studio``; body charts of a studio's own.
Problems  ``file-``, ``name-``, ``unit-``, ``size-``, ``chart-``, ``count-basis``, ``video-``,
          ``link-``, ``former-``, ``picture-``, ``term-unused``, and what the notation reports.
From      design.md, "A pattern file".
"""

from workeven.pattern.amount_records import PrintedAmount
from workeven.pattern.bodies import Body, ChartLine, Ease, OwnValue
from workeven.pattern.care_records import Care, Treatment
from workeven.pattern.hook_records import GivenHook
from workeven.pattern.own_chart import parse_chart
from workeven.pattern.page_records import Ask, Picture
from workeven.pattern.parse import NO_STUDIO, parse, parse_studio
from workeven.pattern.records import (
    Ages,
    Change,
    ComputedCount,
    Count,
    CountedOver,
    FormulaCount,
    Gauge,
    Holes,
    Link,
    ListedCount,
    Measurement,
    Notion,
    OtherPutUp,
    Pattern,
    Piece,
    PutUp,
    RowNote,
    Sample,
    Section,
    Shape,
    Studio,
    Swatch,
    Terms,
    Text,
    TurningChains,
    Video,
    Worked,
    Yarn,
)
from workeven.pattern.sample_records import FinishedSample, GaugeGot
from workeven.pattern.trimming_records import Trimming
from workeven.pattern.uses import asks_to_come_out

__all__ = [
    "NO_STUDIO",
    "Ages",
    "Ask",
    "Body",
    "Care",
    "Change",
    "ChartLine",
    "ComputedCount",
    "Count",
    "CountedOver",
    "Ease",
    "FinishedSample",
    "FormulaCount",
    "Gauge",
    "GaugeGot",
    "GivenHook",
    "Holes",
    "Link",
    "ListedCount",
    "Measurement",
    "Notion",
    "OtherPutUp",
    "OwnValue",
    "Pattern",
    "Picture",
    "Piece",
    "PrintedAmount",
    "PutUp",
    "RowNote",
    "Sample",
    "Section",
    "Shape",
    "Studio",
    "Swatch",
    "Terms",
    "Text",
    "Treatment",
    "Trimming",
    "TurningChains",
    "Video",
    "Worked",
    "Yarn",
    "asks_to_come_out",
    "parse",
    "parse_chart",
    "parse_studio",
]
