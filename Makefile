PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
UV := $(shell command -v uv 2>/dev/null)
READY := $(VENV)/.ready

.PHONY: demo test lint schema bench clean setup serve

setup: $(READY)

$(READY): pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Scantling needs Python 3.11 or newer; set PYTHON=/path/to/python3.11"; exit 1; }
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV) || \
	  { echo "Could not make a virtual environment: install your system's package for python3 venv"; exit 1; }
ifdef UV
	$(UV) pip install --quiet --python $(BIN)/python -e '.[dev]'
else
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -e '.[dev]'
endif
	$(BIN)/python -m optimiser.solvers.warm
	@touch $@
