"""One recipe a command: its own way through words, games and sheets. `build.py` calls them; they belong to its room."""
