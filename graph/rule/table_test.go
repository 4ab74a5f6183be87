package rule_test

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/rule"
)

// TestTable refuses a rule that is not documented, or is there twice.
func TestTable(t *testing.T) {
	name := regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)*$`)
	seen := map[string]bool{}
	for _, r := range rule.All() {
		if !name.MatchString(r.Name) || seen[r.Name] {
			t.Errorf("name %q is not in plain words with hyphens, or is there twice", r.Name)
		}
		seen[r.Name] = true
		for what, text := range map[string]string{"Asks": r.Asks, "Why": r.Why, "Source": r.Source} {
			if strings.TrimSpace(text) == "" {
				t.Errorf("%s: %s is empty", r.Name, what)
			}
		}
		for what, text := range map[string]string{"Asks": r.Asks, "Why": r.Why} {
			if !strings.HasSuffix(text, ".") {
				t.Errorf("%s: %s is no sentence: %q", r.Name, what, text)
			}
		}
		if r.Severity < graph.Note || r.Severity > graph.Error {
			t.Errorf("%s: severity %d", r.Name, r.Severity)
		}
		if r.Needs < rule.NeedsCircuit || r.Needs > rule.NeedsFlow {
			t.Errorf("%s: needs %d", r.Name, r.Needs)
		}
		if r.Check == nil {
			t.Errorf("%s has no check", r.Name)
		}
		if rule.ByName(r.Name) == nil || !strings.Contains(rule.Explain(r.Name).In(quantity.MetricSystem), quantity.Prose(r.Why).String()) {
			t.Errorf("%s can't be found or explained by its name", r.Name)
		}
	}
	if rule.ByName("no-such-rule") != nil || rule.Explain("no-such-rule") != "" {
		t.Error("a name no rule has gives a rule")
	}
}
