# `make` sets everything up and engraves the demo; `make test` runs the tests. Nothing else is needed.

VENV := .venv
BIN := $(VENV)/bin
DEMO := docs/demo/fog-signals.gesture
SAMPLED := tests/golden/test_gallery.py tests/pipeline/test_gesture_cache.py tests/lang/test_properties.py \
  tests/checker/test_bad_input.py
FORKS := tests/security/test_killed.py  # forks, which a process that talks to others in threads must not

.DELETE_ON_ERROR:
.PHONY: all demo test style soak bench gallery handbook clean

all: demo

demo: $(VENV)/.run-ready
	@$(BIN)/gesturesmith engrave -o out $(DEMO)

# What takes one process goes beside what takes all cores, and is shown after it.
test: $(VENV)/.test-ready
	@log=$$(mktemp) && status=0; \
	{ $(MAKE) --no-print-directory style && $(BIN)/python -m pytest $(FORKS); } >"$$log" 2>&1 & beside=$$!; \
	$(BIN)/python -m pytest --numprocesses auto --dist loadfile --no-loadscope-reorder --ignore $(FORKS) || status=$$?; \
	wait $$beside || status=$$?; \
	cat "$$log"; rm -f "$$log"; exit $$status

style: $(VENV)/.test-ready
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .
	@$(BIN)/mypy

# What `make test` does with samples, with everything: half an hour on a machine that does nothing else.
soak: $(VENV)/.test-ready
	@$(BIN)/python -m pip install --quiet --only-binary atheris --editable '.[soak]' \
	  || echo "atheris has no wheel for this Python: the guided search is left out"
	@GESTURESMITH_SOAK=1 GESTURESMITH_FUZZ=100000 $(BIN)/python -m pytest tests/security
	@GESTURESMITH_SOAK=1 $(BIN)/python -m pytest $(SAMPLED)
	@$(BIN)/python -m pytest --numprocesses auto tests/reading/everything.py
	@$(BIN)/python -m pytest tests/handbook_again.py
	@GESTURESMITH_SOAK=1 $(BIN)/python -m pytest --numprocesses auto tests/words
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
	@$(BIN)/python -m pip install --quiet --editable .
	@touch $@

$(VENV)/.test-ready: pyproject.toml | $(BIN)/python
	@$(BIN)/python -m pip install --quiet --editable '.[test]'
	@touch $@ $(VENV)/.run-ready

clean:
	rm -rf $(VENV) .mypy_cache .ruff_cache .pytest_cache .hypothesis
