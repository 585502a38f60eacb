# The commands of this checkout. All paths are relative and every tool is called through
# `.venv/bin/python -m`, so that a checkout in a folder with spaces works too.

python := .venv/bin/python
compile := $(python) -m piptools compile --quiet --generate-hashes --strip-extras --allow-unsafe \
	--no-emit-options --no-header $(if $(UPGRADE),--upgrade)

.PHONY: site test serve lock wheel bench bench-site bench-warm pictures oracle seeded mutants fuzz kills
.SILENT:

# Check the collection, build it to site/ and say where to open it.
site:
	sh tools/setup.sh site
	$(python) -m workeven.cli check patterns
	NO_MKDOCS_2_WARNING=1 $(python) -m mkdocs --quiet build --strict
	echo "The site is built: open site/index.html in a browser."

# Install what tests need and run them all.
test:
	sh tools/setup.sh test
	if grep -rqs --include='*.py' playwright tests; then sh tools/chromium.sh; fi
	sh tools/test.sh

# Live preview, drafts included; rebuilt on every save.
serve:
	sh tools/setup.sh site
	NO_MKDOCS_2_WARNING=1 $(python) -m mkdocs serve --livereload

# Write the lock files anew; `make lock UPGRADE=1` takes the newest releases.
lock:
	sh tools/setup.sh lock
	$(compile) --output-file locks/site.txt pyproject.toml locks/site.in
	$(compile) --output-file locks/test.txt pyproject.toml locks/test.in
	$(compile) --output-file locks/lock.txt locks/lock.in
	$(compile) --output-file locks/mutants.txt pyproject.toml locks/mutants.in

# The package for other studios, in dist/.
wheel:
	sh tools/setup.sh site
	$(python) -m hatchling build --target wheel

# The pictures of the README, from the built site; needs Chromium.
pictures: site
	sh tools/setup.sh test
	sh tools/chromium.sh
	$(python) -m tools.pictures

# Speed, as ratios in JSON.
bench:
	sh tools/setup.sh site
	$(python) -m benchmarks.run

# How a site grows up to 3,000 patterns, and what a page weighs; some ten minutes.
bench-site:
	sh tools/setup.sh site
	$(python) -m benchmarks.growth

# What a build takes when nothing or one pattern has changed, at 1,000 patterns; some ten minutes.
bench-warm:
	sh tools/setup.sh site
	$(python) -m benchmarks.warm

# The long runs of the checks of the counts; their figures stand in DEVELOPERS.md.

# Ten thousand generated pieces and as many in other words, counted twice; some twenty minutes.
oracle:
	sh tools/setup.sh test
	WORKEVEN_ORACLE_PIECES=10000 $(python) -m pytest -q tests/oracle

# The mistakes of designers at up to a thousand places a class; some half an hour.
seeded:
	sh tools/setup.sh test
	$(python) -m tests.seeded

# A million inputs that nobody wrote; an hour, or as much as there is time for: it goes on from there.
fuzz:
	sh tools/setup.sh test
	$(python) -m tests.fuzz 1000000

# Builds that are killed at 200 random moments, and failed at every write; some twenty minutes.
kills:
	sh tools/setup.sh test
	NO_MKDOCS_2_WARNING=1 PYTHONPATH=plugins:. $(python) -m tests.killed 200 0

# Mutation testing of the modules that decide counts; some hours the first time.
mutants:
	sh tools/setup.sh mutants
	sh tools/mutants.sh
