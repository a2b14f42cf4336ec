# make demo   plan the starter skiff and say what to open
# make test   make what the tests need, check style, types and the rooms' contract, and run the tests

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin

.PHONY: demo test check browser clean

demo: $(VENV)/.made
	rm -rf demo
	$(BIN)/nesting new demo/job.toml --starter skiff
	$(BIN)/nesting plan demo/job.toml --out demo/plan
	@echo "Open demo/plan/index.html in a browser."

test: $(VENV)/.made-for-tests check browser
	NESTING_BROWSER=$${NESTING_BROWSER:-$$(command -v chromium >/dev/null && command -v chromedriver >/dev/null && echo 1)} \
	$(BIN)/python -m pytest -n auto --dist worksteal

# A browser for the tests of the page, where one can be had; without one those tests say that they are left out.
browser:
	@command -v chromium >/dev/null && command -v chromedriver >/dev/null || \
	{ test "$$(id -u)" = 0 && command -v apt-get >/dev/null && \
	  apt-get update -qq && apt-get install -y -qq chromium chromium-driver >/dev/null; } || \
	echo "no browser: the tests of the page are left out"

check: $(VENV)/.made-for-tests
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

$(VENV)/.made: pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -e .
	touch $@

$(VENV)/.made-for-tests: pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -e '.[dev]'
	touch $@ $(VENV)/.made

clean:
	rm -rf $(VENV) demo build dist
