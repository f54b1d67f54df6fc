# Each target makes .venv and whatever else it needs. PYTHON names the interpreter that .venv is made with.
PYTHON ?= python3
BIN := .venv/bin
USABLE := .venv/usable
READY := .venv/ready
BENCH ?= --benchmark-columns=min,median,rounds --benchmark-sort=name
MUTANTS := build/mutants
MODULE ?= src/mulewright/models

.DEFAULT_GOAL := help
.PHONY: help demo test lint format types layers docs values bench mutate clean

help:
	@echo "make demo    a tour of one mule          make test    all tests"
	@echo "make lint    ruff                        make format  ruff, mending what it can"
	@echo "make types   mypy --strict               make layers  who may import whom"
	@echo "make docs    build the pages             make bench   timings"
	@echo "make values  write down anew what the tests compare with the outside"
	@echo "make mutate  break MODULE on purpose and count the tests' misses"

# What a person needs, and on top of it what the tests need.
$(USABLE): pyproject.toml constraints.txt
	rm -rf .venv
	$(PYTHON) -m venv .venv
	$(BIN)/pip install --quiet --constraint constraints.txt --editable .
	$(BIN)/python -m compileall -q src
	touch $@

$(READY): $(USABLE)
	$(BIN)/pip install --quiet --constraint constraints.txt --editable '.[dev]'
	touch $@

demo: $(USABLE)
	$(BIN)/mulewright demo
	@echo
	@echo "Next: $(BIN)/mulewright --help lists the commands, examples/ holds the mules,"
	@echo "      'make docs' builds the pages into docs/_build/html/index.html."

test: $(READY)
	$(BIN)/pytest -n auto --dist loadfile

lint: $(READY)
	$(BIN)/ruff check
	$(BIN)/ruff format --check

format: $(READY)
	$(BIN)/ruff check --fix
	$(BIN)/ruff format

types: $(READY)
	$(BIN)/mypy

layers: $(READY)
	$(BIN)/lint-imports

docs: $(READY)
	$(BIN)/sphinx-build -W --keep-going -q -b html docs docs/_build/html
	@echo "docs/_build/html/index.html"

values: $(READY)
	$(BIN)/python -m tests.values

bench: $(READY)
	$(BIN)/pytest -s benchmarks $(BENCH)

# In a copy, so that an interrupted run cannot leave a mutant in the tree.
mutate: $(READY)
	$(BIN)/pip install --quiet --constraint constraints.txt --editable '.[mutate]'
	rm -rf $(MUTANTS)
	mkdir -p $(MUTANTS)
	cp -r src tests examples pyproject.toml README.md $(MUTANTS)
	sed 's|MODULE|$(MODULE)|' mutate.toml > $(MUTANTS)/mutate.toml
	cd $(MUTANTS) && export PATH=$(CURDIR)/$(BIN):$$PATH PYTHONPATH=src PYTHONDONTWRITEBYTECODE=1 \
	&& cosmic-ray baseline mutate.toml && cosmic-ray init mutate.toml mutate.sqlite \
	&& cosmic-ray exec mutate.toml mutate.sqlite && cr-report --surviving-only --show-diff mutate.sqlite

clean:
	rm -rf .venv build dist docs/_build docs/how-to/papers .mypy_cache .pytest_cache .ruff_cache .import_linter_cache .benchmarks
