package layoutcache

import (
	"os"
	"path/filepath"
)

// State is what the guard found and did.
type State struct {
	Folder string // the private folder; "" where there is no cache
	Why    string // why there is none, or what was set aside; "" where all was well
}

// Open finds or makes the private folder and takes out of it what can't be trusted.
func Open() State {
	why := ""
	for _, base := range bases() {
		folder, note := private(base)
		if folder == "" {
			why = note
			continue
		}
		if !verify(folder) {
			why = "the cache folder can't be tidied"
			continue
		}
		return State{Folder: folder, Why: note}
	}
	if why == "" {
		why = "no cache directory is known"
	}
	return State{Why: why}
}

// bases lists the directories to look in, the best first.
func bases() []string {
	var out []string
	if dir, err := os.UserCacheDir(); err == nil && filepath.IsAbs(dir) {
		out = append(out, filepath.Join(dir, "dryfit"))
	}
	if dir := os.TempDir(); filepath.IsAbs(dir) {
		out = append(out, filepath.Join(dir, "dryfit-"+userName()))
	}
	return out
}

// private returns the folder "layout" in base that only the user can enter, making what is
// missing; "" and the reason where it can't be had or can't be trusted.
func private(base string) (folder, note string) {
	if err := os.Mkdir(filepath.Dir(base), 0o700); err != nil && !os.IsExist(err) {
		return "", "the cache directory can't be made"
	}
	parent, err := filepath.EvalSymlinks(filepath.Dir(base))
	if err != nil {
		return "", "the cache directory can't be read"
	}
	if !safeAbove(parent) {
		return "", "others can change the directories above the cache"
	}
	for _, dir := range []string{filepath.Join(parent, filepath.Base(base)), filepath.Join(parent, filepath.Base(base), "layout")} {
		switch own(dir) {
		case ours:
		case loose:
			// Ours, but others could have written in it: out of the way with it.
			if !setAside(dir) {
				return "", "the cache folder was open to others"
			}
			note = "a cache folder that was open to others was set aside"
		case missing:
			if err := os.Mkdir(dir, 0o700); err != nil && !os.IsExist(err) {
				return "", "the cache folder can't be made"
			}
			if own(dir) != ours {
				return "", "the cache folder is not private"
			}
		default:
			return "", "the cache folder belongs to another"
		}
	}
	return filepath.Join(parent, filepath.Base(base), "layout"), note
}

// setAside renames a folder of ours, once, and makes an empty private one in its place.
func setAside(dir string) bool {
	aside := dir + ".set-aside"
	if os.RemoveAll(aside) != nil || os.Rename(dir, aside) != nil {
		return false
	}
	return os.Mkdir(dir, 0o700) == nil && own(dir) == ours
}
