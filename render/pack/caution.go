package pack

// caution is one thing that can hurt somebody, and who must see to it.
type caution struct{ Topic, Say, Source string }

// cautions lists the usual ones. They defer to local codes and licensed trades; standards
// are named from memory unless the source says otherwise.
func cautions() []caution {
	return []caution{
		{"Electricity", "Qualified electrician only: dedicated circuit, 30 mA residual current protection of the type the unit's maker asks for, isolator out of reach of bathers, bonding of metal parts. Power off, locked off and proved dead before the cabinet is opened. Bathroom and pool zones and distances to the water are set by local code.", "IEC 60364-7-702, BS 7671 section 702, NEC article 680 (from memory)"},
		{"Element heater", "Its leads are disconnected by an electrician, or the interlock named in this pack is proved. No valve may trap water round an energised element.", "common practice, no source"},
		{"Bathing temperature", "40 °C (104 °F) at the most. The tub's high limit stays active.", "EN 17125, IEC 60335-2-60 (from memory)"},
		{"Suction entrapment", "Suction covers present, sound and in date; both suctions stay open; no valve, check or throttle goes into a suction line; the flow through a cover must not rise above its rating.", "EN 13451-3, ASME A112.19.8 (from memory)"},
		{"Hot water and pressure", "Relieve pressure, let hot water cool and shut both isolators before any union is opened. Plastic pipe is weaker when warm: the ratings in this pack are derated. Test with water only, never with compressed air.", "ASTM and ISO derating tables; common practice"},
		{"Solvent cement and primer", "Flammable, and the vapour collects in a cabinet: ventilate, no flame or spark, gloves, keep power off until it has aired. Cure times on the tin decide.", "common practice, no source; the cement maker's label is the authority"},
		{"Refrigerant", "The unit's sealed circuit is opened by a certified person only. A propane (R290) unit needs the clear zone of its manual: no socket, switch, drain or pit inside it.", "Regulation (EU) 2024/573, IEC 60335-2-40 (from memory)"},
		{"Lifting", "Two people, or a hoist. Fix the unit to a level base.", "common practice, no source"},
		{"Water hygiene", "Disinfect after the work, with the unit off and bypassed during a shock dose. No dead legs: drain a branch that is laid up. Let or commercial tubs fall under local law.", "common practice, no source"},
		{"Frost", "A power cut below 0 °C cracks unions and the unit first: drain the unit's branch at the drains of the drawing, or keep water moving.", "common practice, no source"},
		{"Warranty", "Cutting the tub's pipe or disconnecting its element may end the maker's warranty: the owner agrees in writing first.", "common practice, no source"},
	}
}
