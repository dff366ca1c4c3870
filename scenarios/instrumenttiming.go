package scenarios

import (
	"fmt"

	"dryline/vessel/nav"
)

type outageSection struct {
	From float64 `key:"from_s" unit:"s" min:"0" max:"86400" required:"true" doc:"Its beginning, from the start of the exercise."`
	To   float64 `key:"to_s" unit:"s" min:"0" max:"86400" required:"true" doc:"Its end."`
}

// timing is when an instrument, by its key, speaks and when it does not.
func timing(c *checker, instrument string, rate, delay float64, outages []outageSection) nav.Timing {
	t := nav.Timing{Rate: rate, Delay: delay}
	for i, o := range outages {
		path := fmt.Sprintf("instruments.%s.outages[%d]", instrument, i)
		if c.sound(path+".to_s", path+".from_s") && o.To <= o.From {
			c.fault(path+".to_s", c.number(o.To), "is not after its beginning", "more than "+c.number(o.From)+" s")
		}
		t.Outages = append(t.Outages, nav.Window(o))
	}
	return t
}
