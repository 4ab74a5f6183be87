package quantity

// CompareBool orders what does not hold before what does, as cmp.Compare orders numbers.
func CompareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}
