package screens

import (
	"fmt"
	"strings"

	"duskhand/checklist"
	"duskhand/sky"
	"duskhand/sky/words"
)

// AskAngle asks for an angle within the derotator's travel. Enter alone takes the proposed one, if there
// is one.
func (s Status) AskAngle(question string, proposed *sky.Angle, done func(sky.Angle) checklist.Action) Prompt {
	d := s.Kit.Derotator
	proposal := ""
	if proposed != nil {
		proposal = words.SignedTenths(*proposed)
	}
	return NewPrompt(question, proposal, func(text string) (Intent, error) {
		if text == "" && proposed != nil {
			return Say{done(*proposed)}, nil
		}
		angle, err := sky.ParseAngle(text)
		if err != nil {
			return nil, fmt.Errorf("%q is no angle; give the degrees that the derotator shows, as %s", text, words.SignedTenths(d.Min))
		}
		if angle < d.Min || angle > d.Max {
			return nil, fmt.Errorf("%s is outside the travel, %s to %s; give the angle that the derotator shows", words.SignedTenths(angle), words.Signed(d.Min), words.Signed(d.Max))
		}
		return Say{done(angle)}, nil
	})
}

// AskWhoWrites asks whether to follow the program that writes this night, or to write here instead. It is
// asked unasked for, so that it stays in the footer and leaves the night's answer where it is.
func (s Status) AskWhoWrites() Prompt {
	if s.Orphaned {
		return NewChoice("", s.Follows, Choice{"enter", "writes here from now on", TakeOver{}},
			Choice{"w", "does the same", TakeOver{}})
	}
	return NewChoice("", s.Follows, Choice{"enter", "follows it", nil},
		Choice{"w", "writes here instead: the other then writes no more", TakeOver{}})
}

// AskDivide asks whether the rest of the night is divided among the kit's targets.
func (s Status) AskDivide() Prompt {
	action := s.Run.Divide()
	if len(action.Parts) < 2 && s.Tonight.Shared() == nil {
		return NewChoice("ONE", "fewer than two targets want subs", Choice{"enter", "goes on", nil})
	}
	var names []string
	for _, p := range action.Parts {
		names = append(names, p.Target)
	}
	return NewChoice("DIVIDE?", "divide the rest of the night among "+strings.Join(names, ", "),
		Choice{"enter", "divides it", Say{action}}, Choice{"n", "gives it to one target alone", Say{checklist.DivideNight{}}})
}

// AskOffAll asks whether the derotator is off although subs are being taken.
func AskOffAll() Prompt {
	return NewChoice("OFF?", "subs are being taken; derotator off all the same",
		Choice{"enter", "says that it is off", Say{checklist.TurnOff{}}})
}

// AskLeave asks whether what was said in a night that is not kept may be lost.
func (s Status) AskLeave() Prompt {
	return NewChoice("LEAVE?", s.Unkept, Choice{"q", "leaves the program", Leave{}}, Choice{"k", "keeps it under a name first", AskKeep{}})
}
