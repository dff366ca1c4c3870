package sim

// adjustDesk carries out a command about how the desk places the fish.
func (s *Session) adjustDesk(c Command) {
	set := s.Desk.Settings
	switch c.Do {
	case Factor:
		set.CatenaryFactor = c.Value
	case SheaveHeight:
		set.SheaveHeight = c.Value
	case TowOffset:
		set.AntennaToTow = c.Value
	case TowSide:
		set.TowToStarboard = c.Value
	case PositionBy:
		set.Position = c.Method
	}
	s.Desk.Adjust(set)
}
