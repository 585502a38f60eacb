"""Every code that workeven can report: its severity and one line.

Takes     nothing.
Gives     ``CATALOGUE``, ``severity``; ``in_families``.
Problems  all of them.
From      the pages beside it, ``problems/pages/CODE.md``, say what, why, and show it.

A code names the fault and lives for ever; a retired one keeps its page.
"""

from __future__ import annotations

from workeven.problems.record import Severity

ERROR, ADVICE = Severity.ERROR, Severity.ADVICE

#: code: (severity, one line). Sorted by family, then by code.
CATALOGUE: dict[str, tuple[Severity, str]] = {
    # file-, name-, size-, unit-, video-: files and what stands in them
    "chart-fault": (ADVICE, "A value taken from a body chart is known to be faulty."),
    "chart-no-value": (ERROR, "A body chart has no value for a size of the pattern."),
    "chart-order": (ERROR, "Sizes stand in another order than in the body chart."),
    "chart-range": (ERROR, "A range of a body chart stands upside down."),
    "chart-size": (ERROR, "A size is not one of the body chart's."),
    "chart-unit-mixed": (ERROR, "A column of a body chart holds another unit."),
    "chart-units-differ": (ADVICE, "Inches and centimetres of a body chart are not one length."),
    "chart-unknown": (ERROR, "There is no body chart of that name."),
    "count-basis": (ERROR, "It is not clear what a count is counted from."),
    "count-unused": (ADVICE, "A count is given that no row is worked with."),
    "file-alias": (ERROR, "A star stands for a value written elsewhere."),
    "file-allow-error": (ERROR, "An error is to be allowed, which only advice can be."),
    "file-anchor": (ERROR, "A value is given a name for YAML."),
    "file-bidi": (ERROR, "A character turns the direction of writing."),
    "file-binary": (ERROR, "The file is not text."),
    "file-block": (ERROR, "A line does not belong to the text block it was meant for."),
    "file-choice": (ERROR, "A word is not one of those that the key takes."),
    "file-colon": (ERROR, "A value holds a colon with a space behind it."),
    "file-colon-space": (ERROR, "There is no space behind the colon of a key."),
    "file-complex-key": (ERROR, "A key is not a word."),
    "file-control-character": (ERROR, "A control character stands in the text."),
    "file-cut-off": (ADVICE, "The end of a text is taken for a comment."),
    "file-date": (ERROR, "A date is not a day."),
    "file-directive": (ERROR, "A line speaks to YAML itself."),
    "file-duplicate-key": (ERROR, "A key is written twice."),
    "file-empty": (ERROR, "The file is empty."),
    "file-encoding": (ERROR, "The file is not saved as UTF-8."),
    "file-flow-split": (ERROR, "A value with commas stands inside brackets that end it at each."),
    "file-folded": (ERROR, "YAML joins the lines of rows to one."),
    "file-folder-name": (ERROR, "A folder's name cannot be the address of a page."),
    "file-indent": (ERROR, "A line starts in a column where it belongs to nothing."),
    "file-key-missing": (ERROR, "A key is missing."),
    "file-key-unknown": (ERROR, "A key is not known here."),
    "file-line-separator": (ERROR, "A character ends a line in some programs only."),
    "file-merge-key": (ERROR, "A table takes in the keys of another."),
    "file-no-patterns": (ERROR, "A folder holds no pattern."),
    "file-nul": (ERROR, "A character with the number 0 stands in the text."),
    "file-row-comment": (ERROR, "A line of the rows begins with a hash."),
    "file-row-item": (ERROR, "YAML does not read a row as a row."),
    "file-second-document": (ERROR, "A second document begins in the file."),
    "file-shape": (ERROR, "A value has another shape than its place asks for."),
    "file-stranger": (ERROR, "A file lies in the collection that does not belong there."),
    "file-surrogate": (ERROR, "Half of a character stands in the text."),
    "file-symlink": (ERROR, "A link lies in the collection."),
    "file-tab": (ERROR, "A line is indented with a tab."),
    "file-tag": (ERROR, "A value is given a type of YAML's own."),
    "file-too-deep": (ERROR, "Lists or tables stand inside each other too deep."),
    "file-too-large": (ERROR, "The file is too large."),
    "file-too-many-values": (ERROR, "The file holds too many keys and values."),
    "file-unclosed": (ERROR, "A quotation mark or a bracket is not closed."),
    "file-unreadable": (ERROR, "A file cannot be opened."),
    "file-value-missing": (ERROR, "A key has no value."),
    "file-value-start": (ERROR, "A value begins with a sign that means something to YAML."),
    "file-value-too-long": (ERROR, "A value is too long."),
    "file-yaml": (ERROR, "The file cannot be read as YAML."),
    "file-zero-width": (ERROR, "A character without width stands in the text."),
    "change-order": (ADVICE, "A change stands below an older one."),
    "change-unsaid": (ERROR, "A published pattern has other numbers and does not say so."),
    "change-version": (ADVICE, "Nothing is said of what the version changed."),
    "former-name": (ERROR, "A former name cannot be the name of a pattern's folder."),
    "former-taken": (ERROR, "A former name is that of another pattern too."),
    "link-address": (ERROR, "An address is not one that a page may lead to."),
    "link-place": (ERROR, "A place in a link is none that a page can fill in."),
    "holes-start": (ERROR, "Holes are placed over other stitches than the rows before leave."),
    "holes-no-room": (ERROR, "Holes do not fit into their row."),
    "name-form": (ERROR, "A name is not written as a name."),
    "name-reserved": (ERROR, "A name means something else already."),
    "name-title-twice": (ERROR, "Two pieces have the same title."),
    "name-unused": (ADVICE, "A measurement is given that nothing measures."),
    "picture-content": (ERROR, "A file is not the picture that its name says."),
    "picture-missing": (ERROR, "A picture is listed and does not lie beside the file."),
    "picture-name": (ERROR, "A picture is not named as a file of one."),
    "picture-too-large": (ERROR, "A picture is too large."),
    "picture-twice": (ERROR, "A picture is listed twice."),
    "picture-unlisted": (ADVICE, "A picture lies beside the file and is not listed."),
    "shape-both-ways": (ERROR, "In one shaping some sizes increase and others decrease."),
    "shape-clash": (ERROR, "Two tracks of shaping meet in a row that cannot be told."),
    "shape-no-room": (ERROR, "Shaping asks for more shaped rows than there are rows."),
    "shape-odd": (ERROR, "The stitches to change are no whole number of shaped rows."),
    "shape-stages": (ERROR, "A shaping in stages does not divide into them."),
    "shape-start": (ERROR, "A shaping begins on other stitches than the rows before it leave."),
    "shape-sum": (ERROR, "The tracks of a shaping do not add up to it."),
    "size-brackets": (ERROR, "A list by size is not written in the trade's form."),
    "size-too-many": (ERROR, "The pattern has too many sizes."),
    "size-twice": (ERROR, "Two sizes have the same name."),
    "term-unexplained": (ADVICE, "A bobble, cluster, popcorn or puff is worked and not explained."),
    "term-unused": (ADVICE, "A special stitch is not worked by any row."),
    "unit-ages": (ERROR, "Ages cannot be read."),
    "unit-mass": (ERROR, "A mass cannot be read."),
    "unit-mixed": (ADVICE, "A measurement of the body is listed in two units."),
    "unit-number": (ERROR, "A number cannot be read."),
    "video-beyond": (ERROR, "A time lies behind the end of the film."),
    "video-missing": (ERROR, "A time is given and there is no film."),
    "video-no-seconds": (ERROR, "`time_link` does not say where the seconds go."),
    "video-order": (ERROR, "A time of the film lies before the one above it."),
    "video-time": (ERROR, "A time of the film cannot be read."),
    # count-, gauge-, size-: grading
    "count-impossible": (ERROR, "No number is what the count asks for."),
    "count-match": (ERROR, "A count cannot be the same as the one that it must match."),
    "count-negative": (ERROR, "A count made from others is less than zero."),
    "count-not-whole": (ERROR, "A count made from others is not whole in every size."),
    "count-off": (ERROR, "A count measures too much or too little of what is wanted."),
    "count-rule": (ERROR, "Listed numbers break the rule that is stated with them."),
    "count-step": (ERROR, "No numbers keep the steps from size to size that are asked for."),
    "fit-other": (ERROR, "One fit is claimed, and another is graded."),
    "fit-unheld": (ADVICE, "A fit or an ease is given that nothing finished shows."),
    "gauge-basis": (ERROR, "It is not clear what a gauge counts."),
    "gauge-missing": (ERROR, "A count names a gauge that the pattern does not give."),
    "gauge-no-rows": (ERROR, "Rows are asked for and the gauge holds stitches only."),
    "gauge-swatch": (ADVICE, "A swatch that was measured has another gauge than is stated."),
    "gauge-weight": (ADVICE, "A gauge is not usual for yarn of this weight."),
    "gauge-zero": (ERROR, "A gauge holds a zero."),
    "name-circle": (ERROR, "Measurements or counts are made from each other, in a circle."),
    "name-twice": (ERROR, "A measurement has the name of a body measurement."),
    "name-unknown": (ERROR, "A name is used that nothing has."),
    "size-falls": (ADVICE, "A measurement or a list falls from one size to the next."),
    "size-jump": (ADVICE, "One size grows far more than the others."),
    "size-no-length": (ERROR, "A measurement that is counted over is not above zero."),
    "size-order": (ERROR, "A count makes a larger size smaller than the one before it."),
    "unit-formula": (ERROR, "A formula cannot be read or worked out."),
    # caution-, level-: safety, and how demanding it is
    "caution-ages": (ERROR, "The ages are not those of the audience."),
    "caution-cord": (ERROR, "A cord at hood or neck, for a child."),
    "caution-cord-length": (ADVICE, "A cord in children's clothes, of limited length."),
    "caution-cord-place": (ERROR, "A cord in children's clothes does not say where it goes."),
    "caution-melting": (ADVICE, "A yarn that melts, for a thing that gets hot."),
    "caution-other": (ERROR, "A cord or a small part is listed as a notion of no kind."),
    "caution-part-size": (ADVICE, "A part for the youngest that may be small enough to choke on."),
    "caution-small-part": (ERROR, "A small part on a toy, or for a child under three."),
    "caution-unlisted": (ADVICE, "The text tells of a cord or a part that is no notion."),
    "level-low": (ADVICE, "The level is lower than the rows ask for."),
    # notion-: buttons
    "notion-buttons": (ADVICE, "There are not as many buttons as holes."),
    # care-: care and what fibres bear
    "care-contradicts": (ERROR, "Two treatments of care stand beside each other for one."),
    "care-fibre": (ADVICE, "A fibre does not bear the care that is told."),
    "care-word": (ERROR, "A word for care is none of its group."),
    # yarn-: amounts
    "yarn-amounts-close": (ADVICE, "The designer's own amount leaves less than the margin."),
    "yarn-amounts-fall": (ERROR, "The designer's own amounts fall from a size to a larger one."),
    "yarn-amounts-much": (ADVICE, "The designer's own amount is far more than is computed."),
    "yarn-amounts-part-ball": (ERROR, "The designer's own amount asks for part of a ball."),
    "yarn-amounts-short": (ERROR, "The designer's own amount is less than is computed."),
    "yarn-amounts-unit": (ERROR, "An amount does not say whether it is balls, a length or a mass."),
    "yarn-colour-unlisted": (ERROR, "A colour is used that no yarn lists."),
    "yarn-colour-unsaid": (ADVICE, "It is not said in which of a yarn's colours rows are worked."),
    "yarn-empty-swatch": (ERROR, "A swatch has no stitches but chains."),
    "yarn-fibre-sum": (ERROR, "The fibres of a yarn do not add up to 100 %."),
    "yarn-no-swatch": (ADVICE, "A yarn has no weighed swatch, so it has no amount."),
    "yarn-swatch-coarse": (ADVICE, "A swatch is too light for how finely it was weighed."),
    "yarn-swatches-contradict": (ERROR, "By its swatches a stitch would take less than nothing."),
    "yarn-too-many-balls": (ERROR, "A size would need more than 200 balls of one yarn."),
    "yarn-trimming-empty": (ERROR, "A fringe, tassel or pompom takes no yarn."),
    "yarn-unknown-stitch": (
        ADVICE,
        "No swatch tells what a stitch takes, so a yarn has no amount.",
    ),
    "yarn-unused": (ADVICE, "A yarn is given that no section is worked in."),
    "yarn-wraps": (ADVICE, "A yarn wraps the inch as yarn of its weight does not."),
    "yarn-zero": (ERROR, "A swatch or sample weighs nothing, or a put-up holds a zero."),
    # hook-: hooks
    "hook-differs": (ERROR, "A gauge is given two hooks."),
    "hook-name": (ADVICE, "A hook is called by a name that it does not have in the tables."),
    "hook-unsold": (ADVICE, "A hook has a size that no published table has."),
    "hook-weight": (ADVICE, "A hook is not usual for yarn of this weight."),
    # sample-: what finished samples took
    "sample-contradicts": (ERROR, "A finished sample took far more or less than is computed."),
    "sample-differs": (ADVICE, "A finished sample took more or less than the margin allows."),
    "sample-gauge": (ADVICE, "A finished sample came out at another gauge."),
    "sample-measure": (ADVICE, "A finished sample measures otherwise than its size."),
    # seam-: edges and what is joined to what
    "seam-edge": (ERROR, "It is not clear what an edge consists of."),
    "seam-form": (ERROR, "A seam does not say what is joined to what."),
    "seam-length": (ERROR, "Two edges that are joined differ in length."),
    "seam-unmeasured": (ERROR, "An edge of a seam cannot be measured."),
    # row-, count-: notation and proof
    "count-formula": (ERROR, "A formula in a row cannot be worked out over the counts."),
    "count-not-reached": (ERROR, "Rows are repeated until a count that they never reach."),
    "count-stated": (ERROR, "A stated count is not what the row makes."),
    "count-unchecked": (ADVICE, "A count is stated in a unit of the designer's own."),
    "count-unit": (ERROR, "A count is stated in a unit that the row does not make."),
    "change-row": (ERROR, "A change names a row that the pattern does not have."),
    "row-chains-counted": (ERROR, "Chains are said to count as another number of stitches."),
    "row-decrease": (ERROR, "A decrease is worked over another number of stitches than its own."),
    "row-length-start": (ADVICE, "It is not clear from where a length is measured."),
    "row-no-such-place": (ERROR, "A row works into a place that the row before does not have."),
    "row-no-such-row": (ERROR, "A row repeats a row that is not there."),
    "row-number": (ERROR, "A written row number is not the row's number."),
    "row-off-length": (ERROR, "Whole rows do not come near enough to the length asked for."),
    "row-open-ring": (ERROR, "An open repeat is worked into a ring, which has no stitches."),
    "row-past-length": (ERROR, "The piece is longer already than the length asked for."),
    "row-reading": (ADVICE, "A row comes out only when it is read in its second way."),
    "row-repeat-halfway": (ADVICE, "A repeat of several rows stops halfway, unasked."),
    "row-side": (ERROR, "A written right or wrong side is not the row's side."),
    "row-skipped-chains": (ERROR, "The chains said to be skipped are not those that are."),
    "row-start-option": (ERROR, "What is there before the first row is not understood."),
    "row-stitch-option": (ERROR, "A stitch given to the command is not explained."),
    "row-takes-nothing": (ERROR, "An open repeat takes up no stitch."),
    "row-too-long": (ERROR, "A row has too many characters or steps."),
    "row-too-many": (ERROR, "A number in a row is larger than any piece."),
    "row-turning-chain": (ADVICE, "Whether a turning chain counts is not said."),
    "size-list": (ERROR, "A list by size has another length than the list of sizes."),
    "size-unknown": (ERROR, "A size is named that the pattern does not have."),
    "stitch-words": (ADVICE, "The words of a stitch are not read: it counts as one stitch."),
    "unit-length": (ERROR, "A length cannot be read."),
    "row-note": (ADVICE, "A sentence among the rows is taken as a note."),
    "row-not-understood": (ERROR, "A phrase of the row is not understood."),
    "row-uneven": (ERROR, "The row does not come out: stitches are left over or missing."),
}


