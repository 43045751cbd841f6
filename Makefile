# Two commands on a fresh machine: `make demo` and `make test`. Both set up `.venv` by themselves.
PYTHON ?= python3
BIN := .venv/bin

.PHONY: demo test check golden docs bench clean

demo: .venv/demo.stamp
	$(BIN)/scantling plan src/scantling/examples/sewing-desk.yaml --shop src/scantling/examples/shops/sewing-desk.yaml --out out

test: .venv/test.stamp
	$(BIN)/ruff check src tests benchmarks
	$(BIN)/ruff format --check --quiet src tests benchmarks
	$(BIN)/mypy
	$(BIN)/python -m pytest -n 2 --cov --cov-report=term:skip-covered

check: test

docs: .venv/test.stamp
	$(BIN)/python -m scantling.piece.language.reference
	$(BIN)/python benchmarks/pictures.py
	$(BIN)/python -m benchmarks.desk_pictures

bench: .venv/test.stamp
	$(BIN)/python benchmarks/times.py

clean:
	rm -rf .venv out build dist

.venv/demo.stamp: pyproject.toml constraints.txt
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[fast]'
	touch $@

.venv/test.stamp: .venv/demo.stamp
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[test,dev]'
	touch $@
