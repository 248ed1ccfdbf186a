"""Which words begin with which sound, and what stands in their way: pure, no files, no chance of its own."""
