package bell_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/ui/bell"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

var began = time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC)

func alert(kind facts.AlertKind, level advice.Level) say.Alert {
	return say.Alert{Alert: facts.Alert{Kind: kind, Level: level}, Words: "words of " + string(kind)}
}

// heard lets seconds pass with the same alerts on, and returns at which of them the bell rang.
func heard(b bell.Bell, alerts []say.Alert, from, seconds int) (bell.Bell, []int) {
	var rang []int
	for s := from; s < from+seconds; s++ {
		var call *say.Alert
		b, call = b.Hear(alerts, began.Add(time.Duration(s)*time.Second))
		if call != nil {
			rang = append(rang, s)
		}
	}
	return b, rang
}

func TestWhenTheBellRings(t *testing.T) {
	for _, c := range []struct {
		name  string
		level advice.Level
		rang  []int
	}{
		{"what is quiet does not ring", advice.Quiet, nil},
		{"what warns rings once", advice.Warning, []int{0}},
		{"what calls rings again after two minutes, and then stays silent", advice.Calling, []int{0, 120}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, rang := heard(bell.Bell{}, []say.Alert{alert("one", c.level)}, 0, 1000)
			assert.Equal(t, c.rang, rang)
		})
	}
}

func TestWhatComesAgainRingsAgain(t *testing.T) {
	on := []say.Alert{alert("dew", advice.Warning)}
	b, rang := heard(bell.Bell{}, on, 0, 10)
	assert.Equal(t, []int{0}, rang)
	b, rang = heard(b, nil, 10, 5)
	assert.Empty(t, rang)
	_, isOn := b.Since("dew")
	assert.False(t, isOn, "it is over")
	b, rang = heard(b, on, 15, 10)
	assert.Equal(t, []int{15}, rang)
	since, isOn := b.Since("dew")
	assert.True(t, isOn)
	assert.Equal(t, began.Add(15*time.Second), since)
}

func TestOfSeveralTheWorstRings(t *testing.T) {
	both := []say.Alert{alert("dew", advice.Warning), alert("limit", advice.Calling)}
	_, call := bell.Bell{}.Hear(both, began)
	require.NotNil(t, call)
	assert.Equal(t, facts.AlertKind("limit"), call.Kind)
	_, rang := heard(bell.Bell{}, both, 0, 60)
	assert.Equal(t, []int{0}, rang, "both began: one sound")
}

func TestWarningThatBecomesACallRingsWhenItIsDue(t *testing.T) {
	b, _ := heard(bell.Bell{}, []say.Alert{alert("limit", advice.Warning)}, 0, 60)
	_, rang := heard(b, []say.Alert{alert("limit", advice.Calling)}, 60, 200)
	assert.Equal(t, []int{120}, rang, "two minutes after it rang first")
}

func TestWhatWasOnWhenTheNightWasReadDoesNotRing(t *testing.T) {
	on := []say.Alert{alert("dew", advice.Warning), alert("limit", advice.Calling), alert("card", advice.Quiet)}
	b := bell.Bell{}.Told(on, began)
	_, isOn := b.Since("card")
	assert.False(t, isOn)
	_, rang := heard(b, on, 0, 119)
	assert.Empty(t, rang)
	_, rang = heard(b, on, 119, 60)
	assert.Equal(t, []int{120}, rang, "the call reminds")
}

func TestSnooze(t *testing.T) {
	how := kit.Alarm{Snooze: 10 * time.Minute}
	call := []say.Alert{alert("limit", advice.Calling)}
	b, said := bell.Bell{}.Snooze(began, how, time.UTC)
	assert.Equal(t, "no alarm is on that could be kept quiet", said)
	assert.False(t, b.Snoozing(began))

	b, _ = heard(b, call, 0, 60)
	at := began.Add(time.Minute)
	b, said = b.Snooze(at, how, time.UTC)
	assert.Contains(t, said, "1 alarm quiet until 12:11")
	assert.Equal(t, at.Add(10*time.Minute), b.Until())
	assert.True(t, b.IsQuiet(call[0], at))
	assert.Empty(t, b.Heeded(call, at))

	both := append([]say.Alert{alert("dew", advice.Warning)}, call...)
	quiet, rang := heard(b, both, 61, 500)
	assert.Equal(t, []int{61}, rang, "what begins meanwhile rings, the other stays quiet")
	require.Len(t, quiet.Heeded(both, at), 1)
	assert.Equal(t, facts.AlertKind("dew"), quiet.Heeded(both, at)[0].Kind)

	_, rang = heard(quiet, call, 561, 200)
	assert.Equal(t, []int{660}, rang, "when the ten minutes are over, its reminder")

	awake, said := b.Snooze(at.Add(time.Second), how, time.UTC)
	assert.Equal(t, "alarms ring again", said)
	assert.False(t, awake.IsQuiet(call[0], at.Add(time.Second)))
	assert.True(t, b.Snoozing(at.Add(time.Second)), "a bell is a value: the one before is as it was")
}

