# Names for what people do here. Each target is a plain command that also works without make.

GO_RELEASE := go1.27.3
FUZZTIME   ?= 60s
CRASHES    ?= 200
DRAWS      ?= 5000
PLATFORMS  := linux/amd64 linux/arm64 windows/amd64 darwin/arm64

.PHONY: help test check generate demo bench fuzz laws release binaries

help:           ## what can be made
	@sed -n 's/^\([a-z]*\):.*## /    make \1\t/p' $(MAKEFILE_LIST) | expand -t 20

test:           ## every test
	go test ./...

check:          ## all that is demanded of a change, with what is installed (see .ci/run)
	bash .ci/run --no-install

generate:       ## write the generated Go files anew: pages from *.templ, queries from sqlc.yaml
	@if git ls-files -co --exclude-standard -- '*.templ' | grep -q .; then go tool -modfile=tools/go.mod templ generate; fi
	@for f in $$(git ls-files -co --exclude-standard -- 'sqlc.yaml' '*/sqlc.yaml'); do \
		CGO_ENABLED=0 go tool -modfile=tools/go.mod sqlc generate --no-remote -f $$f || exit 1; done

demo:           ## the main job on invented farms
	go run ./cmd/haywarden demo

bench:          ## every benchmark, compared with artefacts/bench.old if there is one
	@mkdir -p artefacts
	go test -run '^$$' -bench . -benchmem -count 6 ./... | tee artefacts/bench.new
	@if [ -e artefacts/bench.old ]; then go tool -modfile=tools/go.mod benchstat artefacts/bench.old artefacts/bench.new; \
	else echo "keep it to compare with: mv artefacts/bench.new artefacts/bench.old"; fi

fuzz:           ## every fuzz target for FUZZTIME (60s) each
	@git ls-files -co --exclude-standard -- '*_test.go' | xargs grep -o '^func Fuzz[A-Za-z0-9_]*' | sed 's/:func / /' | \
	while read -r file target; do \
		echo "== $$target in $$(dirname $$file)"; \
		go test -run '^$$' -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) ./$$(dirname $$file) </dev/null || exit 1; done

laws:           ## every property test with DRAWS (5000) new draws in place of a hundred
	RAPID_CHECKS=$(DRAWS) go test -count 1 -timeout 2h $$(git grep -l 'pgregory.net/rapid' -- '*_test.go' | xargs -n 1 dirname | sort -u | sed 's,^,./,')

release: check  ## what is demanded of a release: long crash runs, long fuzzing, benchmarks, then the binaries
	HAYWARDEN_CRASHES=$(CRASHES) go test -count 1 -timeout 2h ./...
	$(MAKE) fuzz FUZZTIME=10m
	$(MAKE) laws
	$(MAKE) bench
	bench/peers/run.sh
	$(MAKE) binaries

binaries:       ## one program for each platform, in dist/, by the toolchain of release builds
	@rm -rf dist && mkdir dist
	@for p in $(PLATFORMS); do \
		os=$${p%/*} arch=$${p#*/} end=; [ $$os != windows ] || end=.exe; \
		echo "dist/haywarden-$$os-$$arch$$end"; \
		GOTOOLCHAIN=$(GO_RELEASE) CGO_ENABLED=0 GOOS=$$os GOARCH=$$arch \
			go build -trimpath -ldflags '-s -w' -o dist/haywarden-$$os-$$arch$$end ./cmd/haywarden || exit 1; done
	@cd dist && sha256sum * > SHA256SUMS
