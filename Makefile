# Two commands do all set-up on a machine with Python 3.11 and make:
#
#   make demo    the main job on the example: installs only what runs it
#   make test    the tests
#
# The rest: check  bench  docs  published  laws  slips  fuzz  oldest  audit  pages  requirements  clean

# The first of these that is there, works, and is 3.11 or newer; or say PYTHON=... yourself.
PYTHON ?= $(shell for each in python3.11 python3.12 python3.13 python3.14 python3 python; do \
  if $$each -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then echo $$each; break; fi; done)

VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip install --quiet --quiet --disable-pip-version-check
PYTEST := $(BIN)/python -m pytest

# Nothing of the caller's Python leaks in, and bytecode is kept, so that the second start is quick.
unexport PYTHONDONTWRITEBYTECODE PYTHONHOME PYTHONPATH PYTHONSTARTUP VIRTUAL_ENV

.PHONY: demo packets test browser check bench docs published laws slips fuzz oldest audit pages requirements clean
.DEFAULT_GOAL := demo

demo: $(VENV)/demo.stamp
	@$(BIN)/lakewright demo

# The few that must be alone on the machine come first, so that the last line printed counts the many.
# pytest says 5 when none is marked so, and that is no failure.
test: $(VENV)/test.stamp browser
	@$(PYTEST) -q -m "serial and not slow" || [ $$? -eq 5 ]
	@$(PYTEST) -n 2 -m "not serial and not slow"

check: $(VENV)/test.stamp $(VENV)/check.stamp
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(PYTEST) -q -k "current or readme or layers"

# The papers of each example, each into a folder of its own in packets/.
packets: $(VENV)/packet.stamp
	@for each in $$(grep -l '^\[job\]' examples/*.toml); do \
	  $(BIN)/lakewright packet $$each --to packets/$$(basename $$each .toml) || exit 1; done

bench: $(VENV)/bench.stamp browser
	$(BIN)/python -m benchmarks.run

docs: $(VENV)/docs.stamp
	$(BIN)/mkdocs build --strict --quiet --site-dir site
	@echo "The manual is in site/index.html"

# Values by source and place, a place counting five at most.
published: $(VENV)/test.stamp
	@$(BIN)/python -m benchmarks.published_report

# The laws with many more generated cases, and whatever is too slow for every day.
laws: $(VENV)/test.stamp
	$(PYTEST) -n 2 -m "law or slow" --hypothesis-profile=many

# Slips made on purpose, one at a time in a copy of the tree: does a test see each?
slips: $(VENV)/test.stamp
	@$(BIN)/python -m tests.slips

# Rough handling of every door, for so many seconds.
SECONDS := 1200
fuzz: $(VENV)/test.stamp
	$(BIN)/python -m tests.fuzz $(SECONDS)

# A short round of tests with the oldest of everything that pyproject.toml promises to work with.
OLDEST := $(VENV)-oldest
oldest: $(VENV)/test.stamp
	@$(PYTHON) -m venv $(OLDEST)
	@$(OLDEST)/bin/python -m pip install --quiet --disable-pip-version-check $$($(BIN)/python -m tests.oldest test)
	@$(OLDEST)/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --editable .
	$(OLDEST)/bin/python -m pytest -q $$($(BIN)/python -m tests.oldest --short)

# Known weaknesses of the libraries this stands on, asked of the public list: needs a network that reaches it.
audit: $(VENV)/test.stamp
	@$(PIP) pip-audit
	$(BIN)/python -m pip_audit --local --skip-editable --progress-spinner off

# What is written from the code itself: `make check` says when it is not current.
pages: $(VENV)/test.stamp
	$(BIN)/python -m tests.test_architecture
	$(BIN)/python -m tests.test_readme
	$(BIN)/python -m lakewright.job.schema docs/reference/job_file.md
	$(BIN)/python -m tests.test_units
	$(BIN)/python -m tests.test_laws_page
	$(BIN)/python -m lakewright.job.water_page docs/reference/water_file.md
	$(BIN)/python tests/checks/test_facts_by_checks.py

# A hashed list of what runs the program, for those who install from one. It names no index.
requirements: $(VENV)/requirements.stamp
	$(BIN)/pip-compile --quiet --strip-extras --generate-hashes --no-header --no-annotate \
	  --no-emit-index-url --no-emit-trusted-host --no-emit-find-links --output-file requirements.txt pyproject.toml

clean:
	rm -rf $(VENV) $(VENV)-oldest __pycache__ build dist site .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis .benchmarks
	find src tests benchmarks -name __pycache__ -type d -prune -exec rm -rf {} +

# Set-up. A stamp is older than pyproject.toml when what we stand on may have changed.

$(VENV)/bin/python:
	@if [ -z "$(PYTHON)" ]; then echo "make: no Python 3.11 or newer found; install one, or say make PYTHON=..."; exit 1; fi
	@$(PYTHON) -m venv $(VENV)

$(VENV)/demo.stamp: pyproject.toml | $(VENV)/bin/python
	@echo "Fetching what runs Lakewright, about 25 MB (numpy is most of it), into $(VENV); only the first time."
	@$(PIP) --editable .
	@touch $@

$(VENV)/test.stamp: pyproject.toml | $(VENV)/bin/python
	@echo "Fetching what tests Lakewright, about 150 MB, into $(VENV); only the first time."
	@$(PIP) --editable ".[test]"
	@touch $@

# The page is tried in the machine's own Chromium. Where there is none it is fetched, if we may; nothing is skipped.
browser:
	@for each in chromium chromium-browser google-chrome google-chrome-stable; do \
	  if command -v $$each >/dev/null 2>&1; then exit 0; fi; done; \
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then \
	  echo "Fetching Chromium, in which the page is tested; only the first time."; \
	  export DEBIAN_FRONTEND=noninteractive; \
	  apt-get update -qq && apt-get install -y -qq --no-install-recommends chromium fonts-dejavu-core >/dev/null; \
	else echo "make: the page is tested in Chromium, and there is none; install it: apt-get install chromium"; exit 1; fi

$(VENV)/check.stamp: pyproject.toml | $(VENV)/bin/python
	@$(PIP) --editable ".[check]"
	@touch $@

$(VENV)/bench.stamp: pyproject.toml | $(VENV)/bin/python
	@$(PIP) --editable ".[bench]"
	@touch $@

$(VENV)/packet.stamp: pyproject.toml | $(VENV)/bin/python
	@$(PIP) --editable ".[packet]"
	@touch $@

$(VENV)/docs.stamp: pyproject.toml | $(VENV)/bin/python
	@$(PIP) --editable ".[docs]"
	@touch $@

$(VENV)/requirements.stamp: pyproject.toml | $(VENV)/bin/python
	@$(PIP) "pip-tools>=7.4"
	@touch $@
