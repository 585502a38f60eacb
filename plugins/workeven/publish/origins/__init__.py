"""Where each figure of a page comes from: a file beside the page, for who checks and who doubts.

Takes     finished pages, and the patterns that they were made from.
Gives     ``beside``: an attachment ``figures.json`` for each page; ``FIGURES``.
Problems  none.
From      design.md, "Numbers a maker can trust": every number on a page comes from the model or the
          proof.

The page is read as a maker reads it, text by text, with what each size reads; beside each text that
holds a figure stands what its figures are, in their order, in words of the model: ``mitt.cuff-4:
times``. Nothing is computed here. The tests read the pages by other code, and compute each figure
anew from what is named.
"""

from workeven.publish.origins.sheet import FIGURES, beside

__all__ = ["FIGURES", "beside"]
