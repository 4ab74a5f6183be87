package disk

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"strings"
)

// File is one file of a folder. Name has no folder in it.
type File struct {
	Name string
	Data []byte
}

// Manifest is the name of the file that tells a folder dryfit wrote from one it did not. It lists
// the other files, each with the sum of what was written.
const Manifest = ".dryfit-pack"

const manifestHead = "written by dryfit; it replaces this folder only while it holds these files as they were written"

// manifestOf returns the text of the manifest: after the first line, lines as sha256sum writes them.
func manifestOf(files []File) []byte {
	var b bytes.Buffer
	b.WriteString(manifestHead + "\n")
	for _, f := range files {
		b.WriteString(sumOf(f.Data) + "  " + f.Name + "\n")
	}
	return b.Bytes()
}

// listed returns the sums by name that a manifest lists; false where it is none.
func listed(manifest []byte) (map[string]string, bool) {
	head, rest, _ := strings.Cut(string(manifest), "\n")
	if head != manifestHead {
		return nil, false
	}
	sums := map[string]string{}
	for line := range strings.Lines(rest) {
		sum, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		if !ok {
			return nil, false
		}
		sums[name] = sum
	}
	return sums, true
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
