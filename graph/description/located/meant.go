package located

// TakenAs makes what stands under one key of a table stand under another, where it stands: a key
// whose name was mistyped can then be read as the one that was meant. Tables in double brackets of
// both names become one list, tables of both names one table. It reports whether it could: not where
// both keys say the same thing twice.
func (v Value) TakenAs(key, meant string) bool {
	t, ok := v.V.(map[string]any)
	if !ok || v.at == nil || v.at.keys[key] == nil {
		return false
	}
	given, at := t[key], v.at.keys[key]
	there, both := t[meant]
	if !both {
		v.at.order = append(v.at.order, meant)
		delete(t, key)
		t[meant], v.at.keys[meant] = given, at
		return true
	}
	if !v.at.keys[meant].joins(there, at, given) {
		return false
	}
	delete(t, key)
	t[meant] = v.at.keys[meant].join(there, at, given)
	return true
}

// joins reports whether a value at one entry and one at another can be put together: lists of tables,
// and tables that say no key twice but such as can be put together themselves.
func (p *entry) joins(has any, other *entry, more any) bool {
	switch has := has.(type) {
	case []map[string]any:
		_, ok := more.([]map[string]any)
		return ok
	case map[string]any:
		table, ok := more.(map[string]any)
		if !ok {
			return false
		}
		for _, key := range other.order {
			if theirs, both := has[key]; both && !p.keys[key].joins(theirs, other.keys[key], table[key]) {
				return false
			}
		}
		return true
	}
	return false
}

// join puts together what joins says can be.
func (p *entry) join(has any, other *entry, more any) any {
	if has, ok := has.([]map[string]any); ok {
		p.items = append(p.items, other.items...)
		return append(has, more.([]map[string]any)...)
	}
	into, table := has.(map[string]any), more.(map[string]any)
	for _, key := range other.order {
		if theirs, both := into[key]; both {
			into[key] = p.keys[key].join(theirs, other.keys[key], table[key])
			continue
		}
		p.child(key, 0)
		into[key], p.keys[key] = table[key], other.keys[key]
	}
	return into
}
