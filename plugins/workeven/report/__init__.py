"""Problems and counts for people and for programs: one file a format."""
