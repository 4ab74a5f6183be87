package disk

import (
	"bytes"
	"fmt"
	"os"
)

// Replace puts a text in a file in the place of another, whole or not at all as Write does.
// Where the file holds anything but that other by now, it is left alone with an error.
func (f *Files) Replace(name string, was, text []byte) error {
	now, err := os.ReadFile(name)
	if err != nil {
		return explain(name, "read", err)
	}
	if !bytes.Equal(now, was) {
		return fmt.Errorf("%s was changed meanwhile, and is left as it is", name)
	}
	return f.Write(name, text)
}
