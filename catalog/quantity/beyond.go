package quantity

// Beyond returns the length in mm that prints as two lengths one behind the other do: where one
// mark lies at first and another so far behind it, both marks and what is between them then agree on
// every paper, in whole mm or sixteenths of an inch. Of two saw lines what is between them decides
// whether the work fits, so that it is told to the nearest mark; the second line may be off by one.
func Beyond(first, behind float64, s System) float64 {
	return marked(first, s) + marked(behind, s)
}

// marked is a length as Format prints it, in mm.
func marked(mm float64, s System) float64 {
	if s == InchSystem {
		return Round(mm/25.4*16, 0) / 16 * 25.4
	}
	return Round(mm, 0)
}
