package checklist

import "encoding/json"

// Renumbered returns the body of an event of the given kind for a journal in which other events bear other
// ordinals: what an undo names is named as the function says. Other bodies come back as they are.
func Renumbered(kind string, body json.RawMessage, ordinal func(int64) int64) (json.RawMessage, error) {
	if kind != KindUndone {
		return body, nil
	}
	var undone UndoneBody
	if err := json.Unmarshal(body, &undone); err != nil {
		return nil, err
	}
	undone.Ordinal = ordinal(undone.Ordinal)
	return json.Marshal(undone)
}
