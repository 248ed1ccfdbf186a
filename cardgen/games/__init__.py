"""From a pool of words to fair games as plain data: pure; chance comes in as a `random.Random`."""
