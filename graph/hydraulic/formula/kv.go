package formula

// KvHead returns what turns the flow factor Kv (m³/h) of a valve into head over the square
// of flow, m/(m³/s)², for water of a density in kg/m³. By the definition of Kv
//
//	Δp[bar] = (Q[m³/h]/Kv)²·ρ/1000
//
// so that the head does not hang on the density: h = 1e5·(3600·q/Kv)²/(1000·g).
//
// Source: IEC 60534-1, as quoted in a valve handbook.
func KvHead(kv float64) float64 { return 1e5 * 3600 * 3600 / (kv * kv * 1000 * Gravity) }

// KvToK returns the loss coefficient [-] on a bore (m) of a valve with a flow factor Kv
// (m³/h). Source: as KvHead.
func KvToK(kv, bore float64) float64 { return KvHead(kv) / HeadPerFlow2(bore) }

// CvToKv is the Kv in m³/h of a valve with Cv 1 (US gpm at 1 psi). Source: exact from the
// units, 0.227124707 m³/h and 0.0689475729 bar.
const CvToKv = 0.864977
