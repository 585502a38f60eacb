"""The scripts behind `make`."""
