"""From games to marks on sheets of paper, all in mm: pure, no PDF."""
