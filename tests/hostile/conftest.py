"""Limits, alarms, pipes and devices are those of POSIX: elsewhere these tests are not collected."""

import sys

collect_ignore_glob = ["test_*.py"] if sys.platform == "win32" else []
