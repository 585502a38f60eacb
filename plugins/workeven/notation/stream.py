"""The tokens of a row read from left to right: what the grammar's functions share.

Takes     the text of a row and a vocabulary.
Gives     ``Stream``, ``NotUnderstood``.
Problems  none: ``NotUnderstood`` becomes a problem in ``parser``.
From      notation.md, "Sizes".
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from workeven.arithmetic import formulas
from workeven.notation.tokens import Token, tokenize
from workeven.notation.tree import (
    Amount,
    ChainsSaid,
    CountsAs,
    Earlier,
    PlaceName,
    Stated,
    TermUse,
)
from workeven.notation.vocabulary import Vocabulary


class NotUnderstood(Exception):
    """A phrase that the grammar does not take: its columns, and what to write instead.

    Private to the notation: ``parser`` turns it into a problem. ``code`` is the problem's code.
    """

    def __init__(
        self,
        start: int,
        end: int,
        found: str = "",
        mend: str = "",
        code: str = "row-not-understood",
    ) -> None:
        super().__init__(found)
        self.start = start
        self.end = end
        self.found = found
        self.mend = mend
        self.code = code


@lru_cache(maxsize=1024)
def _formula(text: str) -> formulas.Formula:
    """A formula, read once: the same one stands in many rows."""
    return formulas.read(text)


#: the longest row that is read
LONGEST = 10_000
#: kinds of tokens that are words to the grammar
_SPOKEN = ("word", "mark", "stitch")
_ARTICLES = ("the", "a", "an")


class Here(NamedTuple):
    """A place in a stream: the token that comes next, and how many amounts were read before it."""

    at: int
    amounts: int


#: makes a place of its two fields: twice as fast as ``Here(...)``, and every row asks for a dozen
_here = tuple.__new__


class Stream:
    """A position in the tokens of one row; amounts and stitch words met are kept.

    ``steps`` is how many steps were met, ``counts_told`` behind how many stated counts they stand.
    ``said`` are all words of the row: what begins nowhere without one of them need not be tried.
    ``folded`` is its text in small letters, ``under`` whether anything is worked under a chain.

    ``counting`` is what the row's chain counts as, where a stated count says it ("(24 dc, counting
    ch 3 as 1 dc)"), ``whole`` the stitch that it makes with the one behind it; ``without_chain``:
    the stated count leaves it out.
    ``each_chain`` is where the label says that each chain counts as a stitch; ``chains_counted``:
    where the stated count says so of those that the row makes. ``a_stitch`` is what "sts" means in
    the row, where it says so ("each dc and each ch-1 sp counts as a st"), at ``a_stitch_said``.
    ``rows_said`` is how many rows the line says in brackets that it stands for ("[4 rounds]").
    ``told_count`` is a count that is stated in the midst ("until the strip has 48 rows", where
    nobody can check it; "reversing shaping, until 12 sts remain").
    ``in_all`` is how many rows there are said to be in all, behind those that are repeated.
    ``for_patt`` is whether rows are said to be repeated "for pattern".
    ``twins`` are the parts, first or second, that places were said to be of.
    ``chain_space`` is whether the space of a turning chain was named as such.
    ``chains_said`` is what is said of all chains at the head of rows.
    ``turns_no_more`` is whether the row says that it and those behind it are not turned.
    ``labelled`` is whether the row has a label that is no heading of a part.
    ``way_noted`` is how a note says that the piece is worked.
    ``far_side`` is whether a place was named on the other side of a chain; ``along_chain``: whether
    the row is worked along that side.
    ``elided`` is whether a place was named by "next" alone, until the steps before it are known.
    ``but_first`` is whether each place was named but the first.
    ``nth`` is the number of a place that was counted ("4th dc"), until it is counted off, or none;
    ``nth_onward``: from where the hook is ("last of next 4 dc").
    ``onto`` holds where each place was named, and of which earlier row it is, if that was said;
    ``row_named`` is the number of the row that the last name of a place spoke of.
    """

    def __init__(self, text: str, vocabulary: Vocabulary) -> None:
        self.text = text
        self.folded = text.lower()
        self.under = "under " in self.folded
        self.vocabulary = vocabulary
        self.tokens = tokenize(text, vocabulary)
        self.said = frozenset([token.word for token in self.tokens])
        self.at = self.steps = self.counts_told = 0
        self.nth: Amount | None = None
        self.nth_onward = self.elided = self.but_first = False
        self.either: int | None = None
        self.amounts: list[Amount] = []
        self.row_named: Amount | None = None
        self.counting: CountsAs | None = None
        self.rows_said: Amount | None = None
        self.told_count: Stated | None = None
        self.in_all: Amount | None = None
        self.turns_no_more = self.far_side = self.along_chain = self.for_patt = self.chain_space = (
            self.without_chain
        ) = self.labelled = False
        self.way_noted: str | None = None
        self.whole: str | None = None
        self.each_chain: tuple[int, int] | None = None
        self.chains_counted: tuple[int, int] | None = None
        self.a_stitch: tuple[PlaceName, ...] = ()
        self.a_stitch_said: tuple[int, int] = (0, 0)
        self.twins: list[int] = []
        self.chains_said: list[ChainsSaid] = []
        self.onto: list[tuple[int, Earlier | None]] = []
        self.terms = tuple(
            [
                TermUse(token.start, token.end, token.word)
                for token in self.tokens
                if token.kind in ("stitch", "grp")
            ]
        )

    # --- looking ---------------------------------------------------------------------------

    @property
    def token(self) -> Token:
        """The token at the position."""
        return self.tokens[self.at]

    def ahead(self, steps: int = 1) -> Token:
        """The token so many further on, or the end."""
        at, tokens = self.at + steps, self.tokens
        return tokens[at] if at < len(tokens) else tokens[-1]

    @property
    def start(self) -> int:
        """The column where the token at the position begins."""
        return self.tokens[self.at].start

    @property
    def end(self) -> int:
        """The column where the last token read ended."""
        return self.tokens[self.at - 1].end if self.at else 0

    def here(self) -> Here:
        """Where the stream stands, to come back to."""
        return _here(Here, (self.at, len(self.amounts)))

    def back_to(self, here: Here) -> None:
        """Go back: what was read since was not that phrase, and its amounts were none."""
        self.at = here.at
        del self.amounts[here.amounts :]

    def at_end(self) -> bool:
        """Whether nothing is left."""
        return self.tokens[self.at].kind == "end"

    def is_word(self, *words: str) -> bool:
        """Whether the next token is one of these words."""
        token = self.tokens[self.at]
        return token.kind == "word" and token.word in words

    def is_mark(self, *marks: str) -> bool:
        """Whether the next token is one of these marks."""
        token = self.tokens[self.at]
        return token.kind == "mark" and token.word in marks

    def words_ahead(self, *words: str) -> bool:
        """Whether exactly these words come next (a mark or a folded stitch word counts too)."""
        at, tokens = self.at, self.tokens
        for word in words:
            token = tokens[at]
            if token.word != word or token.kind not in _SPOKEN:
                return False
            at += 1  # behind a word at least the end comes
        return True

    def closing(self) -> int:
        """The index of the token that closes the bracket at the position, or -1."""
        depth = 0
        for index in range(self.at, len(self.tokens)):
            token = self.tokens[index]
            if token.kind != "mark":
                continue
            if token.word in ("(", "["):
                depth += 1
            elif token.word in (")", "]"):
                depth -= 1
                if depth == 0:
                    return index
        return -1

    def begins_with_stitch(self) -> bool:
        """Whether a stitch or a chain stands here, as at the head of most rows."""
        token = self.tokens[self.at]
        return token.kind == "stitch" or (token.kind == "word" and token.word == "ch")

    # --- reading ---------------------------------------------------------------------------

    def take(self) -> Token:
        """The next token, passed."""
        token = self.tokens[self.at]
        if token.kind != "end":
            self.at += 1
        return token

    def pass_to(self, column: int) -> None:
        """Pass all tokens that begin before a column."""
        at, tokens = self.at, self.tokens
        while tokens[at].start < column and tokens[at].kind != "end":
            at += 1
        self.at = at

    def leave_out(self, start: int, end: int) -> None:
        """Take the words between two columns for read, though others stand before them."""
        self.text = f"{self.text[:start]}{' ' * (end - start)}{self.text[end:]}"
        kept = [token for token in self.tokens if not start <= token.start < end]
        self.tokens = (*kept[:-1], self.tokens[-1])

    def accept(self, *words: str) -> bool:
        """Pass exactly these words if they come next."""
        at, tokens = self.at, self.tokens
        for word in words:
            token = tokens[at]
            if token.word != word or token.kind not in _SPOKEN:
                return False
            at += 1
        self.at = at
        return True

    def accept_any(self, *words: str) -> str | None:
        """Pass one of these words if it comes next, and say which."""
        token = self.tokens[self.at]
        if token.word in words and token.kind in _SPOKEN:
            self.at += 1
            return token.word
        return None

    def expect(self, *words: str, mend: str = "") -> None:
        """Pass exactly these words, or the phrase is not understood."""
        if not self.accept(*words):
            raise self.fault(mend=mend or f"write “{' '.join(words)}” here")

    def articles(self) -> None:
        """Pass ``the``, ``a``, ``an``, which change nothing."""
        while (token := self.tokens[self.at]).word in _ARTICLES and token.kind == "word":
            self.at += 1

    def fault(
        self,
        start: int | None = None,
        *,
        found: str = "",
        mend: str = "",
        code: str = "row-not-understood",
    ) -> NotUnderstood:
        """The words from ``start`` (else from the position) to the next comma, as a fault."""
        begin = self.start if start is None else start
        end = begin
        for token in self.tokens[self.at :]:
            if token.kind == "end" or (token.kind == "mark" and token.word in (",", ";", ".")):
                break
            end = token.end
        return NotUnderstood(begin, max(end, begin), found, mend, code)

    # --- amounts ---------------------------------------------------------------------------

    def is_amount(self) -> bool:
        """Whether a number or a formula comes next (or a list by size that begins with a dash)."""
        token = self.tokens[self.at]
        if token.kind in ("num", "formula"):
            return True
        return token.kind == "mark" and token.word == "-" and self._begins_with_dash()

    def _begins_with_dash(self) -> bool:
        """``- (4, 6)``: the smallest size leaves the step out."""
        sizes = len(self.vocabulary.sizes)
        if sizes <= 1 or not self._mark_at(self.at + 1, "("):
            return False
        count, after = 1, self.at + 1
        while count < sizes and (bracket := self._bracket_of_sizes(after)) is not None:
            count, after = count + len(bracket[0]), bracket[1]
        return count == sizes

    def amount(self) -> Amount:
        """A number, a number for each size, or a formula.

        Takes: 80 (88, 96)
        Refuses: st
        """
        token = self.take()
        if token.kind == "formula":
            amount = self._formula(token)
        elif token.kind in ("num", "mark"):
            amount = self._listed(token)
        else:
            self.at -= 1 if token.kind != "end" else 0
            raise self.fault(mend="a number is expected here")
        self.amounts.append(amount)
        return amount

    def ordinal(self) -> Amount:
        """An ordinal, or one for each size, as the number that it stands for.

        Takes: 5th (6th, 6th)
        """
        token = self.take()
        amount = self._listed(token, "ord")
        if amount.by_size():
            self.amounts.append(amount)
        return amount

    def _formula(self, token: Token) -> Amount:
        try:
            formula = _formula(token.word)
        except formulas.FormulaFault as fault:
            at = min(token.start + 1 + fault.at, token.end)
            raise NotUnderstood(at, token.end, str(fault), code="unit-formula") from fault
        return Amount((), formula, token.start, token.end)

    def _listed(self, token: Token, kind: str = "num") -> Amount:
        values: list[int | None] = [token.value if token.kind == kind else None]
        after = self.at
        if not (self._mark_at(after, "(") or self._mark_at(after, "[")):
            return Amount((token.value,), None, token.start, token.end)
        while (bracket := self._bracket_of_sizes(after, kind)) is not None:
            numbers, following = bracket
            values.extend(numbers)
            after = following
        if self._is_by_size(len(values), after):
            self.at = after
            return Amount(tuple(values), None, token.start, self.tokens[after - 1].end)
        return Amount((token.value,), None, token.start, token.end)

    def _is_by_size(self, count: int, after: int) -> bool:
        known = len(self.vocabulary.sizes)
        if count == 1:
            return False
        if known == 0:
            return count > 2  # noqa: PLR2004, one number in brackets is a stated count
        if count == known:
            return True
        closes = self.tokens[after].kind == "end" or self.tokens[after].word == "."
        if (count - 1 == known and closes) or known == 1:
            return False  # a stated count for each size, or for all, stands behind the number
        names = ", ".join(self.vocabulary.sizes)
        raise NotUnderstood(
            self.tokens[self.at - 1].start,
            self.tokens[after - 1].end,
            f"{count} numbers stand here, and there are {known} sizes",
            f"write {known} numbers, one for each of {names}, or one for all",
            "size-list",
        )

    def _bracket_of_sizes(self, at: int, kind: str = "num") -> tuple[list[int | None], int] | None:
        """The numbers of ``(88, 96, -)`` at a token index, and the index after it.

        Those of ``(6th, 6th)`` are of another ``kind``.

        Square brackets list them within round ones: ``(80 [88, 96] sc)``.
        """
        square = self._mark_at(at, "[") and len(self.vocabulary.sizes) > 1
        if not (square or self._mark_at(at, "(")):
            return None
        closing = "]" if square else ")"
        numbers: list[int | None] = []
        at += 1
        while True:
            token = self.tokens[at]
            if token.kind == kind:
                numbers.append(token.value)
            elif token.kind == "mark" and token.word == "-":
                numbers.append(None)
            else:
                return None
            at += 1
            if self._mark_at(at, closing):
                return numbers, at + 1
            if not self._mark_at(at, ","):
                return None
            at += 1

    def _mark_at(self, at: int, mark: str) -> bool:
        token = self.tokens[at] if at < len(self.tokens) else self.tokens[-1]
        return token.word == mark and token.kind == "mark"
