# `make demo` and `make test` do all the set-up a fresh machine needs: Python 3.11 or later with its venv module, and a package index.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/ready

.PHONY: demo test check pages bench clean

$(READY): requirements.lock pyproject.toml
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements.lock
	$(BIN)/python -m pip install --quiet --no-deps --editable .
	touch $(READY)

demo: $(READY)  ## compile the example plan into out/
	$(BIN)/firstfix build plans/honey-farm.yaml -o out

test: $(READY)  ## all tests but the long ones
	$(BIN)/python -m pytest -q -n 2

check: $(READY)  ## format, lint, types and tests: what continuous integration runs
	$(BIN)/ruff format --check compiler tests
	$(BIN)/ruff check compiler tests
	$(BIN)/mypy
	$(BIN)/python -m pytest -q -n 2

pages: $(READY)  ## the pages made from the house's own data: schemas/plan-reference.md, schemas/rules.md
	$(BIN)/python tests/pages/write.py

bench: $(READY)  ## speed as ratios, in one run
	$(BIN)/python tests/benchmarks/run.py

clean:
	rm -rf $(VENV) out
