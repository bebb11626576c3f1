package choose

import (
	"fmt"
	"strings"

	"duskhand/plan/kit"
	"duskhand/plan/scan"
	"duskhand/sky/words"
)

func foldedGoals(goals map[string]Goal) map[string]Goal {
	folded := make(map[string]Goal, len(goals))
	for name, goal := range goals {
		folded[fold(name)] = goal
	}
	return folded
}

// fold makes names comparable that differ in case or spacing only.
func fold(name string) string { return strings.ToLower(strings.ReplaceAll(name, " ", "")) }

// goalOf returns the goal of a target, by its name or another of the object's.
func goalOf(target kit.Target, goals map[string]Goal) (goal Goal, known bool) {
	if len(goals) == 0 {
		return Goal{}, false
	}
	for _, name := range append([]string{target.Name, target.Object.ID}, target.Object.Names...) {
		if goal, known = goals[fold(name)]; known {
			return goal, true
		}
	}
	return Goal{}, false
}

// goalFactor lets no more count than is left to do, and something begun count for more.
func (n *Night) goalFactor(c Choice, goals map[string]Goal, w Weights) Factor {
	f := Factor{Of: ByGoal, Share: 1}
	goal, known := goalOf(c.Target, goals)
	if !known {
		return f
	}
	if goal.Left <= 0 {
		return Factor{ByGoal, 0, fmt.Sprintf("complete: %s taken", words.Lasting(goal.Taken))}
	}
	f.Words = fmt.Sprintf("%s wanted", words.Lasting(goal.Left))
	if goal.Taken > 0 {
		f.Share = w.Begun
		f.Words = fmt.Sprintf("%s left of what is begun", words.Lasting(goal.Left))
	}
	if open := scan.PaceOf(n.Plan.Kit.SubsFor(c.Target)).Open(c.Working); open > goal.Left {
		f.Share *= float64(goal.Left) / float64(open)
		f.Words += ", less than the night gives"
	}
	return f
}
