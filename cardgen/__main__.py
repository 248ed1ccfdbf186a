"""`python -m cardgen` is the same as `cardgen`."""

from cardgen.cli import main

main()
