package catalog

import "slices"

// The pipe specs.
const (
	PVCSch40   Spec = "pvc-sch40"
	PVCSch80   Spec = "pvc-sch80"
	PVCPN10    Spec = "pvc-pn10"
	PVCPN16    Spec = "pvc-pn16"
	FlexInch   Spec = "flex-inch"
	FlexMetric Spec = "flex-metric"
	HosePipe   Spec = "hose"
	RibbedHose Spec = "hose-corrugated" // ribs inside too, as on plug-in tubs
)

// Specs returns every pipe spec, rigid pipe first.
func Specs() []Spec {
	return []Spec{PVCSch40, PVCSch80, PVCPN10, PVCPN16, FlexInch, FlexMetric, HosePipe, RibbedHose}
}

// IsKnown reports whether the spec is one of Specs.
func (s Spec) IsKnown() bool { return slices.Contains(Specs(), s) }

// Family returns what the spec can be glued to: Inch, Metric, or Hose for hose on barbs; ""
// for a spec that is not known.
func (s Spec) Family() Family {
	switch s {
	case PVCSch40, PVCSch80, FlexInch:
		return Inch
	case PVCPN10, PVCPN16, FlexMetric:
		return Metric
	case HosePipe, RibbedHose:
		return Hose
	}
	return ""
}

// IsHose reports whether it goes on barbs, smooth inside or corrugated.
func (s Spec) IsHose() bool { return s.Family() == Hose }

// Word is what the trade calls it in a sentence: "hose" where it goes on barbs, else "pipe".
func (s Spec) Word() string {
	if s.IsHose() {
		return "hose"
	}
	return "pipe"
}

// Pipe is what pipe of it is called among other words: "pvc-sch40 pipe", "hose", "corrugated hose".
func (s Spec) Pipe() string {
	switch s {
	case "":
		return "pipe of no kind"
	case HosePipe:
		return s.Word()
	case RibbedHose:
		return "corrugated " + s.Word()
	}
	return string(s) + " " + s.Word()
}

// Flexible reports whether pipe of the spec bends: it needs no elbows and no support spacing.
func (s Spec) Flexible() bool {
	return s == FlexInch || s == FlexMetric || s.IsHose()
}

// Sawn reports whether pipe of the spec is cut with a saw, which takes its kerf; hose is cut with shears
// or a knife, which take nothing. Flexible PVC is sawn: it is glued, its end has to be square, and the
// rib in its wall turns a blade. Common practice, no source.
func (s Spec) Sawn() bool { return !s.IsHose() }

// fittingSpec returns the spec whose fittings are used where the spec has none of its own.
func (s Spec) fittingSpec() Spec {
	switch s.Family() {
	case Inch:
		return PVCSch40
	case Metric:
		return PVCPN16
	case Hose:
		return HosePipe
	}
	return s
}
