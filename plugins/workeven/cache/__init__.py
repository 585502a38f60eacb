"""What a run found out, kept for the next: so that what has not changed is not proven anew."""
