package say

import (
	"fmt"

	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Verdict says whether a target is worth it, the longest way first.
func Verdict(v facts.Verdict, k kit.Kit) []string {
	name, subs := v.Choice.Target.Name, words.Lasting(v.Choice.Working)
	if v.Turn != nil && v.Worth != facts.NotWorth {
		return inTurn(v, name)
	}
	switch v.Worth {
	case facts.WorthIt:
		return []string{fmt.Sprintf("Worth it: %s gives %s of subs", name, subs), "Worth it: " + subs + " of subs", "Worth it: " + subs, "Worth it"}
	case facts.HardlyWorth:
		return []string{fmt.Sprintf("Hardly worth it: %s gives %s of subs, %s", name, subs, against(v, k)),
			fmt.Sprintf("Hardly worth it: %s, %s", against(v, k), subs), "Hardly worth it: " + subs, "Hardly: " + subs, "Hardly"}
	}
	if v.Choice.Working == 0 {
		return []string{fmt.Sprintf("Not worth it: %s: %s", name, against(v, k)), "Not worth it: " + against(v, k), "Not worth it: " + name, "Not worth it"}
	}
	return []string{fmt.Sprintf("Not worth it: %s: %s, %s of subs", name, against(v, k), subs),
		fmt.Sprintf("Not worth it: %s, %s", against(v, k), subs), "Not worth it: " + subs, "Not worth it"}
}

// inTurn says what a target's turn of a divided night gives, beside what the night alone would.
func inTurn(v facts.Verdict, name string) []string {
	is := "Worth it"
	if v.Worth == facts.HardlyWorth {
		is = "Hardly worth it"
	}
	turn, alone := words.Lasting(v.Turn.Working), words.Lasting(v.Choice.Working)
	return []string{fmt.Sprintf("%s: %s gets %d subs in its turn, %s (%s alone)", is, name, v.Turn.Subs, turn, alone),
		fmt.Sprintf("%s: %d subs in its turn, %s", is, v.Turn.Subs, turn), fmt.Sprintf("%s: %d subs", is, v.Turn.Subs), is}
}

// against is what speaks against the choice, in a few words.
func against(v facts.Verdict, k kit.Kit) string {
	lost := 100 * (1 - v.Against.Share)
	switch v.Against.Of {
	case choose.ByMoon:
		return fmt.Sprintf("Moon %s", words.Percent(v.Choice.Moon.Illuminated, 0))
	case choose.ByHeight:
		return fmt.Sprintf("highest %s", words.Degrees(v.Choice.Highest, 0))
	case choose.ByFraming:
		return v.Choice.Size.Fit.String() + " on the chip"
	case choose.ByFilter:
		return fmt.Sprintf("the filters give %s", words.Percent(v.Against.Share, 0))
	case choose.ByGoal:
		if v.Against.Share == 0 {
			return "complete"
		}
		return "little left to do"
	}
	if v.Choice.Up == 0 {
		return Factor(v.Choice, v.Against, k)
	}
	return fmt.Sprintf("turning takes %.0f %%", lost)
}
