package checklist

import (
	"fmt"
	"time"

	"duskhand/sky/words"
)

// KindHumidity is the kind of events about the moisture of the air.
const KindHumidity = "humidity"

// HumidityBody is the body of KindHumidity: the relative humidity of the air at the telescope, 1 to 100.
type HumidityBody struct {
	Percent float64 `json:"percent"`
}

// Humidity is one reading of the hygrometer: relative humidity, 1 to 100.
type Humidity struct {
	At      time.Time
	Percent float64
}

// ReadHumidity says what the hygrometer shows.
type ReadHumidity struct{ Percent float64 }

func (a ReadHumidity) event(Night, *time.Location) (string, any, error) {
	if !(a.Percent >= 1 && a.Percent <= 100) {
		return "", nil, fmt.Errorf("a relative humidity of %s makes no sense; give one from 1 to 100", words.PercentAsRead(a.Percent))
	}
	return KindHumidity, HumidityBody(a), nil
}

func (n *Night) humidity(b HumidityBody, at time.Time) {
	n.Humidities = append(n.Humidities, Humidity{at, b.Percent})
}
