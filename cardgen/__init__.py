"""Printable matching, bingo and sorting games for teachers of beginning phonics."""

__version__ = "0.1.0"
