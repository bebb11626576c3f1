package checklist_test

import (
	"testing"

	"duskhand/checklist"
	"duskhand/sky"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// keeping is told with the facts that stood in the steps meanwhile.
func (s *story) keeping(at int, a checklist.Action, facts map[string]string) *story {
	s.t.Helper()
	kind, body, err := checklist.Steps().Say(s.night, a, adelaide)
	require.NoError(s.t, err)
	body, err = checklist.Steps().Keep(s.night, kind, body, minute(at), facts)
	require.NoError(s.t, err)
	return s.event(minute(at), kind, body)
}

func pair(first, second string) map[string]string {
	return map[string]string{"star_1": first, "star_2": second, "target": "NGC 2070"}
}

func sightOf(name string) checklist.Sighted {
	return checklist.Sighted{Name: name, Readout: sky.Horizontal{Altitude: 40 * sky.Degree, Azimuth: 120 * sky.Degree}}
}

func TestAStepThatIsDoneKeepsItsWords(t *testing.T) {
	later := pair("Markab", "Algol")
	s := begin(t).keeping(0, checklist.DoStep{Step: "first-star"}, pair("Mirfak", "Aldebaran"))
	assert.Equal(t, "Centre Mirfak on the live view and confirm it.", s.state("first-star").Sentence(later))
	assert.JSONEq(t, `{"step":"first-star","loop":1,"kept":[{"step":"first-star","values":{"star_1":"Mirfak","star_2":"Aldebaran"}}]}`,
		string(s.events[0].Body), "kinds and values, and not the sentence")

	assert.Equal(t, s.night, checklist.Fold(s.events), "Next and Fold agree")

	old := begin(t).told(0, checklist.DoStep{Step: "first-star"})
	assert.Equal(t, "Centre Markab on the live view and confirm it.", old.state("first-star").Sentence(later), "a journal that keeps no words")

	unknown := begin(t).keeping(0, checklist.DoStep{Step: "frame-it"}, nil)
	assert.Equal(t, "Bring the target to where you want it on the chip.",
		unknown.state("frame-it").Sentence(map[string]string{"target": "M 42", "camera_angle": "10°"}), "what was not known stays so")
}

func TestWhatAnEventProvesKeepsItsWordsToo(t *testing.T) {
	offered := map[string]string{"start_angle": "−16°", "run_length": "1 h 52 min", "rewind_to": "−16°", "next_run": "1 h 50 min"}
	s := begin(t).done(0, "cables-slack").keeping(1, checklist.Rewound{To: *deg(-16)}, offered)
	const first = "Turn the derotator to −16°; from there the first run lasts 1 h 52 min. Then say so."
	assert.Equal(t, first, s.state("first-rewind").Sentence(nil))
	s.told(2, checklist.TurnOn{}).told(3, checklist.StartSubs{}).told(90, checklist.StopSubs{}).
		keeping(95, checklist.Rewound{To: *deg(-12)}, map[string]string{"start_angle": "−12°", "rewind_to": "−12°", "next_run": "50 min"})
	assert.Equal(t, first, s.state("first-rewind").Sentence(nil), "a later rewind is another step's")
	assert.Equal(t, minute(1), s.state("first-rewind").At, "what is done stays as it was done")
	assert.Equal(t, checklist.Open, s.state("rewind-again").State, "that of the next run")
	for _, step := range checklist.Steps().InLoop(s.night, 1) {
		if step.ID == "rewind-again" {
			assert.Equal(t, "Rewind to −12°; the next run lasts 50 min. Then say so.", step.Sentence(nil))
		}
	}
}

func TestTheAlignmentIsWhatWasSaidOfIt(t *testing.T) {
	s := begin(t)
	assert.Zero(t, s.night.Alignment())
	s.keeping(0, checklist.FailStep{Step: "first-star", Note: "a tree"}, pair("Capella", "Deneb"))
	assert.True(t, s.state("first-star").Waiting(), "with the next star")
	s.keeping(1, checklist.DoStep{Step: "first-star"}, pair("Mirfak", "Aldebaran"))
	a := s.night.Alignment()
	assert.Equal(t, checklist.Alignment{First: "Mirfak", Since: minute(1), Second: "Aldebaran",
		Missed: []checklist.Missed{{Star: "Capella", At: minute(0)}}}, a)
	s.keeping(2, checklist.FailStep{Step: "second-star", Note: "not found"}, pair("Mirfak", "Aldebaran"))
	assert.True(t, s.state("second-star").Waiting())
	s.keeping(3, checklist.DoStep{Step: "second-star"}, pair("Mirfak", "Elnath"))
	assert.Equal(t, "Elnath", s.night.Alignment().Second)
	assert.True(t, s.night.Alignment().Done)
	s.told(4, checklist.Undo{})
	assert.Equal(t, "Aldebaran", s.night.Alignment().Second)
	assert.False(t, s.night.Alignment().Done)
}

func TestSightsWithoutWordsFreezeThePairToo(t *testing.T) {
	s := begin(t).told(0, sightOf("Rigel"))
	assert.Equal(t, checklist.Alignment{First: "Rigel", Since: minute(0)}, s.night.Alignment())
	s.told(1, sightOf("Achernar")).told(2, sightOf("Canopus"))
	assert.Equal(t, "Achernar", s.night.Alignment().Second, "the third star is the one to be sure with")
	assert.Equal(t, minute(0), s.state("first-star").At)
}