#: What codes are about, and the words that those codes begin with.
FAMILIES: dict[str, tuple[str, ...]] = {
    "Rows": ("row",),
    "Counts": ("count",),
    "Shaping and holes": ("shape", "holes"),
    "Edges and seams": ("seam",),
    "Sizes and lengths": ("size", "unit", "fit"),
    "Body charts": ("chart",),
    "Gauges and hooks": ("gauge", "hook"),
    "Yarn and samples": ("yarn", "sample"),
    "Safety": ("caution",),
    "Care, notions and level": ("care", "notion", "level"),
    "Names, terms and stitches": ("name", "term", "stitch"),
    "Pictures, films and links": ("picture", "video", "link"),
    "Changes since a pattern was published": ("change", "former"),
    "Files": ("file",),
}


def in_families() -> dict[str, tuple[str, ...]]:
    """What codes are about, and those codes in the order of the alphabet.

    >>> in_families()["Edges and seams"]
    ('seam-edge', 'seam-form', 'seam-length', 'seam-unmeasured')
    """
    return {
        title: tuple(sorted(code for code in CATALOGUE if code.partition("-")[0] in words))
        for title, words in FAMILIES.items()
    }


def severity(code: str) -> Severity:
    """The severity of a code; a code that is not in the catalogue is a bug (KeyError)."""
    return CATALOGUE[code][0]
