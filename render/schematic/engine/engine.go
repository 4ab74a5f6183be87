// Package engine runs Graphviz, which is built in as WebAssembly.
//
// Nothing runs before the first Layout: a command that draws no schematic pays nothing. The
// first one compiles the code, or reads it compiled from the folder that layoutcache watches
// over; where there is no such folder it takes about half a second, each time. Every layout
// has a fresh memory, so that none can see or harm another, and they may run at once. The
// engine has no files, no network, no clock and no arguments.
//
// graphviz.wasm is made by shrink.sh, which says from what.
package engine

import (
	"context"
	_ "embed" // the engine itself
	"errors"
	"fmt"
	"sync"

	"dryfit/render/schematic/layoutcache"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"
)

//go:embed graphviz.wasm
var code []byte

// engine is the compiled code, ready to be given a memory.
type engine struct {
	runtime wazero.Runtime
	code    wazero.CompiledModule
}

// started starts the engine the first time it is asked.
var started = sync.OnceValues(func() (*engine, error) { return start(code) })

// Compile compiles code as the first Layout does Graphviz's, with the same folder; it runs
// nothing of it. The probe of layoutcache's tests tries small code with it.
func Compile(code []byte) error {
	_, err := start(code)
	return err
}

// Layout places the nodes of a graph in the DOT language with Graphviz's dot, and returns the
// graph with their places as its json0 writes it. A failure of the engine is an error.
func Layout(dot []byte) (json []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the layout engine failed: %v", r)
		}
	}()
	e, err := started()
	if err != nil {
		return nil, fmt.Errorf("starting the layout engine: %w", err)
	}
	return e.layout(context.Background(), dot)
}

// start compiles with what was compiled before, else without; and has what is new signed.
func start(code []byte) (*engine, error) {
	ctx := context.Background()
	if folder := layoutcache.Open().Folder; folder != "" {
		if cache, err := wazero.NewCompilationCacheWithDir(folder); err == nil {
			if e, err := compile(ctx, code, wazero.NewRuntimeConfig().WithCompilationCache(cache)); err == nil {
				layoutcache.Sign(folder)
				return e, nil
			}
		}
	}
	return compile(ctx, code, wazero.NewRuntimeConfig())
}

func compile(ctx context.Context, code []byte, config wazero.RuntimeConfig) (*engine, error) {
	r := wazero.NewRuntimeWithConfig(ctx, config)
	c, err := r.CompileModule(ctx, code)
	if err != nil {
		return nil, errors.Join(err, r.Close(ctx))
	}
	if _, err := wasi_snapshot_preview1.Instantiate(ctx, r); err != nil {
		return nil, errors.Join(err, r.Close(ctx))
	}
	if err := answerNothing(ctx, r, c); err != nil {
		return nil, errors.Join(err, r.Close(ctx))
	}
	return &engine{r, c}, nil
}

// answerNothing gives the code the functions it asks for by name. They call back into a program
// that brings renderers and shapes of its own; here none does, and none is ever called.
func answerNothing(ctx context.Context, r wazero.Runtime, c wazero.CompiledModule) error {
	host := r.NewHostModuleBuilder("env")
	for _, f := range c.ImportedFunctions() {
		module, name, _ := f.Import()
		if module != "env" {
			continue
		}
		host.NewFunctionBuilder().WithGoModuleFunction(api.GoModuleFunc(func(context.Context, api.Module, []uint64) {
			panic("the layout engine asks for " + name)
		}), f.ParamTypes(), f.ResultTypes()).Export(name)
	}
	_, err := host.Instantiate(ctx)
	return err
}

// quiet is the level of Graphviz's messages above all of them: nothing goes to standard error.
const quiet = 3

// layout gives the code a memory and calls Graphviz in it as a C program does.
func (e *engine) layout(ctx context.Context, dot []byte) ([]byte, error) {
	m, err := e.runtime.InstantiateModule(ctx, e.code, wazero.NewModuleConfig().WithName(""))
	if err != nil {
		return nil, err
	}
	defer func() { _ = m.Close(ctx) }()
	c := &caller{ctx: ctx, m: m}
	c.call("agseterr", quiet)
	cell := c.call("malloc", 8)
	c.call("wasm_bridge_SymList_default", cell)
	gvc := c.call("gvContextPlugins", c.plugins(c.word(cell)), 0)
	graph := c.call("agmemread", c.text(string(dot)))
	if c.err == nil && graph == 0 {
		return nil, errors.New("the graph can't be read")
	}
	if failed := c.call("gvLayout", gvc, graph, c.text("dot")); c.err == nil && failed != 0 {
		return nil, errors.New("the graph can't be laid out")
	}
	if failed := c.call("gvRenderData", gvc, graph, c.text("json0"), cell, cell+4); c.err == nil && failed != 0 {
		return nil, errors.New("the layout can't be written")
	}
	out := c.bytes(c.word(cell), c.word(cell+4))
	return out, c.err
}

// caller calls functions of the code and reads its memory; after the first error it does
// nothing more.
type caller struct {
	ctx context.Context
	m   api.Module
	err error
}

// call returns what the function returns, 0 where it returns nothing.
func (c *caller) call(name string, args ...uint64) uint64 {
	if c.err != nil {
		return 0
	}
	out, err := c.m.ExportedFunction(name).Call(c.ctx, args...)
	if err != nil {
		c.err = fmt.Errorf("%s: %w", name, err)
		return 0
	}
	if len(out) == 0 {
		return 0
	}
	return out[0]
}

var errOutside = errors.New("an address outside the engine's memory")

// word reads 32 bits.
func (c *caller) word(at uint64) uint64 {
	v, ok := c.m.Memory().ReadUint32Le(uint32(at))
	if !ok && c.err == nil {
		c.err = errOutside
	}
	return uint64(v)
}

// plugins puts the plugins into one table, a name and an address each, as Graphviz wants them;
// they come as a slice (length, data) of pointers to such pairs, each pointer in 64 bits.
func (c *caller) plugins(slice uint64) uint64 {
	var table []byte
	n, data := c.word(slice), c.word(slice+4)
	for i := range n {
		if c.err != nil {
			return 0
		}
		table = append(table, c.bytes(c.word(data+8*i), 8)...)
	}
	return c.put(append(table, make([]byte, 8)...))
}

// text puts a string into the memory, with the zero after it, and returns its address.
func (c *caller) text(s string) uint64 { return c.put(append([]byte(s), 0)) }

// put puts bytes into the memory and returns their address.
func (c *caller) put(b []byte) uint64 {
	at := c.call("malloc", uint64(len(b)))
	if c.err == nil && (at == 0 || !c.m.Memory().Write(uint32(at), b)) {
		c.err = errOutside
	}
	return at
}

// bytes returns a copy of a piece of the memory.
func (c *caller) bytes(at, length uint64) []byte {
	b, ok := c.m.Memory().Read(uint32(at), uint32(length))
	if !ok && c.err == nil {
		c.err = errOutside
	}
	return append([]byte(nil), b...)
}
