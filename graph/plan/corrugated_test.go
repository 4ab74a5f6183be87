package plan_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// Corrugated hose goes on barbs with clips as smooth hose does: a job with it has the same findings, joints
// and fittings, and less water. It was taken for pipe that is glued.
func TestCorrugatedHoseIsHose(t *testing.T) {
	for _, file := range []string{"../../testdata/plug-in.toml", "testdata/jobs/plug-in.toml"} {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		said := func(text string) (list []string, flow float64) {
			p := work(t, read(t, "job.toml", []byte(text)), plan.Findings|plan.Flows|plan.Lists)
			for _, d := range p.Findings {
				if d.Severity == graph.Error {
					list = append(list, d.Rule+" "+d.Message.In(0))
				}
			}
			for _, j := range p.After.Layout.Joints {
				list = append(list, fmt.Sprint(j.Number, j.Kind))
			}
			for _, i := range p.Bill.Items {
				if i.New && i.Kind != "pipe" {
					list = append(list, fmt.Sprint(i.Kind, i.Size, i.Quantity))
				}
			}
			for _, f := range p.After.Solutions[0].Parts {
				if f.Part.Kind == graph.HeatPump {
					flow = f.Flow
				}
			}
			return list, flow
		}
		smooth, full := said(string(data))
		ribbed, less := said(strings.ReplaceAll(string(data), `spec = "hose"`, `spec = "hose-corrugated"`))
		if !slices.Equal(smooth, ribbed) {
			t.Errorf("%s:\n%v\nof corrugated hose\n%v", file, smooth, ribbed)
		}
		if !(less < full) || less < full/2 {
			t.Errorf("%s: %g through smooth hose, %g through corrugated", file, full, less)
		}
	}
}
