package world

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
)

// endings are the endings of files that say what is in them, and the format each stands for.
var endings = map[string]string{
	"txt": "text", "csv": "csv", "json": "json", "xlsx": "xlsx", "html": "html", "htm": "html",
	"svg": "svg", "png": "png", "jpg": "jpg", "jpeg": "jpg", "pdf": "pdf", "docx": "docx", "xls": "xls", "ods": "ods",
}

// FormatOf settles the format of an output: as --format says, else by what the file is called,
// else the first of those a verb has. One that contradicts the file's name is refused: nothing
// would open the file.
func FormatOf(output, format string, said bool, formats []string) (string, error) {
	named, known := endings[strings.TrimPrefix(strings.ToLower(filepath.Ext(output)), ".")]
	switch {
	case output == "-" || !known || said && named == format:
		return format, nil
	case said:
		return "", fmt.Errorf("--format is %q, and -o %s is called as if it were %s: change one of them", format, output, named)
	case slices.Contains(formats, named):
		return named, nil
	}
	return "", fmt.Errorf("-o %s is called as if it were %s, which can't be written here: %s can", output, named, strings.Join(formats, ", "))
}
