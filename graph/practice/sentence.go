package practice

import "dryfit/catalog/quantity"

// Reader is whom a sentence is for; several may be or-ed together.
type Reader int

// The readers.
const (
	Fitter Reader = 1 << iota
	Electrician
	Owner
)

// Act is something a sentence tells somebody to do that another may forbid.
type Act string

// Sentence is one thing the trade says.
type Sentence struct {
	Name   string                   // in plain words, hyphenated
	When   func(*Job) bool          // nil: always
	Say    func(*Job) quantity.Text // whole sentences
	Tells  []Act                    // what it tells somebody to do
	Names  func(*Job) []string      // tags of valves and kinds of parts it names, which the job must have
	For    Reader                   // 0: Fitter
	Source string
}

// Said is a sentence as one job has it.
type Said struct {
	Name   string
	Source quantity.Text
	Text   quantity.Text
	For    Reader
	Tells  []Act
	Names  []string
}

// Pick returns what the sentences say of a job, in their order.
func Pick(j *Job, list []Sentence) []Said {
	var out []Said
	for _, s := range list {
		if s.When != nil && !s.When(j) {
			continue
		}
		said := Said{Name: s.Name, Text: s.Say(j), Source: quantity.Prose(s.Source), For: s.For, Tells: s.Tells}
		if said.For == 0 {
			said.For = Fitter
		}
		if s.Names != nil {
			said.Names = s.Names(j)
		}
		out = append(out, said)
	}
	return out
}

// Texts returns the words alone, in the units of a system.
func Texts(list []Said, units quantity.System) []string {
	words := make([]quantity.Text, len(list))
	for i, s := range list {
		words[i] = s.Text
	}
	return quantity.Worded(words, units)
}

// Subject is the sentences on one matter.
type Subject struct {
	Name      string
	Sentences []Sentence
}

// Subjects returns everything there is to say, subject by subject.
func Subjects() []Subject {
	return []Subject{
		{"cautions", Cautions()}, {"set points", SetPoints()}, {"high limit", HighLimit()}, {"controller", Controller()},
		{"place of the unit", Place()}, {"getting ready", Ready()}, {"before the day", Beforehand()}, {"jointing", Jointing()}, {"old joints", OldJoints()}, {"holes", Bore()}, {"dry fit", DryFit()}, {"insulation", Insulation()},
		{"the unit leaves", Leave()}, {"taking out", TakeOut()}, {"commissioning", Commissioning()}, {"hygiene", Hygiene()}, {"hand-over", HandOver()}, {"setting", Setting()},
		{"shut off", ShutOff()}, {"frost", Frost()}, {"lay-up", LayUp()}, {"electricity", Electricity()}, {"taken out", TakenOut()},
	}
}

// Everything returns all that is said of a job, in the order of Subjects.
func Everything(j *Job) []Said {
	var out []Said
	for _, s := range Subjects() {
		out = append(out, Pick(j, s.Sentences)...)
	}
	return out
}

// always says the same of every job.
func always(text quantity.Text) func(*Job) quantity.Text {
	return func(*Job) quantity.Text { return text }
}

// and lists words: "V1", "V1 and V2", "V1, V2 and V4".
func and[T ~string](words ...T) quantity.Text {
	var text quantity.Text
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			text += " and "
		default:
			text += ", "
		}
		text += quantity.Text(w)
	}
	return text
}

// And lists words as the sentences do: "V1, V2 and V4".
func And(words []string) string { return and(words...).String() }

// The sources that stand beside most sentences.
const (
	common = "common practice, no source"
	memory = "from memory"
)
