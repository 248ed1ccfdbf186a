"""The edge that reads: data files, pictures, letterforms, the dictionary."""
