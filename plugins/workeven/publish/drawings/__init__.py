"""Drawings made from the proven numbers: outlines of pieces, row by row."""
