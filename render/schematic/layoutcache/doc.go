// Package layoutcache finds a private place for the compiled code of the layout engine.
//
// The engine is WebAssembly; compiled to native code it is kept in a file, for compiling
// takes half a second. Who can write that file chooses the code that runs. So the folder
// ("dryfit/layout" in the user's cache directory, else one in the temporary directory) is one
// that only the user can enter, below directories nobody else can rename in; and every file
// in it has been checked against a sum written beside it, because one that is cut short or
// damaged could end the program. Where no such folder can be had the engine is compiled anew
// each time. Nothing here can fail: what goes wrong leads to no cache.
package layoutcache
