package light

// RememberedIDs returns the objects whose brightness is by memory.
func RememberedIDs() (ids []string) {
	for id := range reflection {
		ids = append(ids, id)
	}
	for id := range glowing {
		ids = append(ids, id)
	}
	return ids
}
