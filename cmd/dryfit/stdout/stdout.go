// Package stdout knows whether the command was started with its standard output closed
// (">&-" in a shell). Go's runtime opens the null device on a closed descriptor before any
// Go code runs, so what is printed there would vanish without an error. Only C code that runs
// before the runtime can look: a build without cgo can't tell, and prints into the void.
package stdout
