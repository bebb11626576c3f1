package choose

import (
	"strings"
	"time"

	"duskhand/plan/kit"
	"duskhand/plan/scan"
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

// goal fills in what earlier nights left to do, and whether the night gives more.
func (n *Night) goal(c *Choice, goals map[string]Goal) {
	if goal, known := goalOf(c.Target, goals); known {
		c.Goal, c.Spare = &goal, n.open(*c) > goal.Left
	}
}

// open is the time that the shutter can be open.
func (n *Night) open(c Choice) time.Duration {
	return scan.PaceOf(n.Plan.Kit.SubsFor(c.Target)).Open(c.Working)
}

// goalFactor lets no more count than is left to do, and something begun count for more.
func (n *Night) goalFactor(c Choice, w Weights) Factor {
	f := Factor{Of: ByGoal, Share: 1, Told: c.Goal != nil}
	switch {
	case c.Goal == nil:
		return f
	case c.Goal.Left <= 0:
		return Factor{ByGoal, 0, true}
	case c.Goal.Taken > 0:
		f.Share = w.Begun
	}
	if c.Spare {
		f.Share *= float64(c.Goal.Left) / float64(n.open(c))
	}
	return f
}
