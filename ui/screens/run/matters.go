package run

import (
	"strings"

	"duskhand/checklist/advice"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// What matters beside the run: what will not last, what the guiding wants, what knowing the axis better would gain.

// matters says it in one line, the longest way first; none when nothing matters that what to do does not say.
func (m view) matters() (ways []string) {
	var all [][]string
	for _, out := range m.Run.RunningOut(m.Subs.FreeBytes) {
		all = append(all, say.RunningOut(m.Run, out))
	}
	said := m.Voice().SaysAlert() && m.Voice().Alerts[0].Kind == facts.GuidingAges
	do := m.Voice().Advice.Do
	turns := do == advice.Rewind || do == advice.HandOver || do == advice.Stow // the guiding is asked after once the stage has turned
	if words, ok := say.Guiding(m.Run); ok && !said && !turns {
		all = append(all, words)
	}
	if words, ok := say.PriceWords(m.Price); ok {
		all = append(all, words)
	}
	if len(all) == 0 {
		return nil
	}
	var longest, rest []string
	for _, words := range all {
		longest, rest = append(longest, words[0]), append(rest, words[len(words)-1])
	}
	ways = []string{strings.Join(longest, " · ")}
	for _, first := range all[0] {
		rest[0] = first
		ways = append(ways, strings.Join(rest, " · "))
	}
	return append(ways, all[0]...)
}