func TestWhatIsHeededComesWorstFirst(t *testing.T) {
	all := []say.Alert{alert("dew", advice.Warning), alert("card", advice.Quiet), alert("limit", advice.Calling), alert("disk", advice.Warning)}
	var kinds []facts.AlertKind
	for _, a := range (bell.Bell{}).Heeded(all, began) {
		kinds = append(kinds, a.Kind)
	}
	assert.Equal(t, []facts.AlertKind{"limit", "dew", "disk"}, kinds)
}

func TestMessagesOfATerminal(t *testing.T) {
	for _, c := range []struct {
		name string
		env  map[string]string
		want string // of the text "a;b" with a bell in it
	}{
		{"one that is not known gets none", map[string]string{"TERM": "xterm-256color"}, ""},
		{"one by number 99", map[string]string{"TERM": "xterm-kitty"}, "\x1b]99;;duskhand: a,b,\x1b\\"},
		{"one by number 777", map[string]string{"TERM": "foot-extra"}, "\x1b]777;notify;duskhand;a,b,\x1b\\"},
		{"one by number 9", map[string]string{"TERM": "xterm", "TERM_PROGRAM": "WezTerm"}, "\x1b]9;duskhand: a,b,\x1b\\"},
		{"a multiplexer keeps them to itself", map[string]string{"TERM": "tmux-256color", "TERM_PROGRAM": "WezTerm"}, ""},
		{"also where it hides behind the terminal's name", map[string]string{"TERM": "xterm-kitty", "TMUX": "/tmp/x"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := bell.MessagesOf(func(name string) string { return c.env[name] })
			assert.Equal(t, c.want, m.Message("a;b\a"))
		})
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("the terminal is gone") }

func TestRing(t *testing.T) {
	limit := alert("limit", advice.Calling)
	for _, c := range []struct {
		name  string
		alarm kit.Alarm
		want  string
		does  bool
	}{
		{"the terminal's bell", kit.Alarm{Bell: "bell"}, "\a", true},
		{"nothing at all", kit.Alarm{Bell: "none"}, "", false},
		{"a message without a sound", kit.Alarm{Bell: "none", Notify: true}, "\x1b]9;duskhand: limit: words of limit\x1b\\", true},
		{"both", kit.Alarm{Bell: "bell", Notify: true}, "\a\x1b]9;duskhand: limit: words of limit\x1b\\", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out bytes.Buffer
			cmd := bell.Ring(c.alarm, bell.OSC9, &out, limit)
			assert.Empty(t, out.String(), "nothing happens before the command is carried out")
			require.Equal(t, c.does, cmd != nil)
			if c.does {
				assert.Equal(t, bell.RungMsg{}, cmd())
			}
			assert.Equal(t, c.want, out.String())
		})
	}
	failed := bell.Ring(kit.Alarm{Bell: "bell"}, bell.NoMessages, broken{}, limit)().(bell.RungMsg)
	assert.ErrorContains(t, failed.Err, "the terminal is gone")
}

func TestTheOperatorsOwnCommand(t *testing.T) {
	touched := filepath.Join(t.TempDir(), "rang; not a shell")
	var out bytes.Buffer
	rung := bell.Ring(kit.Alarm{Bell: "command", Command: []string{"touch", touched}}, bell.NoMessages, &out, alert("limit", advice.Calling))().(bell.RungMsg)
	require.NoError(t, rung.Err)
	_, err := os.Stat(touched)
	assert.NoError(t, err, "run with its arguments as they stand")
	missing := bell.Ring(kit.Alarm{Bell: "command", Command: []string{"/no/such/horn"}, Notify: true}, bell.OSC9, &out, alert("limit", advice.Calling))().(bell.RungMsg)
	assert.ErrorContains(t, missing.Err, "the alarm command /no/such/horn failed")
	assert.Contains(t, out.String(), "words of limit", "the message comes all the same")
}
