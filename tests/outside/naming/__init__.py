"""Blind naming of the pictures: numbered sheets without names, and the answers given to them."""
