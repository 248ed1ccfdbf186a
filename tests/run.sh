#!/usr/bin/env bash
# Sets up everything the checks need on a fresh machine, then runs them all: style, types, tests.
set -eu
cd "$(dirname "$0")/.."
need=""
command -v qpdf >/dev/null || need="$need qpdf"
command -v pdftoppm >/dev/null || need="$need poppler-utils"
command -v espeak-ng >/dev/null || need="$need espeak-ng"
command -v chromium >/dev/null || need="$need chromium"
if [ -n "$need" ]; then
    sudo=""
    [ "$(id -u)" = 0 ] || sudo="sudo"
    $sudo apt-get update -qq
    $sudo apt-get install -y -qq --no-install-recommends $need
fi
[ -x .venv/bin/python ] || python3 -m venv .venv
.venv/bin/python -m pip install --quiet --disable-pip-version-check -e ".[test]"
.venv/bin/ruff check .
.venv/bin/ruff format --check .
.venv/bin/mypy
exec .venv/bin/pytest "$@"
