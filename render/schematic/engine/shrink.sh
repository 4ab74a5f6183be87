#!/bin/sh
# Makes graphviz.wasm: Graphviz 12.1.2 as the module github.com/goccy/go-graphviz v0.2.10 carries
# it, without what its exports in keep.json don't reach (wasm-metadce of binaryen, version 108).
# The code that stays is unchanged; less of it is read and checked at each start.
set -eu
cd "$(dirname "$0")"
module=$(cd "$(mktemp -d)" && go mod download -json github.com/goccy/go-graphviz@v0.2.10 | sed -n 's/.*"Dir": "\(.*\)",*/\1/p')
wasm-metadce "$module/internal/wasm/graphviz.wasm" --graph-file keep.json -o graphviz.wasm >/dev/null
