# `make` sets everything up and engraves the demo; `make test` runs the tests. Nothing else is needed.

VENV := .venv
BIN := $(VENV)/bin
DEMO := docs/demo/fog-signals.gesture
# Forks, which a process that talks to others in threads must not.
FORKS := tests/security/test_killed.py
SAMPLED := $(filter-out $(FORKS),$(shell grep -rlE '^from (sampling|hypothesis) import' tests --include 'test_*.py'))
# Where Python must leave no bytecode beside its sources, it is kept here: compiling takes longer than collecting.
BYTECODE := $(if $(PYTHONDONTWRITEBYTECODE),env -u PYTHONDONTWRITEBYTECODE PYTHONPYCACHEPREFIX="$(CURDIR)/$(VENV)/bytecode")
PYTEST := $(BYTECODE) $(BIN)/python -m pytest
ON_ALL_CORES := --numprocesses auto --dist loadfile --no-loadscope-reorder

.DELETE_ON_ERROR:
.PHONY: all demo test test-all style soak bench gallery handbook clean

all: demo

demo: $(VENV)/.run-ready
	@$(BIN)/gesturesmith engrave -o out $(DEMO)

# What takes one process goes beside what takes all cores, and is shown after it.
test: $(VENV)/.test-ready
	@log=$$(mktemp) && status=0; \
	{ $(MAKE) --no-print-directory style && $(PYTEST) $(FORKS); } >"$$log" 2>&1 & beside=$$!; \
	$(PYTEST) $(ON_ALL_CORES) --ignore $(FORKS) || status=$$?; \
	wait $$beside || status=$$?; \
	cat "$$log"; rm -f "$$log"; exit $$status

# What `make test` does with samples, with everything: some minutes more.
test-all: $(VENV)/.test-ready
	@GESTURESMITH_WHOLE=1 $(PYTEST) $(ON_ALL_CORES) $(SAMPLED)
	@GESTURESMITH_WHOLE=1 $(PYTEST) $(FORKS)

style: $(VENV)/.test-ready
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .
	@$(BIN)/mypy

# Far more cases, made up by chance: half an hour on a machine that does nothing else.
soak: $(VENV)/.test-ready
	@$(BIN)/python -m pip install --quiet --only-binary atheris --editable '.[soak]' \
	  || echo "atheris has no wheel for this Python: the guided search is left out"
	@GESTURESMITH_SOAK=1 GESTURESMITH_FUZZ=100000 $(PYTEST) tests/security
	@GESTURESMITH_SOAK=1 $(PYTEST) $(ON_ALL_CORES) $(filter-out tests/security/%,$(SAMPLED))
	@$(PYTEST) --numprocesses auto tests/reading/everything.py tests/musicxml/everything.py
	@$(PYTEST) tests/handbook_again.py
	@$(BIN)/python tests/security/guided.py

gallery: $(VENV)/.run-ready
	@$(BIN)/python docs/gallery.py

handbook: $(VENV)/.test-ready
	@$(BIN)/python docs/handbook/build.py

bench: $(VENV)/.test-ready
	@$(BIN)/python benchmarks/bench.py
	@$(BIN)/python benchmarks/check.py
	@$(BIN)/python benchmarks/engraving.py
	@$(BIN)/python benchmarks/batches.py
	@$(BIN)/python benchmarks/page.py

# A shim of that name can exist and fail, and `python3` can be too old: each candidate is run, not looked at.
define FIND_PYTHON
for python in "$$PYTHON" python3 python3.13 python3.12 $$(ls -d "$$HOME"/.pyenv/versions/*/bin/python 2>/dev/null | sort -rV); do \
  [ -n "$$python" ] || continue; \
  "$$python" -c 'import ensurepip, sys, venv; sys.exit(sys.version_info < (3, 12))' >/dev/null 2>&1 && break; \
  python=; \
done; \
if [ -z "$$python" ]; then \
  echo "Gesturesmith needs Python 3.12 or newer with its venv module, and none of these ran:" >&2; \
  echo "  \$$PYTHON, python3, python3.13, python3.12, ~/.pyenv/versions/*" >&2; \
  echo "Install one, or name it: make PYTHON=/path/to/python3.12" >&2; \
  echo "(On Debian and Ubuntu the venv module is a package of its own, such as python3.12-venv.)" >&2; \
  exit 1; \
fi
endef

export PYTHON
export PIP_DISABLE_PIP_VERSION_CHECK := 1

$(BIN)/python:
	@$(FIND_PYTHON); \
	echo "Setting up with $$("$$python" --version) ..."; \
	"$$python" -m venv --clear $(VENV)

$(VENV)/.run-ready: pyproject.toml | $(BIN)/python
	@$(BIN)/python -m pip install --quiet --editable '.[write]'
	@touch $@

$(VENV)/.test-ready: pyproject.toml | $(BIN)/python
	@$(BIN)/python -m pip install --quiet --editable '.[test]'
	@touch $@ $(VENV)/.run-ready

clean:
	rm -rf $(VENV) .mypy_cache .ruff_cache .pytest_cache .hypothesis
