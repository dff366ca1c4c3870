package sim

import "dryline/vessel/nav"

// Reading is what the instruments showed at the last tick.
func (s *Session) Reading() nav.Reading { return s.reading }
