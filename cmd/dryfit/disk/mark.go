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

// Mark is the name of the file that tells a folder dryfit wrote from one it did not. It lists
// the other files, each with the sum of what was written.
const Mark = ".dryfit-pack"

const markHead = "written by dryfit; it replaces this folder only while it holds these files as they were written"

// markOf returns the text of the mark: after the first line, lines as sha256sum writes them.
func markOf(files []File) []byte {
	var b bytes.Buffer
	b.WriteString(markHead + "\n")
	for _, f := range files {
		b.WriteString(sumOf(f.Data) + "  " + f.Name + "\n")
	}
	return b.Bytes()
}

// marked returns the sums by name that a mark lists; false where it is none.
func marked(mark []byte) (map[string]string, bool) {
	head, rest, _ := strings.Cut(string(mark), "\n")
	if head != markHead {
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
