package scenarios

import "dryline/sim/exercise"

type helpSection struct {
	Coach       bool    `key:"coach" default:"true" doc:"Whether hints are given while the exercise runs."`
	TrueScene   bool    `key:"true_scene" default:"false" doc:"Whether the trainee may see where vessel, cable and fish truly are."`
	Pause       bool    `key:"pause" default:"true" doc:"Whether the exercise can be paused."`
	Helmsman    bool    `key:"helmsman" default:"false" doc:"Whether orders may be spoken to a helmsman, who reads them back and carries them out a while later."`
	Mishears    float64 `key:"mishears_percent" unit:"percent" min:"0" max:"100" default:"8" doc:"Share of the orders that the helmsman takes for others."`
	MostSpeedUp float64 `key:"most_speed_up" min:"1" max:"20" default:"20" doc:"Times real time that the trainee may let it run at most."`
	SideView    bool    `key:"side_view_assessed" default:"false" doc:"Whether the view from the side is shown in an assessment too; otherwise it always is."`
}

func (h helpSection) help() exercise.Help {
	out := exercise.Help{Coach: h.Coach, TrueScene: h.TrueScene, Pause: h.Pause, MostSpeedUp: h.MostSpeedUp, Helmsman: h.Helmsman, SideView: h.SideView}
	if h.Helmsman {
		out.Mishears = h.Mishears / hundred
	}
	return out
}
