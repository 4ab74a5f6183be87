package plan

// propose builds the work that [retrofit] asks for into the plan's circuit. Without
// [retrofit] the circuit is drawn in full and stays as it is.
func propose(p *Plan, want Want) {
	if p.Asked.Retrofit == nil {
		return
	}
}

// spread adds the ranges that follow from how well the inputs are known.
func (p *Plan) spread(want Want) {
	if want&Ranges == 0 || p.After == nil {
		return
	}
}

// advise adds the choice of the bypass element.
func (p *Plan) advise(want Want) {
	if want&Advice == 0 || p.After == nil {
		return
	}
}
