//go:build !linux && !darwin

package disk

import "errors"

// exchange can't be done in one step here.
func exchange(_, _ string) error { return errors.ErrUnsupported }
