"""What each command does; ``cli`` reads the words and prints the report."""
