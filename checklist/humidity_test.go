package checklist_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
)

func TestHumidityIsReadAndTakenBack(t *testing.T) {
	s := begin(t).say(0, checklist.ReadHumidity{Percent: 72}).say(30, checklist.ReadHumidity{Percent: 85.5})
	assert.Equal(t, []checklist.Humidity{{At: minute(0), Percent: 72}, {At: minute(30), Percent: 85.5}}, s.night.Humidities)
	assert.Equal(t, "undo: humidity 85.5 %, 22:30", s.night.UndoWords(adelaide)) // 11:30 UTC + 30 min + 10:30
	first := s.night
	s.say(31, checklist.Undo{})
	assert.Len(t, s.night.Humidities, 1)
	assert.Len(t, first.Humidities, 2, "the night before is left alone")
	s.say(32, checklist.NoticeJump{From: minute(32), To: minute(92)})
	assert.Equal(t, minute(60), s.night.Humidities[0].At, "on the clock as it goes now")
	assert.Equal(t, checklist.Fold(s.events), s.night)
}

func TestHumidityThatIsNoneIsRefused(t *testing.T) {
	s := begin(t)
	s.refuses(checklist.ReadHumidity{Percent: 101}, "a relative humidity of 101 % makes no sense; give one from 1 to 100")
	s.refuses(checklist.ReadHumidity{Percent: -1}, "a relative humidity of −1 % makes no sense; give one from 1 to 100")
	s.refuses(checklist.ReadHumidity{Percent: 0.5}, "a relative humidity of 0.5 % makes no sense; give one from 1 to 100")
	s.refuses(checklist.ReadHumidity{Percent: math.NaN()}, "a relative humidity of NaN % makes no sense; give one from 1 to 100")
	s.event(minute(0).Add(time.Second), checklist.KindHumidity, "no body of ours")
	assert.Len(t, s.night.PassedOver, 1)
}
