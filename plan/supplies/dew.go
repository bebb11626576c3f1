package supplies

import (
	"fmt"
	"math"

	"duskhand/sky/words"
)

// Air is what a thermometer and a hygrometer beside the telescope read.
type Air struct{ TemperatureC, HumidityPercent float64 }

// The range in which Alduchov & Eskridge fitted their constants.
const (
	coldestC = -40
	warmestC = 50
)

// Constants of the saturation pressure over water, (17.625·T)/(243.04 + T).
// Source: Alduchov & Eskridge 1996, J. Appl. Meteor. 35, 601, eq. 21 (its number by memory).
const (
	magnusFactor = 17.625
	magnusC      = 243.04
)

// Check returns nil if there is air of such a temperature and humidity, and the dew point is known for it.
func (a Air) Check() error {
	switch {
	case !(a.TemperatureC >= coldestC && a.TemperatureC <= warmestC):
		return fmt.Errorf("the air temperature %s is out of range; give %d to %s", words.CelsiusAsRead(a.TemperatureC), coldestC, words.Celsius(warmestC, 0))
	case !(a.HumidityPercent >= 1 && a.HumidityPercent <= 100):
		return fmt.Errorf("the relative humidity %g %% is out of range; give 1 to 100 %%", a.HumidityPercent)
	}
	return nil
}

// DewPointC returns the temperature at which the air's moisture begins to settle, over water: below freezing
// hoar frost forms sooner, by about a tenth of the degrees below 0.
//
// Valid:  air that passes Check.
// Error:  0.4 % of vapour pressure by the authors, less than 0.1 °C; a hygrometer's 3 % are worth 0.5 °C.
// Source: the project's handbook, section 11: γ = ln(RH/100) + 17.625T/(243.04+T), Td = 243.04γ/(17.625−γ).
func (a Air) DewPointC() float64 {
	γ := math.Log(a.HumidityPercent/100) + magnus(a.TemperatureC)
	return magnusC * γ / (magnusFactor - γ)
}

// HumidityPercent returns the relative humidity of air whose dew point is known; above 100 when that lies over
// the air's temperature, which no air holds.
func HumidityPercent(airC, dewPointC float64) float64 {
	return 100 * math.Exp(magnus(dewPointC)-magnus(airC))
}

func magnus(celsius float64) float64 { return magnusFactor * celsius / (magnusC + celsius) }

// safeMarginK is how far the air must stay above its dew point for glass that looks at a clear sky to stay
// dry: it radiates its warmth away and grows colder than the air. Common practice.
const safeMarginK = 3.0

// Risk is what the air does to glass under a clear sky.
type Risk int

// The risks.
const (
	Dry Risk = iota // more than 3 K above the dew point
	DewNear
	DewNow // the air itself is within half a kelvin of it
)

// saturatedK is how near its dew point air counts as saturated: what a hygrometer's error is worth.
const saturatedK = 0.5

// Dew is what the air says about the glass.
type Dew struct {
	Air     Air
	PointC  float64
	MarginK float64 // of the air above its dew point, never below 0
	Risk    Risk
}

// DewIn returns what the air says about the glass, or an error that says what would be right.
func DewIn(a Air) (Dew, error) {
	if err := a.Check(); err != nil {
		return Dew{}, err
	}
	d := Dew{Air: a, PointC: a.DewPointC()}
	d.MarginK = math.Max(0, a.TemperatureC-d.PointC) // rounding at 100 %
	switch {
	case d.MarginK <= saturatedK:
		d.Risk = DewNow
	case d.MarginK <= safeMarginK:
		d.Risk = DewNear
	}
	return d, nil
}

// WarnBelowC returns the air temperature below which dew is near, if the air cools with the moisture that it
// has.
func (d Dew) WarnBelowC() float64 { return d.PointC + safeMarginK }
