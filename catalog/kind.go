package catalog

import "slices"

// kindNeed says what rows of a kind must tell.
type kindNeed struct {
	name  string
	needs []string // columns that may not be empty
	loss  bool     // must have a loss in some form
	sized bool     // must have a size
}

// kindNeeds is every kind a row may have.
var kindNeeds = []kindNeed{
	{name: "pipe", needs: []string{"spec", "outside", "bore", "roughness", "rating"}, sized: true},
	{name: "elbow-90", needs: []string{"take-off", "socket", "ends"}, loss: true, sized: true},
	{name: "elbow-45", needs: []string{"take-off", "socket", "ends"}, loss: true, sized: true},
	{name: "elbow-22.5", needs: []string{"take-off", "socket", "ends"}, loss: true, sized: true},
	{name: "elbow-90-sweep", needs: []string{"take-off", "socket", "ends"}, loss: true, sized: true},
	{name: "tee", needs: []string{"take-off", "branch-take-off", "socket", "ends"}, loss: true, sized: true},
	{name: "reducing-tee", needs: []string{"size2", "take-off", "branch-take-off", "socket", "ends"}, loss: true, sized: true},
	{name: "coupling", needs: []string{"length", "socket", "ends"}, sized: true},
	{name: "slip-coupling", needs: []string{"socket", "overall", "ends"}, sized: true},
	{name: "union", needs: []string{"length", "socket", "ends"}, sized: true},
	{name: "reducing-bush", needs: []string{"size2", "take-off", "socket", "ends"}, sized: true},
	{name: "reducer", needs: []string{"size2", "length", "ends"}, sized: true},
	{name: "transition", needs: []string{"size2", "spec", "spec2", "length", "ends"}, sized: true},
	{name: "ball-valve", needs: []string{"length", "socket", "ends", "rating"}, loss: true, sized: true},
	{name: "gate-valve", needs: []string{"length", "socket", "ends", "rating"}, loss: true, sized: true},
	{name: "butterfly-valve", needs: []string{"length", "ends", "rating"}, loss: true, sized: true},
	{name: "check-valve", loss: true},
	{name: "diverter-valve", needs: []string{"ways"}, loss: true},
	{name: "manifold", needs: []string{"ways"}, loss: true},
	{name: "thread-adaptor", needs: []string{"length", "socket", "ends"}, sized: true},
	{name: "barb", needs: []string{"length", "ends"}, loss: true, sized: true},
	{name: "cap", needs: []string{"socket", "ends"}, sized: true},
	{name: "drain-valve", needs: []string{"ends"}},
	{name: "air-bleed", needs: []string{"ends"}},
	{name: "thermometer-pocket", needs: []string{"ends"}},
	{name: "flow-switch", needs: []string{"ends"}, loss: true},
	{name: "pressure-switch", needs: []string{"ends"}},
	{name: "pressure-gauge", needs: []string{"ends"}},
	{name: "strainer", needs: []string{"ends"}, loss: true},
	{name: "suction", loss: true},
	{name: "jet-group", needs: []string{"bore", "k"}},
	{name: "pump"},
	{name: "filter", needs: []string{"rating"}, loss: true},
	{name: "element-heater", needs: []string{"least", "rating"}, loss: true},
	{name: "heat-exchanger", needs: []string{"rating"}, loss: true},
	{name: "heat-pump", needs: []string{"size", "least", "rated", "most", "rating"}, loss: true},
	{name: "feeder", loss: true},
	{name: "salt-cell", needs: []string{"least"}, loss: true},
	{name: "ozone-injector", loss: true},
	{name: "uv-chamber", needs: []string{"rating"}, loss: true},
	{name: "blower"},
	{name: "air-control"},
	{name: "hand-room", needs: []string{"room"}, sized: true},
}

// KindNames returns the kinds a row may have.
func KindNames() []string {
	out := make([]string, len(kindNeeds))
	for i, k := range kindNeeds {
		out[i] = k.name
	}
	return out
}

func isKind(name string) bool {
	return slices.ContainsFunc(kindNeeds, func(k kindNeed) bool { return k.name == name })
}

func needsOf(name string) kindNeed {
	for _, k := range kindNeeds {
		if k.name == name {
			return k
		}
	}
	return kindNeed{}
}
