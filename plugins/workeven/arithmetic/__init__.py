"""Exact arithmetic: values by size, quantities, formulas."""
