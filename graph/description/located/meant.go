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
	joined, ok := v.at.keys[meant].join(there, at, given)
	if ok {
		delete(t, key)
		t[meant] = joined
	}
	return ok
}

// join puts a value at one entry and one at another together; false where it can't.
func (p *entry) join(has any, other *entry, more any) (joined any, ok bool) {
	switch has := has.(type) {
	case []map[string]any:
		list, ok := more.([]map[string]any)
		if ok {
			p.items = append(p.items, other.items...)
		}
		return append(has, list...), ok
	case map[string]any:
		table, ok := more.(map[string]any)
		if !ok {
			return nil, false
		}
		for _, key := range other.order {
			if theirs, both := has[key]; !both {
				p.child(key, 0)
				has[key], p.keys[key] = table[key], other.keys[key]
			} else if has[key], ok = p.keys[key].join(theirs, other.keys[key], table[key]); !ok {
				has[key] = theirs
				return nil, false
			}
		}
		return has, true
	}
	return nil, false
}
