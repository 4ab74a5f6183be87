// Package layoutcache gives the layout library a private place for its cache before that
// library starts.
//
// The library go-graphviz compiles its layout engine in an init function and keeps the
// native code in a folder "go-graphviz" in the temporary directory. Three things are wrong
// with that. Nobody checks who owns the folder, so whoever made it first in a shared
// temporary directory chooses the code that runs. A cache file that is empty, cut short or
// damaged makes the init function panic, and so does a folder that can be read but not
// written while the file is missing. And all of this happens before main.
//
// So this package's own init points the temporary directory at a folder that only the user
// can enter ("dryfit/layout" in the user's cache directory, else one in the temporary
// directory), in which every file has been checked against a sum written beside it; and at
// no folder at all where none can be had: the library then compiles anew each time, which
// takes about half a second. Nothing here can fail: what goes wrong leads to no cache.
//
// Go initialises packages whose imports are ready in the order of their import paths.
// This package imports only what go-graphviz imports too, and "dryfit/…" sorts before
// "github.com/…", so it comes first; the tests prove it on a built program. The package
// that imports go-graphviz calls Up from its init.
package layoutcache
