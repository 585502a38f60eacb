"""Publishing: pages, drawings, data files, and the way into MkDocs."""
