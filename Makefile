PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
UV := $(shell command -v uv 2>/dev/null)
READY := $(VENV)/.ready

.PHONY: setup demo serve test lint schema client bench clean

setup: $(READY)

$(READY): pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Scantling needs Python 3.11 or newer: make PYTHON=/path/to/python3.11"; exit 1; }
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV) || \
	  { echo "No virtual environment could be made: install your system's python3 venv package"; exit 1; }
	@echo "Setting up in $(VENV), once; this takes a minute or two."
ifdef UV
	$(UV) pip install --quiet --python $(BIN)/python -e '.[dev]'
else
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -e '.[dev]'
endif
	$(BIN)/python -m optimiser.solvers.warm
	@touch $@

# The main job on the invented week: prints a page, writes out/demo with index.html and a store.
demo: setup
	$(BIN)/scantling demo --out out/demo

# The pages on the store that the demo filled: http://127.0.0.1:8000/ (your own: scantling serve).
serve: setup
	@mkdir -p out/demo
	$(BIN)/scantling serve --store "sqlite:///$(CURDIR)/out/demo/store.db"

test: setup
	$(BIN)/pytest -n 2

lint: setup
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports

# JSON Schemas of the documents, from the models that read them; a test keeps them current.
schema: setup
	$(BIN)/python -m api.schema docs/schemas

# The Python client in tests/client, from the service's OpenAPI document; a test keeps it current.
client: setup
	$(BIN)/python -m tests.client.make

bench: setup
	$(BIN)/pytest benchmarks/timings --benchmark-only --override-ini addopts=

clean:
	rm -rf $(VENV) out build *.egg-info
