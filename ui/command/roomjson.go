package command

import (
	"encoding/json"
	"time"
)

// roomJSON is the answer of room as a script reads it; null for what is not known.
type roomJSON struct {
	Answer   string  `json:"answer"`
	Exposure float64 `json:"exposure_s"`
	Left     *int64  `json:"seconds_left"`
	Longest  *int64  `json:"longest_s"`
	By       *string `json:"by"`
	ByLocal  *string `json:"by_local"`
	Before   *string `json:"before"`
	RewindBy *string `json:"rewind_by"`
	Why      *string `json:"why"`
}

func (p Program) writeRoomJSON(r room) error {
	j := roomJSON{Answer: map[verdict]string{fits: "yes", tooLate: "no", unknown: "unknown"}[r.verdict()], Exposure: r.exposure.Seconds()}
	if r.why != nil {
		j.Why = textOrNull(r.why.Error())
	} else {
		local := r.by.In(r.zone).Truncate(time.Second).Format(time.RFC3339)
		left, longest, by, before := whole(r.left()), whole(r.longest()), instant(r.by.Truncate(time.Second)), "window"
		if r.rewind {
			before, j.RewindBy = "rewind", &by
		}
		j.Left, j.Longest, j.By, j.ByLocal, j.Before = &left, &longest, &by, &local, &before
	}
	encoder := json.NewEncoder(p.Streams.Out)
	encoder.SetEscapeHTML(false)
	return encoder.Encode(j)
}
