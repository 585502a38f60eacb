"""Pages: a pattern fit to publish becomes views of strings, and templates lay these out."""
