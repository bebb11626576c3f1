package checklist

import (
	"errors"
	"time"
)

// KindSubArrived is the event of a frame of the capture computer's having been read, by the program itself.
const KindSubArrived = "sub-arrived"

// SubArrivedBody is the body of KindSubArrived: the file, what its header says, what its stars look like, what
// they say of the derotator, and where it looks. What is not known is nil or empty. Instants are nanoseconds since 1970 in
// UTC; lengths on the chip are pixels; Background and Noise are ADU.
type SubArrivedBody struct {
	Path      string  `json:"path"`
	SizeBytes int64   `json:"size_bytes"`
	ChangedNs int64   `json:"changed_unix_ns"` // the file's time, on the clock of whoever keeps the folder
	Was       string  `json:"was,omitempty"`   // its path before it was renamed
	SeenNs    int64   `json:"seen_unix_ns"`    // on our clock
	LateS     float64 `json:"late_s,omitempty"`
	Already   bool    `json:"already,omitempty"` // it was there when the watch began

	StartNs   *int64   `json:"start_unix_ns,omitempty"`      // as the header has it
	OursNs    *int64   `json:"start_ours_unix_ns,omitempty"` // on our clock, as well as it was known on arrival
	ExposureS *float64 `json:"exposure_s,omitempty"`
	Filter    string   `json:"filter,omitempty"`
	Object    string   `json:"object,omitempty"`
	Kind      string   `json:"kind,omitempty"` // light, dark, flat, bias
	SensorC   *float64 `json:"sensor_c,omitempty"`
	BinX      int      `json:"bin_x,omitempty"`
	BinY      int      `json:"bin_y,omitempty"`
	Width     int      `json:"width_px,omitempty"`
	Height    int      `json:"height_px,omitempty"`

	Measured *MeasuredBody `json:"measured,omitempty"`
	Remarks  []string      `json:"remarks,omitempty"`
	Unread   string        `json:"unread,omitempty"` // why it could not be read
	Turning  *TurningBody  `json:"turning,omitempty"`
	Turned   *TurnedBody   `json:"turned,omitempty"`   // since the run before
	Placed   *PlacedBody   `json:"placed,omitempty"`   // by its stars; nil when it is not
	Unplaced string        `json:"unplaced,omitempty"` // why it is not, a kind of package solve; "" when nobody tried
}

// MeasuredBody is what the stars of a light look like. DirectionDeg is that of the mean elongation, from +X
// towards +Y.
type MeasuredBody struct {
	Background   float64 `json:"background_adu"`
	Noise        float64 `json:"noise_adu"`
	Stars        int     `json:"stars"`
	HFD          float64 `json:"hfd_px"`
	Elongation   float64 `json:"elongation"`
	DirectionDeg float64 `json:"direction_deg"`
	// NinthsPx are the median half-flux diameters in the ninths of the frame, row by row in the order of the file; 0
	// where too few stars tell. Nil in journals that know of none.
	NinthsPx  []float64    `json:"ninths_px,omitempty"`
	Saturated float64      `json:"saturated_share,omitempty"` // of the pixels
	Full      int          `json:"saturated_stars,omitempty"`
	Colours   []ColourBody `json:"colours,omitempty"` // of a colour chip
}

// ColourBody is what one colour of a chip shows of the sky.
type ColourBody struct {
	Colour     string  `json:"colour"` // R, G or B
	Background float64 `json:"background_adu"`
	Noise      float64 `json:"noise_adu"`
	Saturated  float64 `json:"saturated_share"`
}

// TurningBody is what a light and those before it say of the derotator: how fast the camera turned on the sky
// between two instants, one σ of that, and how fast it would have turned with the derotator off.
type TurningBody struct {
	Kind             string  `json:"kind"`
	Alarm            bool    `json:"alarm,omitempty"`
	RateDegPerH      float64 `json:"rate_deg_per_h"`
	ErrorDegPerH     float64 `json:"error_deg_per_h"`
	PredictedDegPerH float64 `json:"predicted_deg_per_h"`
	Lights           int     `json:"lights"`
	// MovedPx is how far the middle of the frame has moved since the run's first light; nil when it can't be
	// compared.
	MovedPx *float64 `json:"moved_px,omitempty"`
	// MovedXPx and MovedYPx are how far along the file's axes; nil in journals that have MovedPx alone.
	MovedXPx *float64 `json:"moved_x_px,omitempty"`
	MovedYPx *float64 `json:"moved_y_px,omitempty"`
	// Untold is the kind of reason for which the lights do not tell.
	Untold string `json:"untold,omitempty"`
	// Why is why a light can't be compared, in the words of the error; older journals have all reasons here, and what
	// explains a creeping field too.
	Why       string         `json:"why,omitempty"`
	Explained *ExplainedBody `json:"explained,omitempty"`
}

// Arrived is a frame that has been read; At is when that was noted.
type Arrived struct {
	At time.Time
	SubArrivedBody
}

// Began returns when the exposure began: on our clock, as found when the frame arrived, or else as its header has
// it. ok is false when neither is known.
func (a Arrived) Began() (at time.Time, ok bool) {
	ns := a.OursNs
	if ns == nil {
		ns = a.StartNs
	}
	if ns == nil {
		return time.Time{}, false
	}
	return time.Unix(0, *ns).UTC(), true
}

// SubArrived says that a frame has been read. It is no person's word, and undo passes it over.
type SubArrived struct{ Body SubArrivedBody }

func (a SubArrived) event(Night, *time.Location) (string, any, error) {
	if a.Body.Path == "" {
		return "", nil, errors.New("the frame has no path; give the file's")
	}
	return KindSubArrived, a.Body, nil
}

func (n *Night) subArrived(b SubArrivedBody, at time.Time) {
	n.Arrived = append(n.Arrived, Arrived{at, b})
}
