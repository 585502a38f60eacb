"""workeven: crochet patterns written once, proven in every size, published as a site."""

__version__ = "0.1.0"
