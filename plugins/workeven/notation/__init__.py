"""Rows in the trade's own notation: tokens, parser, tree, wording in US and UK terms."""
